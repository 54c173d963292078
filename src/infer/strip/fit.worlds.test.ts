/** IF strips from a simulation of the whole circuit in another language: as made, slugs turned, windings altered, near oscillation. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { heldStrip, type StripWorld } from "../../invented/strips";

const { strips } = JSON.parse(readFileSync("samples/worlds/strips.json", "utf8")) as { strips: StripWorld[] };
const some = (family: string) => strips.filter((s) => s.family === family).slice(0, 6);

describe("the fitted strip's 95 % interval of the width at -6 dB", () => {
  it.each(["as made", "slugs turned", "wild", "regenerative"])("holds the truth, %s", (family) => {
    const all = some(family).flatMap((s) => heldStrip(s, "perhaps") ?? []);
    expect(all.length).toBeGreaterThanOrEqual(4);
    expect(all.filter((h) => !h.width).length).toBeLessThanOrEqual(1);
  });
  it("holds turned slugs even where it was said that nobody touched them", () => {
    const all = some("slugs turned").flatMap((s) => heldStrip(s, "not") ?? []);
    expect(all.filter((h) => !h.width).length).toBeLessThanOrEqual(1);
    // such a fit leaves slugs, Q and coupling all open: k Q is told as widely as it is in doubt
    const kQ = all.flatMap((h) => h.kQ);
    expect(kQ.filter((held) => !held).length).toBeLessThanOrEqual(kQ.length / 10);
  });
  it("holds k Q of each can where a winding is damped, which a sweep hardly tells", () => {
    const kQ = strips.filter((s) => s.family === "damped").flatMap((s) => heldStrip(s, "perhaps")?.kQ ?? []);
    expect(kQ.length).toBeGreaterThan(30);
    expect(kQ.filter((held) => !held).length).toBeLessThanOrEqual(kQ.length / 10);
  });
});
