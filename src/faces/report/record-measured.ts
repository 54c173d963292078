import type { Content, TableCell } from "pdfmake/interfaces";
import { foundAndLeftOf } from "../../job/rollups/chart-lines";
import type { ProofLine } from "../../job/rollups/proof/line";
import { proofOf } from "../../job/rollups/proof/proof";
import { type JobView, readingsAndDials } from "../../job/view";
import { closed, upperFirst } from "../../units/sentence";
import { accent, head, quiet, sectioned, table } from "./paper";

/** What was read, and what was measured beside chart and model. */

/** Each reading with its file, how it was taken, and its values. */
export function readingsTaken(view: JobView): Content[] {
  const { readings, dials } = readingsAndDials(view);
  if (readings.length + dials.length === 0) return [head("Readings"), { text: "None recorded.", color: quiet }];
  const said = readings.map((r): Content => {
    const how = [r.as, r.state.replace("-", " "), r.thermal, ...(r.instrument ? [`with ${r.instrument}`] : [])].join(", ");
    const values = r.figures.map((f) => `${f.name} ${f.text}`).join("; ");
    return {
      margin: [0, 0, 0, 3],
      fontSize: 9,
      stack: [
        { text: [{ text: r.file.name, bold: true }, `: ${how}.${r.invented ? ` INVENTED: ${closed(r.invented)}` : ""}`] },
        ...(values === "" ? [] : [{ text: closed(upperFirst(values)) }]),
        ...r.warnings.map((w): Content => ({ text: closed(upperFirst(w)), color: quiet })),
      ],
    };
  });
  const [first, ...rest] = [...said, ...dials.map((d): Content => ({ text: closed(d), fontSize: 9 }))];
  return [{ unbreakable: true, stack: [head("Readings"), first] }, ...rest];
}

interface Column {
  readonly title: string;
  readonly width: string | number;
  readonly of: (l: ProofLine) => string;
  /** what many rows say alike stands once below, and its letter here */
  readonly below?: true;
}
const columns: readonly Column[] = [
  { title: "What", width: "*", of: (l) => upperFirst(l.figure) },
  { title: "Where", width: 74, of: (l) => upperFirst(l.where) },
  { title: "Chart", width: 38, of: (l) => l.chart ?? "" },
  { title: "As found", width: 82, of: (l) => l.found },
  { title: "As left", width: 82, of: (l) => l.left },
  { title: "By the model", width: 82, of: (l) => l.model },
  {
    title: "How",
    width: 22,
    of: (l) => upperFirst([l.method, l.conditions].filter((t) => t !== "").join("; ")),
    below: true,
  },
  { title: "Note", width: 22, of: (l) => l.says, below: true },
];
const letterOf = (i: number): string => (i < 26 ? "" : letterOf(Math.floor(i / 26) - 1)) + String.fromCharCode(97 + (i % 26));

/** Lines of what was measured, as found, as left, by chart and model; how it was read and what it says stand below, once each. */
export function measuredTable(title: string, all: readonly ProofLine[]): Content[] {
  const used = columns.filter((c) => all.some((l) => c.of(l) !== ""));
  const notes = [...new Set(used.filter((c) => c.below).flatMap((c) => all.map(c.of)))].filter((t) => t !== "");
  const apart = new Set(all.filter((l) => l.refused).map((l) => l.says));
  const cell = (c: Column, l: ProofLine): TableCell => {
    const text = c.of(l);
    return c.below && text !== "" ? { text: letterOf(notes.indexOf(text)), ...(apart.has(text) ? { color: accent } : {}) } : text;
  };
  return [
    table(
      used.map((c) => c.width),
      used.map((c) => c.title),
      all.map((l) => used.map((c) => cell(c, l))),
      { small: true, title: sectioned(title) },
    ),
    ...notes.map(
      (text, i): Content => ({
        text: `${letterOf(i)}  ${closed(text)}`,
        fontSize: 8.5,
        margin: [10, 0, 0, i === notes.length - 1 ? 6 : 0],
        ...(apart.has(text) ? { color: accent } : {}),
      }),
    ),
  ];
}
/** What was measured, beside chart and model; unlike figures are kept apart. */
export function performance(view: JobView): Content[] {
  const proof = proofOf(view);
  const charts = foundAndLeftOf(view);
  return [
    ...(proof.length > 0 ? measuredTable("Performance record", proof) : []),
    ...(charts.length > 0 ? measuredTable("Volts, ohms and parts", charts) : []),
  ];
}
