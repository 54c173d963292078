import type { Content, TableCell } from "pdfmake/interfaces";
import { type Fault, faultsOf } from "../../job/faults/faults";
import { actTold, shownBy } from "../../job/faults/told";
import { workKindById } from "../../job/ripple";
import { exchangedOf } from "../../job/rollups/owner/work";
import type { PartLine } from "../../job/rollups/parts";
import { signerOf } from "../../job/sitting";
import type { JobView } from "../../job/view";
import { dayInWords } from "../../units/day";
import { upperFirst } from "../../units/sentence";
import { head, sectioned, table } from "./paper";

/** Sections of the technical record that are lists of what was recorded. */

const lifeOf = (view: JobView, f: Fault): Content => ({
  unbreakable: true,
  margin: [0, 2, 0, 6],
  stack: [
    { text: `${upperFirst(f.label)}: ${f.state}${f.unrecorded ? ", by a reading off its chart" : ""}`, bold: true },
    ...shownBy(f).map((t) => ({ text: `${upperFirst(t)}.` })),
    ...(f.cause ? [{ text: `Cause: ${f.cause}.` }] : []),
    {
      ul: f.acts.map(
        (a) =>
          `${dayInWords(a.at)}, ${signerOf(view, a)}: ${actTold(f, a)}${a.rests.length > 0 ? ` (rests on ${a.rests.length === 1 ? "one entry" : `${a.rests.length} entries`})` : ""}`,
      ),
    },
  ],
});
/** Faults with their lives, and the parts that went and came. */
export function thread(view: JobView): Content[] {
  const [first, ...others] = faultsOf(view);
  const exchanged = exchangedOf(view);
  return [
    ...(first ? [{ unbreakable: true, stack: [head("Faults"), lifeOf(view, first)] } as Content] : []),
    ...others.map((f) => lifeOf(view, f)),
    ...(exchanged.length > 0
      ? [
          table(
            ["*", 90, 90, 100, "*"],
            ["Part", "Where", "Old one", "New one", "Why"],
            exchanged.map((l): TableCell[] => [l.part, upperFirst(l.where), l.old, l.came, upperFirst(l.why)]),
            { small: true, title: sectioned("Parts changed") },
          ),
        ]
      : []),
  ];
}

/** Parts that the answers ask for and that are not in yet. */
export function shopping(lines: readonly PartLine[]): Content[] {
  if (lines.length === 0) return [];
  return [
    table(
      ["*", 66, 58, 52, 84, 18, "*"],
      ["Part", "Old one", "Value", "Rating", "Class or kind", "No.", "Why"],
      lines.map((l): TableCell[] => [l.part, l.was, l.value, l.rating, l.kind, String(l.quantity), l.why]),
      { small: true, title: sectioned("Parts to get") },
    ),
  ];
}

/** Work with what it made due again. */
export function workDone(view: JobView): Content[] {
  const rows = view.works.map((w): TableCell[] => [
    dayInWords(w.at),
    `${workKindById(w.work)?.title ?? w.work}${w.note ? `. ${w.note}` : ""}`,
    w.makes.map((m) => m.task).join("; "),
  ]);
  return [table([84, "*", 210], ["Date", "Work", "Made due again"], rows, { small: true, title: sectioned("Work done") })];
}

/** Instruments that readings were taken with. */
export function instruments(view: JobView): Content[] {
  const rows = view.instruments.map((i): TableCell[] => [i.id, i.label, i.uncertainty, i.lastCheck, i.offset]);
  const heads = ["Id", "What", "Uncertainty", "Last check", "Offset"];
  return [table([60, "*", 90, 70, 70], heads, rows, { small: true, title: sectioned("Instruments") })];
}
