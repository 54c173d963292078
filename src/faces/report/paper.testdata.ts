import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { TDocumentDefinitions } from "pdfmake/interfaces";
import { expect } from "vitest";
import { sayLeftOut } from "../../desk/left-out";
import type { JobView } from "../../job/view";
import { cautionsAmiss } from "./cautions.testdata";
import { pdfBytes } from "./pdf";
import { ownersDefinition, reportAnswers } from "./reporting";
import { type RecordParts, technicalRecord } from "./technical-record";

/** What is looked at on paper, as it was printed: read back by poppler's pdftotext. */
export const canRead = spawnSync("pdftotext", ["-v"]).status === 0;

/** Every text of a definition, in order. */
export const textsOf = (part: unknown): string[] =>
  typeof part === "string"
    ? [part]
    : Array.isArray(part)
      ? part.flatMap(textsOf)
      : part !== null && typeof part === "object"
        ? ["text", "stack", "ul", "ol", "columns", "table", "body"].flatMap((k) => textsOf((part as Record<string, unknown>)[k]))
        : [];
/** Headings of a definition, of sections and of single tables and pictures; heads of columns are none. */
function headingsOf(part: unknown): string[] {
  if (Array.isArray(part)) return part.flatMap(headingsOf);
  if (part === null || typeof part !== "object") return [];
  const p = part as Record<string, unknown>;
  const body = (p.table as { body?: unknown[][]; headerRows?: number } | undefined)?.body ?? [];
  const own = typeof p.text === "string" && (p.style === "h2" || p.bold === true) ? [p.text] : [];
  const titles = body.flatMap((row) => row.filter((cell) => (cell as { colSpan?: number } | null)?.colSpan));
  const cells = body.map((row) => row.filter((cell) => typeof cell === "object" && cell !== null && "stack" in cell));
  return [...own, ...["stack", "columns"].flatMap((k) => headingsOf(p[k])), ...headingsOf(titles), ...headingsOf(cells)];
}
const plain = (t: string): string => t.replace(/\s+/g, "");

export interface Printed {
  /** lines of each page, top to bottom, the footer left out */
  readonly pages: readonly (readonly string[])[];
  /** part of each page's height, margins apart, above its lowest word */
  readonly filled: readonly number[];
}
/** A document as it came out on paper. */
export async function printed(d: TDocumentDefinitions): Promise<Printed> {
  const folder = mkdtempSync(join(tmpdir(), "fettle-paper-"));
  const file = join(folder, "paper.pdf");
  try {
    writeFileSync(file, await pdfBytes(d));
    const read = (...how: string[]): string => execFileSync("pdftotext", [...how, file, "-"], { encoding: "utf8", maxBuffer: 1e9 });
    const pages = read("-layout")
      .split("\f")
      .slice(0, -1)
      .map((page) => {
        const lines = page.split("\n").map((l) => l.trim());
        return lines.filter((l) => l !== "").slice(0, -1);
      });
    const [, top, , foot] = d.pageMargins as [number, number, number, number];
    const filled = read("-bbox")
      .split("<page ")
      .slice(1)
      .map((page) => {
        const height = Number(/height="([\d.]+)"/.exec(page)?.[1]);
        const low = [...page.matchAll(/yMax="([\d.]+)"/g)].map((m) => Number(m[1])).filter((y) => y < height - foot);
        return (Math.max(top, ...low) - top) / (height - top - foot);
      });
    return { pages, filled };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Headings that aren't on the paper: what doesn't fit and may not break is lost without a word. */
export function lost(d: TDocumentDefinitions, { pages }: Printed): readonly string[] {
  const all = plain(pages.flat().join(" "));
  // beside a column a long heading may be cut by another's words
  return headingsOf(d.content).filter((h) => !all.includes(plain(h).slice(0, 24)));
}
/** Headings that stand last on their page. */
export function stranded(d: TDocumentDefinitions, { pages }: Printed): readonly string[] {
  const heads = new Set(headingsOf(d.content).map(plain));
  return pages.slice(0, -1).flatMap((lines) => (heads.has(plain(lines.at(-1) ?? "")) ? [lines.at(-1) ?? ""] : []));
}

/** Fewest lines of a page that is no card, and least part of a record's pages that is used. */
const fewest = 10;
const used = 0.75;
/** Sections on an accessory that is only offered, and of which nothing is on record. */
export const unaskedFor = (view: JobView, answers: RecordParts["answers"]): readonly string[] =>
  answers.flatMap(({ sheet, at = "" }) => {
    const fitting = view.set.fittings.find((f) => `fittings.${f.id}` === at);
    const isOnRecord = view.inForce.some((e) => JSON.stringify(e).includes(`"${at}.`));
    return fitting?.state === "offered" && !isOnRecord ? [`${sheet.title}: ${fitting.label}`] : [];
  });
/** A day as a program writes it. */
const programsDay = /\b\d{4}-\d\d-\d\d/;
/** The two papers of a job, as they come out: pages, headings, and nothing of the inside in the owner's. */
export async function expectPapers(view: JobView): Promise<void> {
  const owners = (await ownersDefinition(view))!;
  const own = await printed(owners);
  expect(own.pages.length).toBeGreaterThanOrEqual(6);
  expect(own.pages.length).toBeLessThanOrEqual(10);
  expect(own.pages.map((l) => l.length).filter((n) => n < fewest)).toEqual([]);
  expect(lost(owners, own)).toEqual([]);
  expect(stranded(owners, own)).toEqual([]);
  const said = textsOf(owners.content).join("\n");
  expect(said).not.toMatch(/\b(stages|bands|fittings|supplies|strip|tubes)\.[a-z]/);
  for (const e of view.inForce) expect(said).not.toMatch(new RegExp(`\\b${e.id}\\b`));
  expect(said).not.toMatch(/\bstep \d\d\b|undefined|NaN|\[object/);
  expect(said).not.toMatch(programsDay);

  // where it all goes on paper is the same with few draws, and with few points to a curve
  const { answers, leftOut } = await reportAnswers(view, { draws: 30, points: 21 });
  const parts = { answers, leftOut: leftOut.map(sayLeftOut) };
  expect(cautionsAmiss(view, parts)).toEqual([]);
  expect(unaskedFor(view, answers)).toEqual([]);
  const record = technicalRecord({ view, ...parts });
  expect(textsOf(record.content).join("\n")).not.toMatch(programsDay);
  const whole = await printed(record);
  expect(whole.pages.length).toBeLessThanOrEqual(60);
  expect(lost(record, whole)).toEqual([]);
  expect(stranded(record, whole)).toEqual([]);
  const mean = whole.filled.reduce((sum, f) => sum + f, 0) / whole.filled.length;
  expect(mean).toBeGreaterThan(used);
}
