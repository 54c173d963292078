import { expect, it } from "vitest";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { answer } from "../answer";
import { coil } from "./sheet";
import theory from "./theory.md";

const ask = (overrides: Record<string, string>) => orThrow(answer(coil, emptyBench, { draws: 100, overrides }));

it("gives turns for a wanted inductance that, wound, resonate where they should", () => {
  const { turnsWanted } = ask({ frequency: "7.1 MHz", capacitance: "80 pF" }).results;
  const again = ask({ frequency: "7.1 MHz", capacitance: "80 pF", turns: String(turnsWanted.value) });
  expect(again.results.resonance.value! / 7.1e6).toBeCloseTo(1, 6);
  expect(again.results.offBy.value).toBeCloseTo(0, 6);
});
it("says whether the slug takes it up, and when a winding is out of shape for its formula", () => {
  expect(ask({ capacitance: "99 pF", frequency: "3.75 MHz" }).findings.map((f) => f.id)).toContain("coil-slug-yes");
  expect(ask({ turns: "20" }).findings.map((f) => f.id)).toContain("coil-slug-no");
  expect(ask({ winding: "several layers", depth: "0.3 mm" }).findings.map((f) => f.id)).toContain("coil-shape");
});
it.each([
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
