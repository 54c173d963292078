import type { Answer } from "../../ask/answered";
import { chassisSaid } from "../../ask/chassis";
import type { AnySheet } from "../../ask/contract";
import type { Table } from "../../ask/drawings";
import type { HeededFinding } from "../../ask/findings";
import { nextNamed, sayCell, sayFigure } from "../../ask/say";
import type { StripFit } from "../../infer/strip/fit";
import { sayBroughtIn } from "../../job/format";
import type { ProofLine } from "../../job/rollups/proof/line";
import { type JobView, readingsAndDials } from "../../job/view";
import { nothingAdded } from "../../set/strip";
import { type Caution, isOpen, stateWord } from "../../standards/cautions";
import { shortDay } from "../../units/day";
import { drawingOf, hasValues } from "../figures/drawing";
import { pictureWords } from "../figures/picture";
import { stripsText } from "../figures/strips";
import { plotText } from "../figures/text";

export interface Page {
  readonly columns: number;
  readonly bold: (s: string) => string;
}

/** Breaks a text into lines, with an indent for the lines after the first. */
export function wrap(text: string, columns: number, first = "", rest = first): string[] {
  const out: string[] = [];
  let here = first;
  for (const word of text.split(" ")) {
    if (here.length + word.length + 1 > columns && here.trim() !== "") {
      out.push(here.trimEnd());
      here = rest;
    }
    here += here === first && here !== "" ? word : here === rest && out.length > 0 ? word : `${here === "" ? "" : " "}${word}`;
  }
  return [...out, here];
}

/** Columns of text, each as wide as its widest cell; the last is wrapped. */
export function columnsOf(rows: readonly (readonly string[])[], columns: number, indent = "  "): string[] {
  if (rows.length === 0) return [];
  const widths = rows[0].map((_, c) => Math.max(...rows.map((r) => (r[c] ?? "").length)));
  return rows.flatMap((r) => {
    const head =
      indent +
      r
        .slice(0, -1)
        .map((cell, c) => cell.padEnd(widths[c] + 2))
        .join("");
    return wrap(r[r.length - 1] ?? "", Math.max(columns, head.length + 20), head, " ".repeat(head.length));
  });
}

const word = { danger: "DANGER", act: "Do", check: "Check", note: "Note" } as const;

/** A finding; before its step what is to be heeded, and the state that the step wants where it is open. */
export function findingLines(f: HeededFinding, page: Page): string[] {
  const out = wrap(f.says, page.columns, `${word[f.severity].padEnd(7)} `, "        ");
  out.push(...cautionLines(f.before, page, "        "));
  if (f.do) out.push(...wrap(`${isOpen(f.state) ? `[${stateWord[f.state]}] ` : ""}${f.do}`, page.columns, "     -> ", "        "));
  return out;
}

/** Cautions before a step, as far in as the step's own mark, so that they are not read as of the step above. */
export const cautionLines = (cautions: readonly Caution[], page: Page, indent: string): string[] =>
  cautions.flatMap((c) => wrap(c.says, page.columns, `${indent}! `, `${indent}  `));

function tableLines(t: Table, page: Page): string[] {
  return ["", t.title, ...columnsOf([t.columns.map((c) => c.name), ...t.rows.map((r) => r.map((v, c) => sayCell(t, v, c)))], page.columns)];
}

/** An answer as a person reads it in a terminal: the sentence first, then figures, plot, findings with their cautions, what to measure next. */
export function answerText(a: Answer, sheet: AnySheet, page: Page): string {
  const out: string[] = [...wrap(a.question, page.columns).map(page.bold), "", ...wrap(a.headline, page.columns).map(page.bold), ""];
  const names = [...sheet.key.filter((k) => k in a.results), ...Object.keys(a.results).filter((k) => !sheet.key.includes(k))].filter(
    (n) => a.results[n].low !== null || a.results[n].why === undefined,
  );
  out.push(
    ...columnsOf(
      names.map((n) => [n, `${a.unread.length > 0 ? "example: " : ""}${sayFigure(a.results[n], true)}`, a.results[n].meaning]),
      page.columns,
    ),
  );
  const reasons = new Set(names.flatMap((n) => (a.results[n].without > 0.005 ? [a.results[n].why ?? ""] : [])));
  for (const why of reasons) out.push(...wrap(`"none" where ${why}.`, page.columns, "  "));
  if (a.unread.length > 0 && a.strips.length + a.tables.length > 0) out.push("", page.bold("EXAMPLE, not this set:"));
  for (const d of a.drawn) out.push("", d.title, ...pictureWords(d).flatMap((w) => wrap(w, page.columns, "  ", "    ")));
  for (const s of a.strips) out.push("", ...stripsText(s, Math.min(page.columns, 100)));
  for (const t of a.tables) out.push(...tableLines(t, page));
  if (a.missing.length === 0)
    for (const f of sheet.figures.filter((f) => hasValues(f, a)))
      out.push("", f.title, ...plotText(drawingOf(f, a), { columns: Math.min(72, page.columns - 12), lines: 14 }));
  if (a.findings.length > 0) out.push("", ...a.findings.flatMap((f) => findingLines(f, page)));
  if (a.next.length > 0)
    out.push(
      "",
      "To narrow the answer, measure next:",
      ...a.next.flatMap((n) => [
        ...cautionLines(n.before, page, "  "),
        ...wrap(
          `${isOpen(n.state) ? `[${stateWord[n.state]}] ` : ""}${nextNamed(n, (path) => path)} (accounts for ${Math.round(n.share * 100)} % of the uncertainty in ${a.results[n.result].meaning}): ${n.how}`,
          page.columns,
          "  - ",
          "    ",
        ),
      ]),
    );
  const weak =
    a.quantities.filter((q) => q.quantity.origin === "assumed" && q.quantity.source !== nothingAdded).length +
    [...a.choices, ...a.rows].filter((c) => c.origin === "assumed").length;
  const tried = [
    ...a.quantities.filter((q) => q.quantity.origin === "tried").map((q) => q.path),
    ...[...a.choices, ...a.rows].filter((c) => c.origin === "tried").map((c) => c.path),
  ];
  out.push(
    "",
    ...wrap(
      `Intervals are 95 %, probabilistically symmetric, from ${a.draws} draws with seed ${a.seed} (${a.sheet} version ${a.version}). ${weak} inputs are assumed${tried.length > 0 ? `; tried here: ${tried.join(", ")}` : ""}.`,
      page.columns,
    ),
  );
  return out.join("\n");
}

/** The performance record, figure by figure. */
export function proofText(lines: readonly ProofLine[], page: Page): string {
  if (lines.length === 0) return "Nothing measured yet: read a sweep in, or fill in the performance sheet.";
  return lines
    .flatMap((l) => [
      "",
      page.bold(`${l.figure}${l.where ? `, ${l.where}` : ""}`),
      ...columnsOf(
        (
          [
            ["by the chart", l.chart ?? ""],
            ["as found", l.found],
            ["as left", l.left],
            ["by the model now", l.model],
            ["method", [l.method, l.conditions].filter((t) => t !== "").join("; ")],
          ] as const
        ).filter(([, t]) => t !== ""),
        page.columns,
      ),
      ...(l.says ? wrap(l.says, page.columns, l.refused ? "  ! " : "  ", "    ") : []),
    ])
    .slice(1)
    .join("\n");
}

/** A job at a glance: the set, its steps, its readings and works. */
export function jobText(view: JobView, page: Page): string {
  const { set } = view;
  const out = [
    page.bold(`${view.document.name}: ${set.title}`),
    ...wrap(set.note, page.columns),
    ...(view.document.broughtIn ? [sayBroughtIn(view.document.broughtIn)] : []),
    `Chassis: ${chassisSaid[view.chassis]}.`,
    "",
    "Places, by the names used in paths and --at",
    ...columnsOf(
      [
        ...set.bands.map((x) => [`bands.${x.id}`, x.label]),
        ...set.stages.map((x) => [`stages.${x.id}`, x.label]),
        ...set.fittings.map((x) => [`fittings.${x.id}`, `${x.label}, ${x.state}`]),
        ...set.tubes.map((x) => [`tubes.${x.socket}`, `${x.type}, ${x.function}`]),
        ...set.supplies.nodes.map((x) => [`supplies.nodes.${x.id}`, x.label]),
      ],
      page.columns,
    ),
    "",
  ];
  const done = view.steps.filter((s) => s.state !== "untouched");
  out.push(
    ...columnsOf([["step", "state", "due"], ...done.map((s) => [s.id, s.state, s.due.map((d) => d.task).join("; ")])], page.columns),
  );
  const { readings, dials } = readingsAndDials(view);
  if (dials.length > 0) out.push("", "The dial", ...dials.map((d) => `  ${d}`));
  if (readings.length > 0)
    out.push(
      "",
      "Readings",
      ...columnsOf(
        readings.map((r) => [r.id, r.as, r.state, r.file.name, r.invented ? "invented" : ""]),
        page.columns,
      ),
    );
  for (const r of readings)
    out.push(
      "",
      `${r.id}`,
      ...columnsOf(
        r.figures.map((f) => [f.name, f.text]),
        page.columns,
      ),
      ...r.warnings.flatMap((w) => wrap(w, page.columns, "  ! ", "    ")),
    );
  if (view.works.length > 0)
    out.push(
      "",
      "Work done",
      ...columnsOf(
        view.works.map((w) => [shortDay(w.at), w.work, w.subject, w.note]),
        page.columns,
      ),
    );
  return out.join("\n");
}

/** What a fit told, and what it could not. */
export function fitText(fit: StripFit, page: Page): string {
  const told = [...fit.leaves]
    .sort((a, b) => a.leftRatio - b.leftRatio)
    .filter((l) => l.leftRatio < 0.75)
    .slice(0, 6);
  return [
    "",
    `Strip fitted: ${fit.usedPoints} points, misses them by ${fit.rmsDb.toFixed(2)} dB rms. The sweep tells ${fit.directionsCount} independent things about ${fit.leaves.length} unknowns.`,
    "What it tells (share of the old uncertainty that is left):",
    ...columnsOf(
      [
        ...told.map((l) => [l.path, `${Math.round(l.leftRatio * 100)} %`]),
        ...fit.combinations.map((c) => [c.name, `${Math.round((c.afterRatio / c.beforeRatio) * 100)} %`]),
      ],
      page.columns,
    ),
    "The rest keeps its stated uncertainty: k and Q of one winding can't be told apart from one sweep.",
    ...fit.warnings.map((w) => `  ! ${w}`),
  ].join("\n");
}
