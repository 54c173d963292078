/** Whatever is tried on a sheet: an answer whose figures are finite or absent, or a located issue. Never a throw. */
import fc from "fast-check";
import { expect, it } from "vitest";
import { answer } from "../ask/answer";
import type { Answer } from "../ask/answered";
import type { AnySheet } from "../ask/contract";
import { benchSizes, rangeIssues } from "../ask/ranges";
import { resolveInputs } from "../ask/resolve";
import { SheetMistake } from "../ask/run";
import { benchOfSet, subjectsOf } from "../job/view";
import { emptyBench } from "../set/bench";
import { patterns } from "../set/patterns/kinds";
import { type Dimension, dimensionOf } from "../units/dimensions";
import { orThrow } from "../units/issue";
import { sheets } from "./index";

/** Odd sizes, as parts of the span that a dimension has on any bench, from its least to its greatest; and of what stands there. */
const places = ["0", "-1", "least", "-least", "1", "most", "-most"] as const;
const factors = [1e-9, 1e-3, 0.1, 0.5, 2, 10, 1e3, 1e9];
const spreads = fc.constantFrom("", " ±5%", " u 20%", " u 200%");

/** What-ifs of a sheet: one to three of its quantities at odd sizes, and any of its choices. */
function tries(s: AnySheet) {
  const { quantities } = orThrow(resolveInputs(s, emptyBench));
  const choices = Object.entries(s.inputs).flatMap(([n, i]) => (i.kind === "choice" ? [[n, i.options] as const] : []));
  const one = fc
    .tuple(fc.constantFrom(...quantities), fc.oneof(fc.constantFrom(...places), fc.constantFrom(...factors)), spreads)
    .map(([q, size, spread]) => {
      const [least, most] = benchSizes[q.dimension];
      const value =
        typeof size === "number" ? (q.quantity.value || 1) * size : size.replace("least", String(least)).replace("most", String(most));
      return [q.path, `${value} ${dimensionOf(q.dimension).si}${spread}`] as const;
    });
  const odd = fc.array(one, { minLength: 1, maxLength: 3 }).map((list) => Object.fromEntries(list));
  const chosen = fc
    .tuple(...choices.map(([n, options]) => fc.option(fc.constantFrom(...options)).map((o) => (o === null ? {} : { [n]: o }))))
    .map((all) => Object.assign({}, ...all) as Record<string, string>);
  return quantities.length === 0 ? chosen : fc.tuple(odd, chosen).map(([a, b]) => ({ ...b, ...a }));
}
function finite(a: Answer): void {
  for (const [name, f] of Object.entries(a.results))
    for (const v of [f.value, f.low, f.high, f.without, ...f.shares.map((x) => x.share)])
      expect(v === null || Number.isFinite(v), `${a.sheet} ${name}: ${v}`).toBe(true);
}

it.each(sheets.map((s) => [s.id, s] as const))("%s", (_, s) => {
  const benches = [
    emptyBench,
    ...patterns.slice(0, 2).map((set) => benchOfSet(set, subjectsOf(set, s.subject, s.fitting, s.stageKinds)[0] ?? "")),
  ];
  fc.assert(
    fc.property(tries(s), fc.constantFrom(...benches), (overrides, bench) => {
      const r = answer(s, bench, { overrides, draws: 4, points: 11 });
      if (r.ok) finite(r.value);
      else expect(r.issues[0]).toMatchObject({ path: expect.stringMatching(/./), expected: expect.stringMatching(/./) });
    }),
    { numRuns: 15 },
  );
});

it.each(sheets.map((s) => [s.id, s] as const))(
  "%s is asked nothing beyond what stands on a bench: each of its quantities is refused there by its name",
  (_, s) => {
    const { quantities } = orThrow(resolveInputs(s, emptyBench));
    for (const { path, dimension } of quantities) {
      const [least, most] = benchSizes[dimension];
      for (const value of [10 * most, -1e300, 0.1 * least, 1e-300]) {
        const r = answer(s, emptyBench, { overrides: { [path]: `${value} ${dimensionOf(dimension).si}` }, draws: 2, points: 11 });
        expect(r.ok ? "answered" : r.issues[0], `${path} at ${value}`).toMatchObject({
          path,
          code: expect.stringMatching(/^(too-|not-positive|no-unit)/),
        });
      }
    }
  },
);
it.each(Object.keys(benchSizes) as Dimension[])(
  "a %s beyond what stands on a bench is refused, at either end; one that stands there is not",
  (dimension) => {
    const [least, most] = benchSizes[dimension];
    const codeOf = (value: number) =>
      rangeIssues("x", { dimension }, { value, spread: { shape: "exact" }, origin: "tried", source: "" })[0]?.code;
    expect([10 * most, -10 * most, 1e300].map(codeOf)).toEqual(["too-large", "too-large", "too-large"]);
    expect([0.1 * least, -0.1 * least, 1e-300].map(codeOf)).toEqual(["too-small", "too-small", "too-small"]);
    expect([0, least, most, -least, -most].map(codeOf)).toEqual([undefined, undefined, undefined, undefined, undefined]);
  },
);
it("says which sheet can't be worked out where its law throws, and lets a sheet's own mistake through", () => {
  const throwing = (e: Error): AnySheet => ({
    ...sheets[0],
    prepare: () => {
      throw e;
    },
  });
  const r = answer(throwing(new RangeError("below the law's domain")), emptyBench);
  expect(r.ok ? [] : r.issues).toMatchObject([
    { path: `sheet ${sheets[0].id}`, code: "not-worked-out", read: "RangeError: below the law's domain" },
  ]);
  expect(() => answer(throwing(new SheetMistake("results differ")), emptyBench)).toThrow("differ");
});
it("draws and draws points only within bounds", () => {
  for (const ask of [{ draws: 1 }, { draws: 20_001 }, { draws: 2.5 }, { draws: Number.NaN }, { points: 10 }, { points: 2002 }]) {
    const r = answer(sheets[0], emptyBench, ask);
    expect(r.ok ? "answered" : r.issues[0].code).toBe("out-of-bounds");
  }
});
