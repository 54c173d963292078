import { describe, expect, it } from "vitest";
import { adjustment, marksOf, perTurn } from "./adjust";
import { otherSideAt } from "./blame";
import { ask, base, noise, off, read, runsAt, t, text, three } from "./oscillator.testdata";

describe("the next adjustment", () => {
  it("brings both marks right at once, where turning one after the other would take many rounds", () => {
    const now = off(0.04, -0.15, 0);
    const a = adjustment(base, t, now)!;
    const after = (f: number): number =>
      runsAt(f, off((1 + now.coil) * (1 + a.slugShare) - 1, now.trimmer + a.trimmerF / t.parts!.trimmerF, 0)) - 455e3 - f;
    for (const f of marksOf(base)) expect(Math.abs(after(f))).toBeLessThan(1);
    // coil and trimmer were all that was off: the whole dial is right again
    expect(a.leftHz).toBeLessThan(1);
  });
  it("knows turns and direction only after a trial, and then takes them from it", () => {
    const readings = text(read(0.05, 0, 0, three));
    expect(ask({ readings, ...noise(500) }).results.slugTurns.why).toContain("no trial turn");
    // a quarter turn clockwise takes 1 % off the coil
    const [before, after] = [0.05, 1.05 * 0.99 - 1].map((c) => runsAt(1.7e6, off(c, 0, 0)) - 455e3);
    const trials = `slug, 0.25, 1.7 MHz, ${before} Hz, ${after} Hz`;
    const each = perTurn({ ...base, trials: [{ what: 0, turns: 0.25, dial: 1.7e6, before, after }] }, t, off(0.05, 0, 0), 0)!;
    expect(Math.abs(each / (-0.0105 / 0.25) - 1)).toBeLessThan(0.02);
    const a = ask({ readings, ...noise(500), trials });
    expect(a.results.slugTurns.value!).toBeGreaterThan(0.9);
    expect(a.results.slugTurns.value!).toBeLessThan(1.4);
    expect(a.findings.find((f) => f.id === "tracking-coil")!.do).toContain("turns of the slug");
  });
});
describe("why it never comes right", () => {
  it("the oscillator on its other side at the high end", () => {
    const mixed = [1.7e6, 2.2e6, 3.9e6, 4.6e6].map((dial) => ({
      dial,
      received: runsAt(dial, off(0, 0.9, 0)) + (dial > 2.8e6 ? 455e3 : -455e3),
      counted: Number.NaN,
    }));
    expect(otherSideAt({ ...base, readings: mixed }, t)).toBe("its high end");
    expect(otherSideAt({ ...base, readings: read(0.03, 0.1, 0, [1.7e6, 3e6, 4.6e6]) }, t)).toBeUndefined();
  });
  it("bandspread plates in mesh, a coil with shorted turns, a trimmer at its end", () => {
    const ids = (readings: string, more = {}) => ask({ readings, ...noise(500), ...more }).findings.map((f) => f.id);
    const meshed = ask({ readings: text(read(0, 0.5, 0, [1.7e6, 3e6, 4.6e6])), ...noise(500) }).findings;
    // the bandspread before the trimmer, which is only for where it stays so
    expect(meshed.find((f) => f.id.startsWith("tracking-"))).toMatchObject({ id: "tracking-meshed", severity: "act" });
    expect(meshed.find((f) => f.id === "tracking-trimmer")).toMatchObject({ severity: "check" });
    expect(meshed.find((f) => f.id === "tracking-trimmer")!.do).toMatch(/^Only if it stays so with the bandspread at its mark/);
    const shorted = ask({ readings: text(read(-0.2, 0, 0, [1.7e6, 3e6, 4.6e6])), ...noise(500) }).findings.find((f) =>
      f.id.startsWith("tracking-out-of-range-yes"),
    )!;
    expect(shorted).toMatchObject({ severity: "act", state: "open-dead" });
    expect(shorted.hazards).toEqual(expect.arrayContaining(["b-plus", "stored-charge"]));
    expect(shorted.do).toContain("shorted turns");
    expect(ids(text(read(0, 0.3, 0, [1.7e6, 3e6, 4.6e6])), { trimmerTravel: "2 pF" }).some((i) => i.endsWith("-yes"))).toBe(true);
  });
});
describe("an IF that was moved up by 1.3 kHz (an invented scenario)", () => {
  it("makes every mark receive 1.3 kHz low with the oscillator above, and can be corrected", () => {
    const a = ask({ ifMoved: "1.3 kHz" });
    expect(a.results.dialShift.value).toBe(-1300);
    expect(a.findings.find((f) => f.id === "tracking-if-moved-yes")!.do).toContain("every band");
    // an IF that went up asks for less coil, or less of the trimmer: the pure shift, free of the design's own error
    expect(Math.abs(a.results.shiftSlug.value!)).toBeLessThan(0.01);
    expect(a.results.shiftSlug.value!).toBeLessThan(0);
    expect(ask({ ifMoved: "0.05 kHz" }).results.shiftSlug.value! / a.results.shiftSlug.value!).toBeCloseTo(0.05 / 1.3, 3);
    expect(ask({ ifMoved: "1.3 kHz", oscillator: "below" }).results.dialShift.value).toBe(1300);
  });
  it("with the oscillator below says that it is not worked out, instead of asking for readings", () => {
    const b = ask({ oscillator: "below", readings: "1.7 MHz, 1.671 MHz; 4.6 MHz, 4.52 MHz" });
    expect(b.findings.map((f) => f.id)).toContain("tracking-no-parts");
    expect(b.headline).not.toContain("Read the dial");
  });
  it("by 40 kHz can't", () =>
    expect(ask({ ifMoved: "40 kHz", slugRange: "2 %", trimmerTravel: "1 pF" }).findings.map((f) => f.id)).toContain(
      "tracking-if-moved-no",
    ));
});
