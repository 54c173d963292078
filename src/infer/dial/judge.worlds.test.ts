/** Dials from another language: read as well as stated, worse, after a slip, and with a marker missed. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type DialWorld, heldDial } from "../../invented/dials";

const { dials } = JSON.parse(readFileSync("samples/worlds/dials.json", "utf8")) as { dials: DialWorld[] };
const judged = (family: string) => {
  const all = dials.filter((d) => d.family === family).map(heldDial);
  const told = all.flatMap((h) => ("held" in h ? [h] : []));
  const part = told.reduce((s, h) => s + h.held, 0) / told.reduce((s, h) => s + h.asked, 0);
  return { count: all.length, told: told.length, part, refused: all.flatMap((h) => ("refused" in h ? [h.refused] : [])) };
};
const sure = /^(slipped|miscounted|slipped-or-miscounted)$/;

describe("the dial's 95 % interval", () => {
  it("holds the truth, readings as stated: none is refused", () => {
    const j = judged("as stated");
    expect(j.told).toBe(j.count);
    expect(j.part).toBeGreaterThan(0.93);
  });
  it.each(["scatters twice", "scatters six times"])(
    "holds the truth, or there is none, and nothing is called a slip for certain: %s",
    (family) => {
      const j = judged(family);
      expect(j.told).toBeGreaterThan(0.6 * j.count);
      expect(j.part).toBeGreaterThan(0.93);
      expect(j.refused.filter((code) => sure.test(code))).toEqual([]);
    },
  );
  it.each(["slipped", "miscounted"])("is not given, but for a dial of fewer than ten beats in twelve: %s", (family) => {
    const j = judged(family);
    expect(j.told).toBeLessThanOrEqual(1);
    expect(j.refused.filter((code) => sure.test(code)).length).toBeGreaterThan(0.7 * j.count);
  });
});
