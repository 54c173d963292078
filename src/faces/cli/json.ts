import type { Answer } from "../../ask/answered";
import { dimensionOf } from "../../units/dimensions";

/** Inputs of an answer for programs: value, unit, origin and source of each, by name. */
export const inputsJson = (a: Answer): Readonly<Record<string, unknown>> =>
  Object.fromEntries([
    ...a.choices.map((c) => [c.path, { value: c.value, origin: c.origin }]),
    ...a.rows.map((t) => [
      t.path,
      {
        columns: Object.fromEntries(
          Object.entries(t.columns).map(([n, c]) => [
            n,
            c.options ? { options: c.options } : { unit: dimensionOf(c.dimension ?? "ratio").si },
          ]),
        ),
        rows: t.rows,
        origin: t.origin,
        source: t.source,
      },
    ]),
    ...a.absent.map((m) => [m.path, { value: null, unit: dimensionOf(m.dimension).si, why: "not read" }]),
    ...a.quantities.map((q) => [
      q.path,
      {
        value: q.quantity.value,
        unit: dimensionOf(q.dimension).si,
        spread: q.quantity.spread,
        origin: q.quantity.origin,
        source: q.quantity.source,
        ...(q.quantity.joint ? { joint: q.quantity.joint } : {}),
      },
    ]),
  ]);

/** An answer for programs: SI numbers, dB and dBm as they are, units named; `why` where there is no value. */
export function answerJson(a: Answer): unknown {
  return {
    sheet: a.sheet,
    version: a.version,
    seed: a.seed,
    draws: a.draws,
    at: a.at,
    headline: a.headline,
    ...(a.unread.length > 0 ? { unread: a.unread } : {}),
    interval: a.interval,
    inputs: inputsJson(a),
    results: Object.fromEntries(
      Object.entries(a.results).map(([n, f]) => [
        n,
        {
          value: f.value,
          low: f.low,
          high: f.high,
          unit: dimensionOf(f.dimension).si,
          origin: "computed",
          weakest: a.weakest,
          ...(f.without > 0 || f.value === null ? { without: f.without, why: f.why } : {}),
          shares: f.shares,
        },
      ]),
    ),
    curves: Object.fromEntries(
      Object.entries(a.curves).map(([n, c]) => [
        n,
        {
          meaning: c.meaning,
          xUnit: dimensionOf(c.xDimension).si,
          yUnit: dimensionOf(c.yDimension).si,
          x: Array.from(c.x),
          y: Array.from(c.y),
          ...(c.band ? { low: Array.from(c.band.low), high: Array.from(c.band.high) } : {}),
        },
      ]),
    ),
    tables: a.tables.map((t) => ({
      id: t.id,
      title: t.title,
      columns: t.columns.map((c) => ({ name: c.name, unit: dimensionOf(c.dimension).si })),
      rows: t.rows.map((r) => r.map((v) => (typeof v === "number" && Number.isNaN(v) ? null : v))),
    })),
    strips: a.strips.map((t) => ({ id: t.id, title: t.title, unit: dimensionOf(t.dimension).si, from: t.from, to: t.to, rows: t.rows })),
    drawn: a.drawn,
    findings: a.findings,
    cautions: a.cautions,
    next: a.next,
    missing: a.missing,
  };
}
