/** What each pattern says. Causes: common practice of service literature. */
import { describe, expect, it } from "vitest";
import type { HumTold } from "../../readings/sound/hum";
import { family, humSays } from "./says";

/** Lines by their order, rms in dB re full scale; the others do not stand. */
const told = (db: Readonly<Record<number, number>>, nominalHz = 60): HumTold => {
  const lines = Array.from({ length: 12 }, (_, i) => ({
    order: i + 1,
    hz: (i + 1) * nominalHz,
    rmsDbfs: db[i + 1] ?? -90,
    uDb: db[i + 1] === undefined ? 0 : 0.2,
    stands: db[i + 1] !== undefined,
  }));
  const all = family(lines, () => true);
  return {
    nominalHz,
    lines,
    soundRmsDbfs: -20,
    framesCount: 10,
    ...(all.stands ? { mains: { hz: nominalHz, uHz: 0.01 }, allRmsDbfs: all.db } : {}),
  };
};
const textOf = (heard: Parameters<typeof humSays>[0]) =>
  humSays(heard)
    .map((f) => `${f.id}: ${f.says} ${f.do ?? ""}`)
    .join("\n");

describe("lines", () => {
  it("at twice the mains are ripple of a full-wave supply", () => {
    expect(textOf({ normal: told({ 2: -40, 4: -48 }) })).toContain("120 Hz and its multiples: ripple of a full-wave supply");
    expect(textOf({ normal: told({ 2: -40 }, 50) })).toContain("at 100 Hz");
  });
  it("at the mains alone are a tie, with the ripple at B+ to measure next, where the set is open and live", () => {
    const says = humSays({ normal: told({ 1: -40 }) });
    const next = says.find((f) => f.id === "hum-ripple-next")!;
    for (const cause of ["one half of the rectifier", "heater-cathode leakage", "The sound alone can't separate these"])
      expect(next.says).toContain(cause);
    expect([next.state, next.hazards.includes("b-plus"), next.do?.includes("ripple at B+")]).toEqual(["open-live", true, true]);
  });
  it("at the mains are ripple of a half-wave set itself", () =>
    expect(textOf({ normal: told({ 1: -40 }), halfWave: true })).toContain("half-wave supply ripples at 60 Hz itself"));
  it("at both are both", () => expect(textOf({ normal: told({ 1: -44, 2: -42 }) })).toContain("neither far above the other"));
  it("with the third above the first mark a field", () =>
    expect(textOf({ normal: told({ 1: -50, 3: -42 }) })).toContain("180 Hz is stronger than 60 Hz"));
  it("that do not stand say nothing", () => expect(textOf({ normal: told({}) })).toContain("No hum rises"));
});
describe("two recordings", () => {
  const normal = told({ 2: -40 });
  it.each([
    [{ 2: -40.5 }, "after the volume control"],
    [{ 2: -60 }, "ahead of the volume control"],
    [{}, "ahead of the volume control"],
    [{ 2: -46 }, "part of it stays"],
    [{ 2: -30 }, "louder"],
  ])("with the volume at zero, %o", (zero, says) => expect(textOf({ normal, atZero: told(zero) })).toContain(says));
  it("alone asks for the other", () => expect(textOf({ normal })).toContain("volume at zero and nothing else moved"));
  it("on a carrier: modulation hum only where it grows", () => {
    expect(textOf({ normal, carrier: told({ 2: -25 }) })).toContain("modulation hum. The carrier");
    expect(textOf({ normal, carrier: told({ 2: -39 }) })).toContain("not modulation hum");
  });
});
