import { answers, type Refuse } from "../../ask/declare";
import type { Issue } from "../../units/issue";
import { printValue } from "../../units/print";
import { type Asked, ask, type G } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf } from "./findings";
import { figuresBy, lawOf, microvolts, readBetween, sNumber, wantedReading } from "./solve";
import theory from "./theory.md";

export const sMeter = answers(ask, {
  theory,
  refuse: refused,
  prepare: (best, _points, chance) => {
    const { steps } = best;
    const [from, to] = [steps[0].level, steps[steps.length - 1].level];
    const axis = Float64Array.from({ length: 61 }, (_, i) => from + ((to - from) * i) / 60);
    const top = Math.max(...steps.map((s) => s.audio).filter(Number.isFinite));
    // what was read is the same in every draw
    const meter = axis.map(readBetween(steps, (s) => s.reading)).map(sNumber);
    const shown = steps.map((s) => sNumber(s.reading));
    const audio = axis.map(readBetween(steps, (s) => s.audio)).map((v) => v - top);
    const figures = figuresBy(lawOf(steps), chance);
    return {
      axes: { meter: axis, wanted: axis, audio: axis, steps: Float64Array.from(steps, (s) => s.level) },
      varies: true,
      solve: (x, into, draw) => {
        into.meter.set(meter);
        into.audio.set(audio);
        into.steps.set(shown);
        for (let i = 0; i < axis.length; i++) into.wanted[i] = Math.max(0, sNumber(wantedReading(x, axis[i])));
        return figures(x, draw);
      },
    };
  },
  drawing: drawingOf,
  headline: (g) => {
    const has = (n: keyof G["figures"]): boolean => g.figures[n].low !== null;
    const s9 = microvolts(g.figures.s9Level.value ?? 0);
    const meter = has("s9Level")
      ? `S9 is ${g.about("s9Level")} (${printValue(s9, "voltage", s9 / 20)} in 50 Ω)${has("perUnit") ? `, an S unit ${g.about("perUnit")}` : ""}`
      : "The readings do not reach S9";
    return `${meter}; from 10 µV to 10 mV the output changes by ${has("flatness") ? g.about("flatness") : "an amount that was not read"}.`;
  },
  findings: findingsOf,
  tables: (x) => [
    {
      id: "steps",
      title: "Step by step, against the law wanted",
      columns: [
        { name: "level", dimension: "dbm", u: 0.5 },
        { name: "in 50 Ω", dimension: "voltage" },
        { name: "meter shows", dimension: "sReading" },
        { name: "wanted", dimension: "sReading" },
        { name: "AVC", dimension: "voltage", u: 0.05 },
        { name: "output", dimension: "decibel", u: 0.1 },
      ],
      rows: x.steps.map((s) => [s.level, microvolts(s.level), s.reading, wantedReading(x, s.level), s.avc, s.audio]),
    },
  ],
});

/** Steps from which no law can be told: too few, without a level, or not in order. */
function refused({ steps }: Asked, bad: Refuse): Issue | undefined {
  if (steps.length < 3) return bad("steps", "too-few", `${steps.length} steps`, "at least 3 steps of the generator");
  for (const [i, s] of steps.entries()) {
    const where = `steps row ${i + 1}`;
    if (!Number.isFinite(s.level) || s.level < -150 || s.level > 30)
      return bad(where, "no-level", String(s.level), "a level of -150 to 30 dBm, or microvolts on the card");
    if ([s.reading, s.avc, s.audio].some((v) => v === Number.POSITIVE_INFINITY))
      return bad(where, "not-a-figure", "a cell of the card", "S7 or S9+20, volts, decibels, or nothing");
    if (i === 0 || s.level > steps[i - 1].level) continue;
    const before = printValue(steps[i - 1].level, "dbm", 0.1);
    return bad(where, "not-rising", printValue(s.level, "dbm", 0.1), `more than the row before, ${before}`);
  }
  return undefined;
}
