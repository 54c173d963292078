import { describe, expect, it } from "vitest";
import type { Asked } from "./ask";
import { asFound, ask, base, ownFindings, weigh } from "./supply.testdata";
import { namedOf } from "./weigh";

describe("a measured B+ from nothing to 1.6 times what is due", () => {
  const sets: readonly (readonly [string, Asked])[] = [
    ["a tube rectifier", { ...base, loadExponent: 1.2, bleeder: 50e3 }],
    ["silicon", { ...base, rectifierType: "silicon", loadExponent: 1.2, bleeder: 50e3 }],
    [
      "a half-wave set without transformer",
      {
        ...base,
        arrangement: "half-wave",
        rectifierType: "35W4 or 35Z5",
        originalRectifier: "35W4 or 35Z5",
        rectifierDrop: 21,
        rectifierCurrent: 0.2,
        secondaryVoltage: 117,
        secondaryResistance: 30,
        firstCapacitance: 40e-6,
        secondCapacitance: 40e-6,
        firstChoke: 0,
        firstResistance: 200,
        secondResistance: 1000,
        plateCurrent: 0.04,
        restCurrent: 0.014,
        loadExponent: 1.2,
        bleeder: 50e3,
      },
    ],
    ["choke input", { ...base, filterInput: "choke", secondaryVoltage: 350, loadExponent: 1.2, bleeder: 20e3 }],
  ];
  it.each(sets)("on %s: chances run on without a step, add up to one, and never drop the harmful cause", (_, x) => {
    const { expected, at } = weigh(x, 0.04);
    const step = 0.002;
    let before: ReadonlyMap<string, number> | undefined;
    for (let part = 0; part <= 1.6; part += step) {
      const causes = at(part * expected);
      expect(causes.reduce((sum, c) => sum + c.chance, 0)).toBeCloseTo(1, 6);
      const now = new Map(causes.map((c) => [c.id, c.chance]));
      // a fifth of a percent of the volts never moves a chance by more than a tenth
      for (const [id, chance] of now) if (before) expect(Math.abs(chance - before.get(id)!), `${id} at ${part}`).toBeLessThan(0.1);
      if (part < 0.75) {
        const harm = namedOf(causes).filter((c) => c.harmful);
        expect(harm.length, `${part}`).toBeGreaterThan(0);
        expect(
          harm.reduce((sum, c) => sum + c.chance, 0),
          `${part}`,
        ).toBeGreaterThan(0.05);
      }
      before = now;
    }
  });
  it.each(sets)("on %s: what is weighed roughly, while a hand turns a value, says the same to within 5 %", (_, x) => {
    const { expected, at } = weigh(x, 0.04);
    const rough = weigh(x, 0.04, true).at;
    for (let part = 0; part <= 1.6; part += 0.01) {
      const whole = new Map(at(part * expected).map((c) => [c.id, c.chance]));
      for (const c of rough(part * expected)) expect(Math.abs(c.chance - whole.get(c.id)!), `${c.id} at ${part}`).toBeLessThan(0.05);
    }
  });
  it("says stop under three quarters of what is due, names the harmful cause first, and tests for it before anything is tried", () => {
    for (const volts of ["0 V", "100 V", "148 V", "180 V", "205 V", "240 V"]) {
      const f = ownFindings({ ...asFound, lineVoltage: "117 V", measuredFirst: volts })[0];
      expect(f.severity, volts).toBe("danger");
      expect(f.says, volts).toMatch(/expected: a (shorted or leaky filter capacitor|heavy load)/);
      expect(f.do, volts).toMatch(
        /^Switch off now, unplug the set, discharge, measure\. In this order: 1\. ohms from the first filter capacitor/,
      );
      if (f.do!.includes("another rectifier")) expect(f.do!.indexOf("another rectifier")).toBeGreaterThan(f.do!.indexOf("bulb"));
    }
  });
  it("takes 0 V for a reading, and nothing recorded for nothing", () => {
    const dead = ownFindings({ ...asFound, measuredFirst: "0 V" })[0];
    expect(dead.says).toContain("Measured 0 V");
    expect(ask(asFound).findings.some((f) => f.says.startsWith("Measured"))).toBe(false);
    expect(ask({ ...asFound, measuredHeater: "0 V" }).findings.some((f) => f.id === "b-plus-heaters-dead")).toBe(true);
  });
});
