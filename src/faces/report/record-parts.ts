import type { Content, TableCell } from "pdfmake/interfaces";
import type { Answer } from "../../ask/answered";
import { type Fault, faultsOf } from "../../job/faults/faults";
import { workKindById } from "../../job/ripple";
import { exchangedOf } from "../../job/rollups/owner/work";
import type { PartLine } from "../../job/rollups/parts";
import { actSaid } from "../../job/say-entry";
import { signerOf } from "../../job/sitting";
import type { JobView } from "../../job/view";
import { nothingAdded } from "../../set/strip";
import { printQuantity } from "../../units/print";
import { upperFirst } from "../../units/sentence";
import { head, quiet, table } from "./paper";

/** Sections of the technical record that are lists of what was recorded. */

const lifeOf = (view: JobView, f: Fault): Content => ({
  unbreakable: true,
  margin: [0, 2, 0, 6],
  stack: [
    { text: `${upperFirst(f.label)}: ${f.state}${f.unrecorded ? ", by a reading off its chart" : ""}`, bold: true },
    { text: `${upperFirst(f.words)}.` },
    ...(f.cause ? [{ text: `Cause: ${f.cause}.` }] : []),
    {
      ul: f.acts.map(
        (a) =>
          `${a.at.slice(0, 10)}, ${signerOf(view, a)}: ${actSaid[a.does]}${a.words ? `: ${a.words}` : ""}${a.rests.length > 0 ? ` (rests on ${a.rests.length === 1 ? "one entry" : `${a.rests.length} entries`})` : ""}`,
      ),
    },
  ],
});
/** Faults with their lives, and the parts that went and came. */
export function thread(view: JobView): Content[] {
  const faults = faultsOf(view);
  const exchanged = exchangedOf(view);
  return [
    ...(faults.length > 0 ? [head("Faults"), ...faults.map((f) => lifeOf(view, f))] : []),
    ...(exchanged.length > 0
      ? [
          head("Parts changed"),
          table(
            ["*", 90, 90, 100, "*"],
            ["Part", "Where", "Old one", "New one", "Why"],
            exchanged.map((l): TableCell[] => [l.part, l.where, l.old, l.came, l.why]),
          ),
        ]
      : []),
  ];
}

/** Parts that the answers ask for and that are not in yet. */
export function shopping(lines: readonly PartLine[]): Content[] {
  if (lines.length === 0) return [];
  return [
    { text: "Parts to get", style: "h2", pageBreak: "before" },
    table(
      ["*", 66, 58, 52, 84, 18, "*"],
      ["Part", "Old one", "Value", "Rating", "Class or kind", "No.", "Why"],
      lines.map((l): TableCell[] => [l.part, l.was, l.value, l.rating, l.kind, String(l.quantity), l.why]),
    ),
  ];
}

/** Work with what it made due again. */
export function workDone(view: JobView): Content[] {
  const rows = view.works.map((w): TableCell[] => [
    w.at.slice(0, 10),
    `${workKindById(w.work)?.title ?? w.work}${w.note ? `. ${w.note}` : ""}`,
    w.makes.map((m) => m.task).join("; "),
  ]);
  return [{ text: "Work done", style: "h2", pageBreak: "before" }, table([62, "*", 210], ["Date", "Work", "Made due again"], rows)];
}

/** An input by what it means: a report is read by people who type no commands. */
const named = (i: { readonly meaning: string; readonly path: string }): TableCell => {
  const can = /^strip\.can(\d+)\./.exec(i.path)?.[1];
  return upperFirst(can === undefined ? i.meaning : `can ${can}: ${i.meaning}`);
};

/** What was assumed, once each. */
export function assumed(answers: readonly Answer[]): Content[] {
  const seen = new Map<string, TableCell[]>();
  for (const a of answers) {
    for (const q of a.quantities)
      if (q.quantity.origin === "assumed" && q.quantity.source !== nothingAdded)
        seen.set(q.path, [named(q), printQuantity(q.quantity.value, q.quantity.spread, q.dimension), q.quantity.source]);
    for (const c of a.choices) if (c.origin === "assumed") seen.set(c.path, [named(c), c.value, "assumed"]);
  }
  return [
    head("What was assumed"),
    { text: "Not measured on this set. Each one widens the intervals by its own uncertainty.", color: quiet },
    table([220, 105, "*"], ["Input", "Value", "Why"], [...seen.values()]),
  ];
}

/** Instruments that readings were taken with. */
export function instruments(view: JobView): Content[] {
  const rows = view.instruments.map((i): TableCell[] => [i.id, i.label, i.uncertainty, i.lastCheck, i.offset]);
  return [head("Instruments"), table([60, "*", 90, 70, 70], ["Id", "What", "Uncertainty", "Last check", "Offset"], rows)];
}

/** Every input of an answer with where it comes from. */
export function inputsTable(a: Answer): Content[] {
  const rows = [
    ...a.quantities
      .filter((q) => q.quantity.source !== nothingAdded)
      .map((q): TableCell[] => [
        named(q),
        printQuantity(q.quantity.value, q.quantity.spread, q.dimension),
        `${q.quantity.origin}${q.quantity.source ? `: ${q.quantity.source}` : ""}`,
      ]),
    ...a.choices.map((c): TableCell[] => [named(c), c.value, c.origin]),
    ...a.rows.map((t): TableCell[] => [named(t), `${t.rows.length} ${t.rows.length === 1 ? "row" : "rows"}`, t.origin]),
  ];
  return rows.length === 0
    ? []
    : [
        { text: "What went into it", bold: true, margin: [0, 6, 0, 0] },
        {
          fontSize: 8.5,
          ...(table(["*", 110, 170], ["Input", "Value", "Where it comes from"], rows) as object),
        } as Content,
      ];
}
