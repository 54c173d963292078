import { describe, expect, it } from "vitest";
import { lawFrom, solveStage } from "../physics/tube-stage";
import { converterPoints, diodePairs, tubeClasses, tubeClassOf, tubePointOf, tubePoints } from "./receiving-tubes";

/** Each class is held to what its own manual's figures must obey among themselves; the figures are from memory, their sums are not. */
describe("classes of the tube table", () => {
  it("has each class that a receiver of this age uses", () => {
    const own = new Set([...tubePoints, ...converterPoints, ...diodePairs].map((t) => t.tubeClass));
    expect([...own].sort()).toEqual([...tubeClasses].sort());
  });
  it.each(tubePoints.filter((t) => t.screenV === undefined).map((t) => [t.type, t] as const))(
    "%s: amplification is transconductance times plate resistance, within the manual's rounding",
    (_, t) => {
      expect(Math.abs((t.transconductance * (t.plateOhm ?? 0)) / (t.mu ?? 1) - 1)).toBeLessThan(0.07);
    },
  );
  it.each(tubePoints.filter((t) => t.screenV !== undefined).map((t) => [t.type, t] as const))(
    "%s: a screen that takes less than half of the cathode's current, an output tube more than 20 mA",
    (_, t) => {
      expect((t.screenA ?? 1) / (t.plateA + (t.screenA ?? 0))).toBeLessThan(0.5);
      if (t.tubeClass === "beam output") expect(t.plateA).toBeGreaterThan(0.02);
    },
  );
  it.each(converterPoints.map((t) => [t.type, t] as const))(
    "%s: its electrodes' currents sum to its cathode's; it converts with far less than 1 mS",
    (_, t) => {
      expect(t.plateA + t.screenA + t.gridA + t.anodeGridA).toBeCloseTo(t.cathodeA, 4);
      expect(t.conversionTransconductance).toBeGreaterThan(0.2e-3);
      expect(t.conversionTransconductance).toBeLessThan(1e-3);
    },
  );
  it.each(diodePairs.map((t) => [t.type, t] as const))("%s: carries milliamperes and bears hundreds of volts", (_, t) => {
    expect(t.mostA).toBeLessThan(0.02);
    expect(t.inverseV).toBeGreaterThan(200);
  });
  it.each(tubePoints.map((t) => [t.type, t] as const))("%s draws its own manual's current at its own manual's point", (_, t) => {
    const tube = lawFrom({ ...t, plateV: t.plateV });
    const totalA = t.plateA + (t.screenA ?? 0);
    const cathodeOhm = -t.gridV / totalA;
    const v = solveStage({
      tube,
      supplyV: (t.screenV === undefined ? t.plateV : Math.max(t.plateV, t.screenV)) - t.gridV,
      plateOhm: 1,
      screenOhm: t.screenV === undefined ? 1 : Math.max(1, (t.plateV - t.screenV) / (t.screenA ?? 1)),
      cathodeOhm,
      ...{ gridOhm: 1e5, returnV: 0, screenLeak: 0, cathodeLeak: 0, couplingLeak: 0, beforeV: 0 },
    })!;
    expect(v.cathode / cathodeOhm / totalA).toBeGreaterThan(0.97);
    expect(v.cathode / cathodeOhm / totalA).toBeLessThan(1.03);
  });
});
describe("what a socket says", () => {
  it.each([
    ["12AX7 half", "12AX7"],
    ["6AT6 class", "6AT6"],
    ["12at6", "6AT6"],
    ["6U8 triode", "6U8 triode"],
    ["6U8", "6U8 pentode"],
    ["50C5 class", "50C5"],
  ])("%s is %s", (said, type) => expect(tubePointOf(said)?.type).toBe(type));
  it("knows converters and diodes by class, and no type that it does not have", () => {
    expect(["6BE6 class", "6AL5", "6H6", "9ZZ9"].map(tubeClassOf)).toEqual(["converter", "double diode", "double diode", undefined]);
    expect(tubePointOf("6BE6")).toBeUndefined();
  });
  it("names no type twice", () => {
    const names = [...tubePoints, ...converterPoints, ...diodePairs].flatMap((t) => [t.type, ...t.also]);
    expect(names.filter((n, i) => names.indexOf(n) !== i)).toEqual([]);
  });
});
