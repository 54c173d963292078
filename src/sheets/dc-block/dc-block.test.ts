import { expect, it } from "vitest";
import { StripResponse } from "../../physics/if-strip";
import { wide } from "../../physics/prototype-strips.testdata";
import { solveBlock as solveWith } from "./solve";
import theory from "./theory.md";

const base = {
  strip: wide,
  cableLength: 0.9144,
  cableCapacitancePerLength: 29e-12 / 0.3048,
  couplingCapacitance: 1e-9,
  secondaryVoltage: 300,
  highLine: 127 / 117,
  ratingMargin: 1.5,
  reactanceShare: 0.05,
  trapRatio: 0.3,
  bleederResistance: 1e6,
  leakResistance: 100e6,
  soundResistance: 50e9,
  bPlusSourceResistance: 1,
};
const solveBlock = (x: typeof base) => solveWith(x, new StripResponse());
const row = (text: string) => Number(new RegExp(`\\| ${text} *\\| ([\\d.]+)`).exec(theory)![1]);

it("recomputes the worked example of its page", () => {
  const y = solveBlock(base);
  expect(Math.abs(y.noLoadBPlus - row("no-load B\\+"))).toBeLessThan(0.06);
  expect(Math.abs(y.requiredRating - row("rating asked for"))).toBeLessThan(0.06);
  expect(y.preferredRating).toBe(row("next rated voltage"));
  expect(Math.abs(y.smallestCapacitance * 1e12 - row("smallest by the trap at 0.3"))).toBeLessThan(0.1);
  expect(y.preferredCapacitance * 1e9).toBeCloseTo(row("next preferred \\(E6\\)"), 9);
  expect(Math.abs(y.seriesReactance - row("its reactance at the IF"))).toBeLessThan(0.06);
  const leak = (300 * base.bleederResistance) / (base.bleederResistance + base.leakResistance);
  expect(Math.abs(leak - row("leak of 100 Mohm into 1 Mohm from 300 V"))).toBeLessThan(0.005);
});
it("a bleeder holds a leak and not a short", () => {
  const y = solveBlock(base);
  expect(y.connectorLeaky).toBeLessThan(5);
  expect(y.connectorShorted).toBeGreaterThan(0.999 * y.noLoadBPlus);
  expect(y.connectorSound).toBeLessThan(0.02);
});
it("each of two in series is at least twice the smallest value, so that the pair still is", () => {
  const y = solveBlock(base);
  expect(y.pairEach / 2).toBeGreaterThanOrEqual(y.smallestCapacitance);
});
it("with a short cable the reactance decides, with a long one the trap", () => {
  const short = solveBlock({ ...base, cableLength: 0.01 });
  expect(short.smallestCapacitance).toBeCloseTo(1 / (2 * Math.PI * 455e3 * 0.05 * short.plateImpedance), 15);
  const long = solveBlock({ ...base, cableLength: 10 });
  expect(long.trapFrequency).toBeLessThanOrEqual(0.3 * 455e3 * (1 + 1e-9));
});
it("reckons the trap of the part that is fitted as it does the one that it asks for", () => {
  const y = solveBlock(base);
  expect(solveBlock({ ...base, couplingCapacitance: y.preferredCapacitance }).fittedTrap).toBeCloseTo(y.trapFrequency, 6);
  expect(solveBlock({ ...base, couplingCapacitance: 1 }).fittedTrap).toBeLessThan(10);
});
it("energy and charge", () => {
  const y = solveBlock(base);
  expect(y.storedEnergy).toBeCloseTo((y.preferredCapacitance * y.noLoadBPlus ** 2) / 2, 12);
  expect(y.storedCharge / y.noLoadBPlus).toBeCloseTo(y.preferredCapacitance, 15);
});
