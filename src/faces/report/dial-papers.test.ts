import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { fitDial } from "../../infer/dial/fit";
import { dialAt } from "../../infer/dial/fitted";
import { dialCases, inventDial } from "../../infer/dial/possible-dials";
import type { Entry } from "../../job/document";
import { dialSubject } from "../../job/rollups/dial-papers";
import { viewOf } from "../../job/view";
import { patterns } from "../../set/patterns/kinds";
import { orThrow } from "../../units/issue";
import { dialCard, dialScale, dialScalePdf } from "./dial-papers";
import { pdfBytes } from "./pdf";

const folder = mkdtempSync(join(tmpdir(), "scale-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const beats = inventDial({ ...dialCases[2], lowHz: 3.45e6, highHz: 4.05e6 }, 6).points;
const entry: Entry = {
  id: "e",
  at: "2026-02-03T00:00:00Z",
  who: "t",
  kind: "reading",
  reading: {
    id: "r1",
    as: "dial",
    state: "as-left",
    step: "26",
    stage: "",
    instrument: "",
    thermal: "warm",
    band: "80",
    setPoint: "3.5 MHz dot",
    file: { name: "typed", hash: "" },
    columns: {
      reading: beats.map((p) => p.reading),
      frequencyHz: beats.map((p) => p.frequencyHz),
      approach: beats.map((p) => p.approach),
    },
    figures: [],
    warnings: [],
  },
};
const view = viewOf({
  format: "fettle-job",
  version: 5,
  id: "j",
  name: "j",
  created: "2026-02-01T00:00:00Z",
  set: { ...patterns[1], place: { region: "ITU Region 1" } },
  entries: [entry],
});
const havePoppler = (() => {
  try {
    execFileSync("pdftoppm", ["-v"], { stdio: "ignore" });
    return true;
  } catch {
    return false;
  }
})();
if (!havePoppler) console.info("skipped: the printed page measured (no pdftoppm)");

const perMm = 600 / 25.4;
/** The first page as grey pixels at 600 dots an inch. */
function rendered(pdf: Uint8Array): { width: number; height: number; dark: (x: number, y: number) => boolean } {
  const file = join(folder, "page.pdf");
  writeFileSync(file, pdf);
  execFileSync("pdftoppm", ["-gray", "-r", "600", "-singlefile", file, join(folder, "page")]);
  const pgm = readFileSync(join(folder, "page.pgm"));
  const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(pgm.subarray(0, 40).toString("latin1"))!;
  const [width, height] = [Number(head[1]), Number(head[2])];
  const at = head[0].length;
  return { width, height, dark: (x, y) => pgm[at + y * width + x] < 128 };
}
type Page = ReturnType<typeof rendered>;
/** Middles of the dark strokes met along a row or a column, mm. */
function strokes(p: Page, along: "row" | "column", mm: number): number[] {
  const out: number[] = [];
  const fixed = Math.round(mm * perMm);
  let from = -1;
  for (let i = 0; i < (along === "row" ? p.width : p.height); i++) {
    const on = along === "row" ? p.dark(i, fixed) : p.dark(fixed, i);
    if (on && from < 0) from = i;
    if (!on && from >= 0) {
      out.push((from + i) / 2 / perMm);
      from = -1;
    }
  }
  return out;
}

describe.runIf(havePoppler)("measured on the rendered page", () => {
  it("a straight scale of 150 mm is 150 mm, its marks lie where the law says, and the bars are 100 mm both ways, all to 0.2 mm", async () => {
    const page = rendered(await dialScalePdf(view, "bands.80", { shape: "straight", length: "150" }));
    expect(page.width / perMm).toBeCloseTo(210, 0);
    // the line that the marks stand on, and the marks just above it
    const y = 62;
    const line = [...Array(page.width).keys()].filter((x) => page.dark(x, Math.round(y * perMm)));
    expect(Math.abs((line[line.length - 1] - line[0] + 1) / perMm - 150)).toBeLessThan(0.2);
    const svg = orThrow(dialScale(view, "bands.80", { shape: "straight", length: "150" }));
    const marks = [...svg.matchAll(/<line x1="([\d.]+)" y1="62" x2="\1" y2="(5[\d.]+)"/g)].map((m) => Number(m[1]));
    expect(marks.length).toBeGreaterThan(30);
    const seen = strokes(page, "row", y - 1.5);
    for (const m of marks) expect(Math.min(...seen.map((s) => Math.abs(s - m))), `mark at ${m} mm`).toBeLessThan(0.2);
    // both bars: ends of the stroke along each
    const base = 297 - 24;
    const across = [...Array(page.width).keys()].filter((x) => page.dark(x, Math.round(base * perMm)));
    expect(Math.abs((across[across.length - 1] - across[0]) / perMm - 102)).toBeLessThan(0.2);
    const ticks = strokes(page, "row", base - 1.4);
    expect(Math.abs(ticks[ticks.length - 1] - ticks[0] - 100)).toBeLessThan(0.2);
    const down = strokes(page, "column", 14 + 12 - 1.4).filter((at) => at > 160);
    expect(Math.abs(down[down.length - 1] - down[0] - 100)).toBeLessThan(0.2);
  });
  it("an arc has its radius, and a reprint makes up for what the bars measured, each way by itself", async () => {
    const typed = { shape: "arc", radius: "60 mm", sweep: "180 deg" };
    const page = rendered(await dialScalePdf(view, "bands.80", typed));
    // straight up from the shaft at the middle of the page: the arc's own stroke
    const top = strokes(page, "column", 105).filter((y) => y > 38 && y < 68);
    expect(Math.min(...top.map((y) => Math.abs(y - 50)))).toBeLessThan(0.2);
    const again = rendered(await dialScalePdf(view, "bands.80", { ...typed, measuredAcross: "98", measuredDown: "101.5" }));
    const base = (297 - 24 - 148.5) * (100 / 101.5) + 148.5;
    const left = (26 - 105) * (100 / 98) + 105;
    const ticks = strokes(again, "row", base - 1.4);
    expect(Math.abs(ticks[ticks.length - 1] - ticks[0] - 10_000 / 98)).toBeLessThan(0.2);
    const down = strokes(again, "column", left - 1.4).filter((at) => at > 160);
    expect(Math.abs(down[down.length - 1] - down[0] - 10_000 / 101.5)).toBeLessThan(0.2);
  });
});

const cutColumns = (c: Readonly<Record<string, readonly number[]>>, below: number) => {
  const keep = (c.frequencyHz ?? []).map((f) => f <= below);
  return Object.fromEntries(Object.entries(c).map(([k, v]) => [k, v.filter((_, i) => keep[i])]));
};
describe("the papers of a dial", () => {
  it("says at the field what is wrong with a shape, and which bands have zero beats", () => {
    const issue = (typed: object) => {
      const r = dialScale(view, "bands.80", typed);
      return r.ok ? "" : `${r.issues[0].path}: ${r.issues[0].code}`;
    };
    expect(issue({ radius: "400" })).toBe("radius: out-of-range");
    expect(issue({ sweep: "400 deg" })).toBe("sweep: out-of-range");
    expect(issue({ shape: "straight", length: "1 m" })).toBe("length: out-of-range");
    expect(issue({ shape: "round" })).toBe("shape: not-an-option");
    expect(issue({ radius: "60 kHz" })).toBe("radius: wrong-unit");
    expect(issue({ measuredAcross: "70" })).toBe("measuredAcross: out-of-range");
    const r = dialSubject(view, "40");
    expect(r.ok ? "" : r.issues[0].expected).toContain("bands.80");
    expect(dialSubject(view, "80")).toEqual({ ok: true, value: "bands.80" });
  });
  it("prints edges inside the scale, and the same picture turned round for a dial that runs the other way", () => {
    const svg = orThrow(dialScale(view, "bands.80", { shape: "straight" }));
    expect(svg.match(/stroke-width="0.6"/g)).toHaveLength(2);
    const other = orThrow(dialScale(view, "bands.80", { shape: "straight", sense: "backward" }));
    const marks = (s: string) => [...s.matchAll(/<line x1="([\d.]+)" y1="62"/g)].map((m) => Number(m[1])).sort((a, b) => a - b);
    const turned = marks(other)
      .map((x) => 210 - x)
      .sort((a, b) => a - b);
    for (const [i, x] of marks(svg).entries()) expect(Math.abs(x - turned[i])).toBeLessThan(0.01);
  });
  it("says on the scale what it holds for, and which edge is not known", () => {
    const said = (v: typeof view) => orThrow(dialScale(v, "bands.80", {}, { mode: "LSB", licence: "ITU Region 2" }));
    const whole = said(view);
    for (const words of [
      "turning up in frequency",
      "Main dial at 3.5 MHz dot",
      "Set warm, 3 February 2026",
      "ITU Region 2",
      "a whole LSB signal",
    ])
      expect(whole).toContain(words);
    // the band of Region 2 ends at 4 MHz, where the last of these beats lies below
    const below = (e: Entry): Entry =>
      e.kind === "reading" ? { ...e, reading: { ...e.reading, columns: cutColumns(e.reading.columns, 3.7e6) } } : e;
    const cut = viewOf({ ...view.document, entries: view.document.entries.map(below) });
    const part = said(cut);
    expect(part).toContain("The upper edge is not known");
    expect(part.match(/stroke-width="0.6"/g)).toHaveLength(1);
  });
  it("labels each mark with its frequency to the last digit, at every length", () => {
    const fit = orThrow(fitDial(beats, dialCases[2].conversion, { readingNoise: 0.1, zeroBeatHz: 20, backlash: 0.2, backlashU: 0.2 }));
    for (let length = 30; length <= 180; length += 10) {
      const svg = orThrow(dialScale(view, "bands.80", { shape: "straight", length: String(length) }));
      const labels = [...svg.matchAll(/<text x="([\d.]+)"[^>]*transform="rotate\(0 [^>]*>([\d.]+)<\/text>/g)];
      expect(labels.length).toBeGreaterThan(1);
      for (const [, x, said] of labels) {
        const reading = ((Number(x) - (105 - length / 2)) / length) * 100;
        expect(Math.abs(dialAt(fit, reading).hz - Number(said) * 1e6), `${said} at ${length} mm`).toBeLessThan(60);
      }
    }
  });
  it("writes the card with each step, the edges and the way it was taken, the same bytes each time", async () => {
    const definition = orThrow(dialCard(view, "bands.80", { step: "25 kHz" }));
    const text = JSON.stringify(definition);
    for (const said of [
      "Calibration card",
      "3.5 MHz dot",
      "3 February 2026, set warm",
      "3.525 MHz",
      "Carrier inside 3.5 MHz to 3.8 MHz",
      "National rules",
      "turning up in frequency",
      "no known error, give or take 23 ppm (200 Hz at 7 MHz)",
    ])
      expect(text).toContain(said);
    const [a, b] = [await pdfBytes(orThrow(dialCard(view, "bands.80"))), await pdfBytes(orThrow(dialCard(view, "bands.80")))];
    expect(Buffer.from(a).equals(Buffer.from(b))).toBe(true);
  });
});
