/**
 * Whatever the inputs, every sentence of an answer holds: a result without a value is left out with its reason after it, never told as a number,
 * and no sentence holds what is no figure at all.
 */
import { describe, expect, it } from "vitest";
import { answer } from "../ask/answer";
import type { Answer } from "../ask/answered";
import type { AnySheet } from "../ask/contract";
import { resolveInputs } from "../ask/resolve";
import type { Figure } from "../ask/results";
import { holding, sayers } from "../ask/say";
import { benchOfSet, subjectsOf } from "../job/view";
import { type Bench, emptyBench } from "../set/bench";
import { patterns } from "../set/patterns/kinds";
import { type Dimension, dimensionOf } from "../units/dimensions";
import { asRead } from "./as-read.testdata";
import { sheets } from "./index";

const ask = { draws: 12, points: 11, quick: true };
const noFigure = /\bNaN\b|\bundefined\b|Infinity|[\uE000\uE001]|(^|[\s(])-0(\.0+)?(?=[\s)]|$)|\bno value\b(?! at)/;
/** A reason of two words, such as that it oscillates, may well be a sentence's own. */
const reasonLength = 16;
/** Sentences of an answer, and what in them is no figure. */
function faults(a: Answer): string[] {
  const texts = [a.headline, ...a.findings.flatMap((f) => [f.says, f.do ?? ""]), ...a.parts.map((p) => Object.values(p).join(" "))];
  const reasons = Object.values(a.results).flatMap((f) => (f.low === null && f.why && f.why.length >= reasonLength ? [f.why] : []));
  return texts.flatMap((t) => {
    const rest = t.replace(/No value for [^.]*?: .*$/, "");
    return noFigure.test(t) || reasons.some((r) => rest.includes(r)) ? [t] : [];
  });
}
const written = (v: number, d: Dimension): string => `${v} ${dimensionOf(d).si}`;

/** One input after the other at an extreme: far down, far up, at its bounds, at nothing, each choice. */
function extremes(s: AnySheet, bench: Bench, far: boolean): Record<string, string>[] {
  const r = resolveInputs(s, bench, asRead(s));
  if (!r.ok) return [];
  const choices = r.value.choices.flatMap((c) => c.options.filter((o) => o !== c.value).map((o) => ({ [c.path]: o })));
  if (!far) return choices;
  const quantities = r.value.quantities.flatMap((q) => {
    const input = s.inputs[q.path];
    if (input?.kind !== "quantity" || input.dimension === "sReading") return [];
    const v = q.quantity.value;
    const bounds = [input.min, input.max].filter((b) => b !== undefined);
    return [...new Set([0, v / 100, v / 4, 4 * v, 100 * v, ...bounds])].map((x) => ({ [q.path]: written(x, input.dimension) }));
  });
  return [...choices, ...quantities];
}
/** What a sheet refuses is no answer, and is said where it stands. */
const faultsOf = (s: AnySheet, bench: Bench, tries: readonly Record<string, string>[]): string[] =>
  tries.flatMap((t) => {
    const r = answer(s, bench, { ...ask, overrides: { ...asRead(s), ...t } });
    return r.ok ? faults(r.value).map((f) => `${JSON.stringify(t)}: ${f}`) : [];
  });

describe.each(sheets.map((s) => [s.id, s] as const))("every sentence of %s holds", (_, s) => {
  it("with nothing read", () => {
    const r = answer(s, emptyBench, ask);
    expect(r.ok && faults(r.value)).toEqual([]);
  });
  it("at the extremes of each input", () => {
    expect(faultsOf(s, emptyBench, [{}, ...extremes(s, emptyBench, true)])).toEqual([]);
  });
  it.each(patterns.map((p) => [p.pattern, p] as const))("on the pattern %s, under each choice", (_p, set) => {
    const bench = benchOfSet(set, subjectsOf(set, s.subject, s.fitting, s.stageKinds)[0] ?? "");
    expect(faultsOf(s, bench, [{}, ...extremes(s, bench, false)])).toEqual([]);
  });
});

describe("a text with a result that has no value", () => {
  const figure = (value: number | null, why?: string): Figure => ({
    dimension: "frequency",
    meaning: "width",
    value,
    low: value,
    high: value,
    without: value === null ? 1 : 0,
    shares: [],
    ...(why ? { why } : {}),
  });
  const figures = { width: figure(null, "it oscillates"), peak: figure(455e3) };
  const { say, about } = sayers(figures);
  it("keeps the clauses that hold, and says after them what is missing and why", () => {
    expect(holding(`It peaks at ${about("peak")}; the width is ${say("width")}; so be it. All else is well.`, figures)).toBe(
      "It peaks at 455 kHz; so be it. All else is well. No value for width: it oscillates.",
    );
    expect(holding(`The width is ${about("width")}.`, figures)).toBe("No value for width: it oscillates.");
    expect(holding(`Open it by ${about("width")}. Power off first.`, figures, false)).toBe("Power off first.");
  });
  it("is left as it stands where every result has one", () => {
    expect(holding(`It peaks at ${say("peak")}.`, figures)).toBe("It peaks at 455 kHz.");
  });
});
