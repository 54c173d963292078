import type { Content, TableCell } from "pdfmake/interfaces";
import type { Answer } from "../../ask/answered";
import type { JobView } from "../../job/view";
import { nothingAdded } from "../../set/strip";
import { printQuantity } from "../../units/print";
import { upperFirst } from "../../units/sentence";
import { head, quiet, table, titled } from "./paper";

/** Every input of every answer, with its value and where it comes from, once each and numbered; an answer names its own by their numbers. */

/** An input as it is written in the list: by what it means, since a record is read by people who type no commands. */
interface Written {
  readonly says: string;
  readonly value: string;
  readonly origin: string;
  readonly source: string;
}
const named = (i: { readonly meaning: string; readonly path: string }): string => {
  const can = /^strip\.can(\d+)\./.exec(i.path)?.[1];
  return upperFirst(can === undefined ? i.meaning : `can ${can}: ${i.meaning}`);
};
/** Where it comes from, a fit by the file that it was made to. */
const sourceOf = (view: JobView, source: string): string =>
  source.replace(/^fit fit-(.+)$/, (whole, id) => {
    const read = view.readings.find((r) => r.id === id);
    return read ? `fit to ${read.file.name}` : whole;
  });
function writtenOf(view: JobView, a: Answer): Written[] {
  return [
    ...a.quantities
      .filter((q) => q.quantity.source !== nothingAdded)
      .map((q) => ({
        says: named(q),
        value: printQuantity(q.quantity.value, q.quantity.spread, q.dimension),
        origin: q.quantity.origin,
        source: sourceOf(view, q.quantity.source),
      })),
    ...a.choices.map((c) => ({ says: named(c), value: c.value, origin: c.origin, source: "" })),
    ...a.rows.map((t) => ({
      says: named(t),
      value: `${t.rows.length} ${t.rows.length === 1 ? "row" : "rows"}`,
      origin: t.origin,
      source: sourceOf(view, t.source),
    })),
  ];
}
const keyOf = (w: Written): string => [w.origin, w.source, w.says, w.value].join("\n");

const origins = ["measured", "fitted", "stated", "assumed"] as const;
const said: Readonly<Record<string, string>> = {
  measured: "Measured on this set",
  fitted: "Fitted to what was read",
  stated: "Stated",
  assumed: "What was assumed: each one widens the intervals by its own uncertainty",
};
/** Inputs from one source stand under its name when there are so many; else each has its own. */
const together = 3;

interface Group {
  readonly origin: string;
  /** none where each says its own */
  readonly source?: string;
  readonly inputs: readonly Written[];
}
/** The list in its order: by origin, in it by source. */
function groupsOf(all: readonly Written[]): Group[] {
  const rank = (o: string): number => (origins as readonly string[]).indexOf(o) >>> 0;
  const kinds = [...new Set(all.map((w) => w.origin))].sort((a, b) => rank(a) - rank(b));
  return kinds.flatMap((origin): Group[] => {
    const own = all.filter((w) => w.origin === origin);
    const sources = [...new Set(own.map((w) => w.source))].map((source) => ({
      source,
      inputs: own.filter((w) => w.source === source),
    }));
    const many = sources.filter((s) => s.inputs.length >= together).map((s) => ({ origin, ...s }));
    const few = sources.filter((s) => s.inputs.length < together).flatMap((s) => s.inputs);
    return [...many, ...(few.length > 0 ? [{ origin, inputs: few }] : [])];
  });
}
/** `1, 4 to 9, 12`. */
function runs(numbers: readonly number[]): string {
  const sorted = [...new Set(numbers)].sort((a, b) => a - b);
  const out: [number, number][] = [];
  for (const n of sorted) {
    const last = out.at(-1);
    if (last && n === last[1] + 1) last[1] = n;
    else out.push([n, n]);
  }
  return out.map(([a, b]) => (a === b ? `${a}` : b === a + 1 ? `${a}, ${b}` : `${a} to ${b}`)).join(", ");
}

/** Cells of one input: number, what it is, value. */
const cellsOf = (w: Written, n: number, own: boolean): TableCell[] => [
  { text: String(n), color: quiet },
  own && w.source !== "" && w.source !== w.origin ? { stack: [w.says, { text: w.source, color: quiet }] } : w.says,
  w.value,
];
function groupContent({ origin, source, inputs }: Group, numbers: ReadonlyMap<string, number>, over: Content[] = []): Content {
  const whole = said[origin] ?? upperFirst(origin);
  const title = source === undefined || source === "" || source === origin ? whole : `${whole.replace(/:.*$/, "")}: ${source}`;
  const cells = inputs.map((w) => cellsOf(w, numbers.get(keyOf(w)) ?? 0, source === undefined));
  const blank: TableCell[] = ["", "", ""];
  const rows = cells.flatMap((c, i) => (i % 2 === 0 ? [[...c, ...(cells[i + 1] ?? blank)]] : []));
  const own = table([16, "*", 66, 16, "*", 66], [], rows, {
    small: true,
    title: over.length > 0 ? { stack: [...over, titled(title) as Content] } : titled(title),
  });
  return { ...(own as object), fontSize: 7.5, margin: [0, 0, 0, 2] } as Content;
}

export interface InputList {
  /** the inputs of an answer by their numbers */
  readonly of: (a: Answer) => string;
  readonly content: readonly Content[];
}
/** The list of all inputs of a job's answers. */
export function inputList(view: JobView, answers: readonly Answer[]): InputList {
  const unlike = new Map(answers.flatMap((a) => writtenOf(view, a).map((w) => [keyOf(w), w] as const)));
  const groups = groupsOf([...unlike.values()]);
  const numbers = new Map(groups.flatMap((g) => g.inputs).map((w, i) => [keyOf(w), i + 1]));
  return {
    of: (a) => runs(writtenOf(view, a).map((w) => numbers.get(keyOf(w)) ?? 0)),
    content: groups.map((g, i) => groupContent(g, numbers, i === 0 ? [head("What went into the answers")] : [])),
  };
}
