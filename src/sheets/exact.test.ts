import { describe, expect, it } from "vitest";
import { answer } from "../ask/answer";
import { aboutFigure, sayCell, sayFigure } from "../ask/say";
import { dialCases, inventDial } from "../infer/dial/possible-dials";
import { emptyBench } from "../set/bench";
import { bandsOf, licences } from "../standards/bands";
import type { Dimension } from "../units/dimensions";
import { orThrow } from "../units/issue";
import { parseQuantity } from "../units/parse";
import { sheetById, sheets } from "./index";

const few = { draws: 20, points: 11 };
const readBack = (text: string, dimension: Dimension): number => orThrow(parseQuantity(text, dimension, "printed")).value;
/** The same number, but for the last bits that a unit's factor stirs. */
const same = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-12 * Math.abs(b);

describe.each(sheets.map((s) => [s.id, s] as const))("what is exact on the sheet %s", (_, s) => {
  const a = orThrow(answer(s, emptyBench, few));
  it("prints exactly, in figures as in tables: every digit comes back", () => {
    for (const [name, f] of Object.entries(a.results)) {
      if (!f.exact || f.value === null || f.low !== f.high) continue;
      for (const text of [sayFigure(f, true), aboutFigure(f)])
        expect(same(readBack(text.replace(/; none in .*$/, ""), f.dimension), f.value), `${name}: ${text} for ${f.value}`).toBe(true);
    }
    for (const t of a.tables)
      for (const [i, c] of t.columns.entries())
        for (const v of t.rows.map((r) => r[i]))
          if (c.exact && typeof v === "number" && Number.isFinite(v))
            expect(same(readBack(sayCell(t, v, i), c.dimension), v), `${t.id}, ${c.name}: ${sayCell(t, v, i)} for ${v}`).toBe(true);
  });
  it("is said to be so where its name says it: markers, edges, crystals as marked", () => {
    const named = /^(lower|upper) edge$|^marker\b|\bmarker (that|next)|markers (five|ten) times|^crystal$|counting from the anchor/;
    for (const [name, r] of Object.entries(s.results))
      if (r.dimension === "frequency" && named.test(r.meaning)) expect(r.exact, `${name}: ${r.meaning}`).toBe(true);
  });
});

describe("legal edges and markers in sentences", () => {
  it("prints both edges of every band of every licence to their last digit", () => {
    const dial = inventDial({ ...dialCases[2], lowHz: 3.4e6, highHz: 4.1e6 }, 4);
    for (const licence of licences)
      for (const b of bandsOf(licence).filter((band) => band.highHz < 30e6)) {
        // the same scale, its beats laid over this band
        const on = (hz: number): number => b.lowHz + ((hz - 3.5e6) / 0.5e6) * (b.highHz - b.lowHz);
        const points = dial.points.map((p) => `${p.reading}, ${Math.round(on(p.frequencyHz))} Hz, up`).join("; ");
        const a = orThrow(answer(sheetById("band-edge")!, emptyBench, { ...few, overrides: { points, licence } }));
        const [, from, to] = /Carrier inside (.*?Hz) to (.*?Hz) /.exec(a.headline) ?? [];
        expect([readBack(from, "frequency"), readBack(to, "frequency")], `${licence}, ${b.band}`).toEqual([b.lowHz, b.highHz]);
      }
  });
  it("names markers of 25 kHz by all of their digits, and each is one", () => {
    const dial = inventDial({ ...dialCases[2], lowHz: 7e6, highHz: 7.3e6, spacingHz: 25e3 }, 5);
    const beats = dial.points.map((p, i) => ({ ...p, frequencyHz: p.frequencyHz + (i === 5 ? 25e3 : 0) })).filter((_, i) => i !== 8);
    const points = beats.map((p) => `${p.reading}, ${p.frequencyHz} Hz, up`).join("; ");
    const a = orThrow(
      answer(sheetById("dial")!, emptyBench, { ...few, overrides: { points, spacing: "25 kHz", low: "7 MHz", high: "7.3 MHz" } }),
    );
    const said = a.findings.flatMap((f) => [...`${f.says} ${f.do ?? ""}`.matchAll(/marker at ([\d.]+ MHz)/g)].map((m) => m[1]));
    expect(said).toContain("7.125 MHz");
    for (const text of said) expect(readBack(text, "frequency") % 12.5e3, text).toBe(0);
    const table = a.tables.find((t) => t.id === "correction")!;
    expect(table.rows.map((r) => sayCell(table, r[0], 0))).toContain("7.05 MHz");
  });
});
