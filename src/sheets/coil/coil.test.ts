import { expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { coil } from "./sheet";
import theory from "./theory.md";

const ask = (overrides: Record<string, string>) => orThrow(answer(coil, emptyBench, { draws: 100, overrides }));

it("gives turns for a wanted inductance that, wound, resonate where they should", () => {
  const { turnsWanted } = ask({ frequency: "7.1 MHz", capacitance: "80 pF" }).results;
  const again = ask({ frequency: "7.1 MHz", capacitance: "80 pF", turns: String(turnsWanted.value) });
  expect(again.results.resonance.value! / 7.1e6).toBeCloseTo(1, 6);
  expect(again.results.offBy.value).toBeCloseTo(0, 6);
});
it("says whether the slug takes it up", () => {
  expect(ask({ capacitance: "99 pF ±1 pF", frequency: "3.75 MHz" }).findings.map((f) => f.id)).toContain("coil-slug-yes");
  expect(ask({ turns: "20" }).findings.map((f) => f.id)).toContain("coil-slug-no");
});
it("holds the formula's own doubt of 1 to 2 %, even where the winding is measured exactly, and says how to be rid of it", () => {
  const exactly = { diameter: "19.05 mm ±0", length: "38.1 mm ±0", selfCapacitance: "3 pF ±0", capacitance: "100 pF ±0" };
  const { value, low, high } = ask(exactly).results.inductance;
  expect((high! - low!) / 4 / value!).toBeGreaterThan(0.008);
  expect((high! - low!) / 4 / value!).toBeLessThan(0.016);
  expect(orThrow(answer(coil, emptyBench, { draws: 400, overrides: exactly })).next[0].how).toContain("known capacitor");
});
it("works out a winding of any shape, where the plain formula is 5 to 10 % off", () => {
  const flat = { winding: "several layers", turns: "100", diameter: "20 mm", length: "1 mm", depth: "15 mm" };
  // rings over the cross section in scientific Python, elliptic integrals of its library: 155.38 uH
  expect(Math.abs(ask(flat).results.inductance.value! / 155.38e-6 - 1)).toBeLessThan(0.003);
});
it.each([
  [{ winding: "several layers", diameter: "10 mm", depth: "10 mm" }, "depth", "past-its-axis"],
  [{ turns: "0" }, "turns", "not-positive"],
  [{ length: "-2 cm" }, "length", "not-positive"],
])("refuses %j at its field", (overrides, path, code) => {
  const r = answer(coil, emptyBench, { draws: 5, overrides: overrides as never });
  expect(r.ok ? [] : r.issues.map((i) => [i.path, i.code])).toEqual([[path, code]]);
});
it("recomputes the worked example of its page", () => {
  const [, value] = /\| inductance \| ([\d.]+) uH \|/.exec(theory)!;
  expect(ask({ diameter: "0.75 in", length: "1.5 in" }).results.inductance.value! * 1e6).toBeCloseTo(Number(value), 2);
});
