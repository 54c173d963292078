import type { Column, Content, TableCell } from "pdfmake/interfaces";
import type { Answer } from "../../ask/answered";
import type { AnySheet } from "../../ask/contract";
import type { Table } from "../../ask/drawings";
import type { HeededFinding } from "../../ask/findings";
import { sayCell, sayFigure } from "../../ask/say";
import { isOpen, stateWord } from "../../standards/cautions";
import { upperFirst } from "../../units/sentence";
import { drawingOf, hasValues } from "../figures/drawing";
import { pictureSvg } from "../figures/picture";
import { stripsSvg } from "../figures/strips";
import { svgOf } from "../figures/svg";
import { accent, heed, onPaper, pageWidth, quiet, table, titled } from "./paper";

/** One answer after another, each with its pictures, results, tables and findings. */

const word = { danger: "DANGER", act: "Do", check: "Check", note: "Note" } as const;
function findingContent(f: HeededFinding, above = 2): Content {
  return {
    unbreakable: true,
    fontSize: 9,
    margin: [0, above, 0, 3],
    stack: [
      { text: [{ text: `${word[f.severity]}: `, bold: true, ...(f.severity === "danger" ? { color: accent } : {}) }, f.says] },
      ...heed(f.before, 12),
      ...(f.do ? [{ text: `${isOpen(f.state) ? `[${stateWord[f.state]}] ` : ""}${f.do}`, margin: [12, 1, 0, 1] } as Content] : []),
    ],
  };
}

/** Half of a page's width, and the room between two halves. */
const gap = 14;
const half = (pageWidth - gap) / 2;
/** A circuit is drawn for this width with letters of 16: on half a page they stand some 8 points high. */
const drawnFor = 500;
/** Most height of a picture, so that it fits on one page with the heading of its answer. */
const mostHeight = 430;
const stripsWidth = 430;
const titleHeight = 20;
/** A picture on half a page, with its height. */
interface Pictured {
  readonly content: Content;
  readonly height: number;
}
function pictured(title: string, drawn: { readonly svg: string; readonly width: number; readonly height: number }): Pictured {
  const { content, height } = onPaper(drawn, half, mostHeight);
  const named: Content = { text: title, bold: true, fontSize: 9, margin: [0, 4, 0, 0] };
  return { content: { stack: [named, content], unbreakable: true }, height: height + titleHeight };
}
/** Pictures of an answer, the lowest first, so that a heading takes little room with it: its plots, its place as a circuit. */
function picturesOf(sheet: AnySheet, a: Answer): Pictured[] {
  const places = a.drawn.map((d) => pictured(d.title, { ...pictureSvg(d, drawnFor), width: drawnFor }));
  const size = { width: half, height: half * 0.62, type: 8.5 };
  const plots = sheet.figures.filter((f) => a.missing.length === 0 && hasValues(f, a));
  const plotted = plots.map((f) => {
    const drawing = drawingOf(f, a);
    const points = (drawing.points ?? []).flatMap((p) => (p.label && p.x.length > 0 ? p.label : []));
    return pictured([f.title, ...(points.length > 0 ? [`points: ${points.join(", ")}`] : [])].join("; "), {
      ...size,
      svg: svgOf(drawing, size),
    });
  });
  return [...plotted, ...places].sort((p, q) => p.height - q.height);
}

const resultsTable = (rows: readonly Row[]): Content =>
  table(
    ["*", 92],
    ["Result", "Value (95 % interval)"],
    rows.map((r) => [...r]),
    { small: true },
  );
type Row = readonly [string, string];
/** Height of a row of results on half a page, as its longer cell wraps. */
const rowHeight = ([what, value]: Row): number => 4 + 10.5 * Math.max(Math.ceil(what.length / 32), Math.ceil(value.length / 20));
/** Height of a finding on half a page. */
const findingHeight = (f: HeededFinding): number =>
  8 + 11 * [f.says, ...f.before.map((c) => c.says), f.do ?? ""].reduce((sum, t) => sum + Math.ceil((t.length + 8) / 52), 0);
/** How many of some heights fit. */
function fitting(heights: readonly number[], room: number): number {
  let used = 0;
  const over = heights.findIndex((h) => {
    used += h;
    return used > room;
  });
  return over < 0 ? heights.length : over;
}
/** What stands beside pictures, and what is left of it. */
interface Beside {
  readonly rows: Content[];
  readonly results: readonly Row[];
  readonly findings: readonly HeededFinding[];
}
/** Pictures with results and then findings beside them, as rows that don't break. */
function besides(pictures: readonly Pictured[], results: readonly Row[], findings: readonly HeededFinding[]): Beside {
  const [picture, ...others] = pictures;
  if (!picture) return { rows: [], results, findings };
  const room = picture.height - 2 * titleHeight;
  const fits = fitting(results.map(rowHeight), room);
  // none so few that they are better with the last
  const n = results.length - fits <= 2 ? results.length : Math.max(2, fits);
  const used = results.slice(0, n).reduce((sum, r) => sum + rowHeight(r), 0);
  const m = n < results.length ? 0 : fitting(findings.map(findingHeight), picture.height - used - titleHeight);
  const own: Content[] = [
    ...(n > 0 ? [resultsTable(results.slice(0, n))] : []),
    ...findings.slice(0, m).map((f, i): Content => findingContent(f, i === 0 && n === 0 ? titleHeight : 2)),
  ];
  const next = own.length > 0 ? { stack: own } : (others[0]?.content ?? "");
  const rest = besides(own.length > 0 ? others : others.slice(1), results.slice(n), findings.slice(m));
  return { ...rest, rows: [{ unbreakable: true, columns: [picture.content, next], columnGap: gap } as Content, ...rest.rows] };
}

/** Points that a letter of a small table takes, and the room about a column. */
const letter = 4.6;
const about = 9;
/** Rows from which a narrow table goes on beside itself, and most blocks of it. */
const manyRows = 6;
const mostBlocks = 4;
function tableContent(t: Table): Content[] {
  const shown = t.columns.flatMap((c, i) => (c.typed ? [] : [i]));
  const rows = t.rows.map((r) => shown.map((i) => sayCell(t, r[i], i)));
  if (rows.length === 0) return [];
  const heads = shown.map((i) => upperFirst(t.columns[i].name));
  const longest = heads.map((h, i) => Math.max(...h.split(" ").map((w) => w.length), ...rows.map((r) => r[i].length)));
  // words take what values leave
  const widths = longest.map((n) => (n > 16 ? "*" : "auto"));
  const cells = rows.map((r) => r.map((text, i): TableCell => (widths[i] === "auto" ? { text, noWrap: true } : text)));
  const width = longest.reduce((sum, n) => sum + n * letter + about, gap);
  const blocks = widths.includes("*") || rows.length < manyRows ? 1 : Math.min(mostBlocks, Math.floor(pageWidth / width));
  if (blocks < 2) return [table(widths, heads, cells, { small: true, title: titled(t.title) })];
  const each = Math.ceil(rows.length / blocks);
  const block = (k: number): Column =>
    ({ width: "auto", ...(table(widths, heads, cells.slice(k * each, (k + 1) * each), { small: true }) as object) }) as Column;
  const used = Math.ceil(rows.length / each);
  return [
    {
      unbreakable: true,
      stack: [titled(t.title) as Content, { columns: Array.from({ length: used }, (_, k) => block(k)), columnGap: gap } as Content],
    },
  ];
}

/** What all answers of a record share: it is said once. */
export interface Shared {
  readonly seed: number;
  readonly draws: number;
}
/** How an answer was come by, and what it rests on. */
function footing(a: Answer, shared: Shared, inputs: string): Content {
  const own = a.seed === shared.seed && a.draws === shared.draws ? "" : `, seed ${a.seed}, ${a.draws} draws`;
  return {
    text: `Rests on inputs ${inputs}; the weakest is ${a.weakest}. Question ${a.sheet}, version ${a.version}${own}.`,
    style: "small",
    margin: [0, 2, 0, 0],
  };
}
/** The pages of an answer: its heading never parts from its first picture or table. */
export function answerContent(sheet: AnySheet, a: Answer, label: string, inputs: string, shared: Shared): Content[] {
  const shown = Object.values(a.results)
    .filter((f) => f.low !== null || f.why === undefined)
    .map((f): Row => [upperFirst(f.meaning), sayFigure(f)]);
  const { rows, results, findings } = besides(picturesOf(sheet, a), shown, a.findings);
  const [first, ...others] = [...rows, ...(results.length > 0 || shown.length === 0 ? [resultsTable(results)] : [])];
  return [
    {
      unbreakable: true,
      stack: [
        { text: `${sheet.title}${label ? `: ${label}` : ""}`, style: "h2" },
        { text: a.question, color: quiet },
        { text: a.headline, style: "answer", fontSize: 10.5 },
        ...(first ? [first] : []),
      ],
    },
    ...others,
    ...a.strips.map(
      (s): Content => ({
        unbreakable: true,
        stack: [
          { text: s.title, bold: true, fontSize: 9, margin: [0, 4, 0, 0] },
          onPaper({ ...stripsSvg(s, 500), width: 500 }, stripsWidth).content,
        ],
      }),
    ),
    ...a.tables.flatMap(tableContent),
    ...findings.map((f) => findingContent(f)),
    footing(a, shared, inputs),
  ];
}
