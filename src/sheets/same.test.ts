import { describe, expect, it } from "vitest";
import { answer } from "../ask/answer";
import type { AnySheet } from "../ask/contract";
import type { Figure } from "../ask/results";
import { benchOfSet, subjectsOf } from "../job/view";
import { patterns } from "../set/patterns/kinds";
import { orThrow } from "../units/issue";
import { sheets } from "./index";

/** Results by the quantity of the set that they give, each with its sheet. */
const given = new Map<string, { readonly sheet: AnySheet; readonly result: string }[]>();
for (const sheet of sheets)
  for (const [result, r] of Object.entries(sheet.results))
    if (r.gives) given.set(r.gives, [...(given.get(r.gives) ?? []), { sheet, result }]);

it.each([...given])("%s is given by more than one sheet, in one dimension", (_, by) => {
  expect(by.length).toBeGreaterThan(1);
  expect(new Set(by.map((x) => x.sheet.results[x.result].dimension)).size).toBe(1);
});

/** What is the same quantity by its meaning stands under one tag: a sheet that gives it without the tag would go unchecked. */
it("tags every result whose words say that it is B+ with nothing drawn, or B+ on the first filter capacitor as it stands", () => {
  for (const s of sheets)
    for (const [name, r] of Object.entries(s.results)) {
      if (/with (nothing drawn|no load) at the highest line/.test(r.meaning)) expect(r.gives, `${s.id} ${name}`).toBe("supply.noLoad");
      if (/^B\+ on the first filter capacitor(?! with)/.test(r.meaning)) expect(r.gives, `${s.id} ${name}`).toBe("supply.bPlusFirst");
    }
});

const answered = new Map<string, Readonly<Record<string, Figure>>>();
/** The figures of a sheet on a pattern at a line; a sheet that asks for no line has the same at each. */
function figuresOf(sheet: AnySheet, pattern: number, line: string): Readonly<Record<string, Figure>> {
  const overrides: Record<string, string> = sheet.inputs.lineVoltage ? { lineVoltage: line } : {};
  const key = `${sheet.id} ${pattern} ${overrides.lineVoltage ?? ""}`;
  const set = patterns[pattern];
  const at = subjectsOf(set, sheet.subject, sheet.fitting, sheet.stageKinds)[0];
  const results = answered.get(key) ?? orThrow(answer(sheet, benchOfSet(set, at), { draws: 200, points: 21, overrides })).results;
  answered.set(key, results);
  return results;
}
const pairs = [...given].flatMap(([quantity, by]) =>
  by.flatMap((a, i) => by.slice(i + 1).map((b) => [quantity, `${a.sheet.id} and ${b.sheet.id}`, a, b] as const)),
);
describe.each(patterns.map((p, i) => [p.pattern, i] as const))("on the pattern %s", (_, pattern) => {
  it.each(pairs)("%s: %s say the same at every line", (_q, _s, a, b) => {
    for (const line of ["60 V", "105 V", "117 V", "125 V"]) {
      const [x, y] = [figuresOf(a.sheet, pattern, line)[a.result], figuresOf(b.sheet, pattern, line)[b.result]];
      expect(x.value === null, line).toBe(y.value === null);
      if (x.value === null || y.value === null || x.low === null || x.high === null || y.low === null || y.high === null) continue;
      expect(Math.abs(x.value - y.value), `${line}: ${x.value} and ${y.value}`).toBeLessThan(2e-5 * Math.abs(x.value));
      const wide = x.high - x.low;
      expect(Math.abs(x.low - y.low), `${line}: low ${x.low} and ${y.low}`).toBeLessThan(0.02 * wide + 1e-9);
      expect(Math.abs(x.high - y.high), `${line}: high ${x.high} and ${y.high}`).toBeLessThan(0.02 * wide + 1e-9);
    }
  });
});
