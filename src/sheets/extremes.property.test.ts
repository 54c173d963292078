/** Whatever is tried on a sheet: an answer whose figures are finite or absent, or a located issue. Never a throw. */
import fc from "fast-check";
import { expect, it } from "vitest";
import { answer } from "../ask/answer";
import type { Answer } from "../ask/answered";
import type { AnySheet } from "../ask/contract";
import { resolveInputs } from "../ask/resolve";
import { SheetMistake } from "../ask/run";
import { benchOfSet, subjectsOf } from "../job/view";
import { emptyBench } from "../set/bench";
import { patterns } from "../set/patterns/kinds";
import { dimensionOf } from "../units/dimensions";
import { orThrow } from "../units/issue";
import { sheets } from "./index";

const sizes = ["0", "-1", "1e-300", "1e-30", "1e-3", "50", "1e6", "1e12", "-1e30", "1e150", "1e308"];
const factors = [1e-9, 1e-3, 0.1, 0.5, 2, 10, 1e3, 1e9];
const spreads = fc.constantFrom("", " ±5%", " u 20%", " u 200%");

/** What-ifs of a sheet: one to three of its quantities at odd sizes, and any of its choices. */
function tries(s: AnySheet) {
  const { quantities } = orThrow(resolveInputs(s, emptyBench));
  const choices = Object.entries(s.inputs).flatMap(([n, i]) => (i.kind === "choice" ? [[n, i.options] as const] : []));
  const one = fc
    .tuple(fc.constantFrom(...quantities), fc.oneof(fc.constantFrom(...sizes), fc.constantFrom(...factors)), spreads)
    .map(([q, size, spread]) => {
      const value = typeof size === "string" ? size : (q.quantity.value || 1) * size;
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

it("comes to an end where a search steps through numbers so large that no step changes them", () => {
  const large = { "strip.intermediateFrequency": "1e30 Hz" };
  for (const [id, overrides] of [
    ["if-align", large],
    ["bfo", large],
    ["q-multiplier", large],
    ["converter", { markerSpacing: "1e-3 Hz" }],
    ["markers", { lowestBand: "1e30 Hz", highestBand: "1e30 Hz", spacing: "1 Hz" }],
    ["markers", { lowestBand: "1e30 Hz", highestBand: "1e30 Hz", spacing: "1e-300 Hz" }],
  ] as const) {
    const s = sheets.find((x) => x.id === id)!;
    const r = answer(s, benchOfSet(patterns[1], subjectsOf(patterns[1], s.subject, s.fitting, s.stageKinds)[0] ?? ""), {
      overrides,
      draws: 2,
      points: 11,
    });
    if (r.ok) finite(r.value);
    else expect(r.issues[0].path).toMatch(/./);
  }
});
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
