import type { Content, TableCell, TDocumentDefinitions } from "pdfmake/interfaces";
import type { Answer } from "../../ask/answered";
import { chassisSaid } from "../../ask/chassis";
import type { AnySheet } from "../../ask/contract";
import type { HeededFinding } from "../../ask/findings";
import { sayCell, sayFigure } from "../../ask/say";
import { sayBroughtIn } from "../../job/format";
import { nextSteps } from "../../job/next";
import { workKindById } from "../../job/ripple";
import { partsOf, replacedIn } from "../../job/rollups/parts";
import { proofCells, proofHeads, proofOf } from "../../job/rollups/proof";
import { stepById } from "../../job/steps";
import { type JobView, readingsAndDials, subjectLabel } from "../../job/view";
import { nothingAdded } from "../../set/strip";
import { type Caution, isOpen, stateWord } from "../../standards/cautions";
import { printQuantity } from "../../units/print";
import { drawingOf, hasValues } from "../figures/drawing";
import { pictureSvg } from "../figures/picture";
import { stripsSvg } from "../figures/strips";
import { svgOf } from "../figures/svg";

export interface ReportParts {
  readonly view: JobView;
  readonly answers: readonly { readonly sheet: AnySheet; readonly answer: Answer }[];
  /** a line for each question that could not be answered, with why */
  readonly leftOut?: readonly string[];
}

const accent = "#b3401f";
const quiet = "#5c666e";
const rule = "#cfc9ba";
const word = { danger: "DANGER", act: "Do", check: "Check", note: "Note" } as const;
const upper = (s: string): string => s.charAt(0).toUpperCase() + s.slice(1);
const head = (text: string): Content => ({ text, style: "h2" });
const lines = {
  hLineWidth: (i: number, n: { table: { body: unknown[] } }) => (i === 0 || i === 1 || i === n.table.body.length ? 0.8 : 0.3),
  vLineWidth: () => 0,
  hLineColor: () => rule,
  paddingTop: () => 3,
  paddingBottom: () => 3,
};

const table = (widths: (string | number)[], heads: string[], rows: TableCell[][]): Content =>
  rows.length === 0
    ? { text: "None recorded.", color: quiet, margin: [0, 0, 0, 6] }
    : {
        layout: lines as never,
        margin: [0, 2, 0, 8],
        table: {
          headerRows: 1,
          keepWithHeaderRows: 1,
          dontBreakRows: true,
          widths,
          body: [heads.map((h): TableCell => ({ text: h, bold: true })), ...rows],
        },
      };

/** The report as pdfmake's document definition: from the job and its answers alone, so the same job gives the same bytes. */
export function reportDefinition({ view, answers, leftOut = [] }: ReportParts): TDocumentDefinitions {
  const { document: job, set } = view;
  const stamp = job.entries.at(-1)?.at ?? job.created;
  return {
    pageSize: "A4",
    pageMargins: [48, 54, 48, 54],
    info: { title: `${job.name}: ${set.title}`, creator: "Fettle", producer: "Fettle", creationDate: new Date(stamp) },
    defaultStyle: { font: "Roboto", fontSize: 10, lineHeight: 1.2, color: "#1d2a33" },
    styles: {
      h1: { fontSize: 24, bold: true, margin: [0, 0, 0, 4] },
      h2: { fontSize: 14, bold: true, margin: [0, 14, 0, 4] },
      answer: { fontSize: 12, bold: true, margin: [0, 2, 0, 6] },
      small: { fontSize: 8.5, color: quiet },
      caution: { fontSize: 9, color: accent, margin: [0, 1, 0, 2] },
    },
    footer: (page, pages) => ({
      columns: [{ text: `${job.name}, ${stamp.slice(0, 10)}` }, { text: `page ${page} of ${pages}`, alignment: "right" }],
      margin: [48, 14, 48, 0],
      fontSize: 8.5,
      color: quiet,
    }),
    content: [
      ...cover(view, stamp),
      ...foundAndLeft(view),
      ...performance(view),
      ...answers.flatMap((a) => answerPages(a.sheet, a.answer, a.sheet.subject === "stage" ? subjectLabel(set, a.answer.at) : "")),
      ...(leftOut.length > 0 ? [head("Not answered"), { ul: leftOut.map(upper) }] : []),
      ...shopping({ view, answers, leftOut }),
      ...workDone(view),
      ...toDo(view),
      ...assumed(answers.map((a) => a.answer)),
      ...instruments(view),
    ],
  };
}

/** Said once, on the cover. */
export const coverCaution =
  "B+ kills. Switch off, unplug the set, discharge the capacitors, then measure before you touch anything inside. Local code and licensed practice prevail over this report.";

function cover(view: JobView, stamp: string): Content[] {
  const { document: job, set } = view;
  const count = (state: string) => view.steps.filter((s) => s.state === state).length;
  const invented = view.readings.some((r) => r.invented);
  const facts: TableCell[][] = [
    ["Set", set.title],
    ["Chassis", `${upper(chassisSaid[view.chassis])}.`],
    [
      "Line",
      `${printQuantity(set.line.voltage.value, set.line.voltage.spread, "voltage")}, ${printQuantity(set.line.frequency.value, set.line.frequency.spread, "frequency")}`,
    ],
    ["IF", printQuantity(set.strip.intermediateFrequency.value, set.strip.intermediateFrequency.spread, "frequency")],
    ["Tubes", set.tubes.map((t) => `${t.socket} ${t.function}`).join(", ")],
    ["Accessories", set.fittings.map((f) => `${f.label}: ${f.state}`).join(", ") || "none"],
    [
      "State of the job",
      `${count("proven")} steps proven, ${count("due again")} due again, ${count("in work") + count("found")} begun, ${count("untouched")} untouched`,
    ],
    ...(job.broughtIn ? [["From elsewhere", sayBroughtIn(job.broughtIn)]] : []),
    ["Last entry", stamp.slice(0, 10)],
  ];
  return [
    { text: job.name, style: "h1" },
    { text: set.note, style: "small", margin: [0, 0, 0, 8] },
    ...(invented
      ? [
          {
            text: "Readings marked INVENTED were made from a model, by no instrument.",
            color: accent,
            bold: true,
            margin: [0, 0, 0, 8],
          } as Content,
        ]
      : []),
    { layout: lines as never, table: { widths: [92, "*"], body: facts.map(([a, b]) => [{ text: a as string, color: quiet }, b]) } },
    {
      text: coverCaution,
      style: "caution",
      margin: [0, 10, 0, 0],
    },
  ];
}

function foundAndLeft(view: JobView): Content[] {
  const { readings, dials } = readingsAndDials(view);
  const names = [...new Set(readings.flatMap((r) => r.figures.map((f) => f.name)))];
  const last = (state: string, name: string) =>
    [...readings]
      .reverse()
      .find((r) => r.state === state && r.figures.some((f) => f.name === name))
      ?.figures.find((f) => f.name === name)?.text ?? "";
  const rows = names.map((n): TableCell[] => [upper(n), last("as-found", n), last("as-left", n)]);
  const sources = readings.map(
    (r): Content => ({
      text: `${r.id}: ${r.file.name}, ${r.as}, ${r.state}, ${r.thermal}${r.instrument ? `, with ${r.instrument}` : ""}${r.invented ? `. INVENTED: ${r.invented}` : ""}${r.warnings.map((w) => `. ${w}`).join("")}`,
      style: "small",
    }),
  );
  return [
    head("As found and as left"),
    table(["*", 150, 150], ["Reading", "As found", "As left"], rows),
    ...sources,
    ...dials.map((d): Content => ({ text: `${d}.`, style: "small" })),
  ];
}

/** The performance record: what was measured, beside the model; unlike figures are kept apart. */
function performance(view: JobView): Content[] {
  const proof = proofOf(view);
  if (proof.length === 0) return [];
  return [
    head("Performance record"),
    table(
      ["*", 50, 66, 66, 66, 84, "*"],
      [...proofHeads],
      proof.map((l) =>
        proofCells(l).map((text, i): TableCell => ({ text, fontSize: 8.5, ...(i === 6 && l.refused ? { color: accent } : {}) })),
      ),
    ),
  ];
}

/** Cautions before a step, on lines of their own. */
const heed = (cautions: readonly Caution[], indent = 0): Content[] =>
  cautions.length === 0 ? [] : [{ text: cautions.map((c) => c.says).join(" "), style: "caution", margin: [indent, 0, 0, 0] }];

function findingContent(f: HeededFinding): Content {
  return {
    unbreakable: true,
    margin: [0, 2, 0, 4],
    stack: [
      { text: [{ text: `${word[f.severity]}: `, bold: true, ...(f.severity === "danger" ? { color: accent } : {}) }, f.says] },
      ...heed(f.before, 12),
      ...(f.do ? [{ text: `${isOpen(f.state) ? `[${stateWord[f.state]}] ` : ""}${f.do}`, margin: [12, 1, 0, 1] } as Content] : []),
    ],
  };
}

function answerPages(sheet: AnySheet, a: Answer, label: string): Content[] {
  const shown = Object.entries(a.results).filter(([, f]) => f.low !== null || f.why === undefined);
  const figures =
    a.missing.length > 0
      ? []
      : sheet.figures
          .filter((f) => hasValues(f, a))
          .map(
            (f): Content => ({
              stack: [
                { text: f.title, bold: true, margin: [0, 4, 0, 0] },
                { svg: svgOf(drawingOf(f, a), { width: 500, height: 205 }), width: 499 },
              ],
              unbreakable: true,
            }),
          );
  return [
    { text: `${sheet.title}${label ? `: ${label}` : ""}`, style: "h2", pageBreak: "before" },
    { text: a.question, color: quiet },
    { text: a.headline, style: "answer" },
    ...a.drawn.map(
      (d): Content => ({
        stack: [
          { text: d.title, bold: true, margin: [0, 4, 0, 0] },
          { svg: pictureSvg(d, 620).svg, width: 499 },
        ],
        unbreakable: true,
      }),
    ),
    ...a.strips.map(
      (s): Content => ({
        stack: [
          { text: s.title, bold: true, margin: [0, 4, 0, 0] },
          { svg: stripsSvg(s, 500).svg, width: 499 },
        ],
        unbreakable: true,
      }),
    ),
    ...figures,
    table(
      ["*", 190],
      ["Result", "Value (95 % interval)"],
      shown.map(([, f]): TableCell[] => [upper(f.meaning), sayFigure(f)]),
    ),
    ...a.tables.flatMap((t): Content[] => [
      { text: t.title, bold: true, margin: [0, 4, 0, 0] },
      table(
        // words take what figures leave
        t.columns.map((_, i) => (t.rows.some((r) => typeof r[i] === "string" && r[i].length > 14) ? "*" : "auto")),
        t.columns.map((c) => c.name),
        t.rows.map((r) => r.map((v, i): TableCell => sayCell(t, v, i))),
      ),
    ]),
    ...a.findings.map(findingContent),
    {
      text: `${a.sheet} version ${a.version}, seed ${a.seed}, ${a.draws} draws; intervals 95 %, probabilistically symmetric; weakest input: ${a.weakest}.`,
      style: "small",
    },
  ];
}

function shopping({ view, answers }: ReportParts): Content[] {
  const lines = partsOf(
    answers.map(({ sheet, answer }) => ({ title: sheet.title, parts: answer.parts })),
    replacedIn(view),
  );
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

function workDone(view: JobView): Content[] {
  const rows = view.works.map((w): TableCell[] => [
    w.at.slice(0, 10),
    `${workKindById(w.work)?.title ?? w.work}${w.note ? `. ${w.note}` : ""}`,
    w.makes.map((m) => m.task).join("; "),
  ]);
  return [{ text: "Work done", style: "h2", pageBreak: "before" }, table([62, "*", 210], ["Date", "Work", "Made due again"], rows)];
}

function toDo(view: JobView): Content[] {
  const rows = nextSteps(view)
    .slice(0, 14)
    .map((i): TableCell[] => [
      i.step,
      {
        stack: [
          ...heed(i.cautions),
          { text: `${i.task}${isOpen(i.wants) ? ` [${stateWord[i.wants]}]` : ""}`, bold: true },
          { text: `${upper(i.why)}.${i.amount ? ` ${upper(i.amount)}.` : ""}` },
        ],
      },
      i.state,
    ]);
  return [
    head("What to do next"),
    table([28, "*", 60], ["Step", "What, why and with what care", "State"], rows),
    {
      text: `Steps proven: ${
        view.steps
          .filter((s) => s.state === "proven")
          .map((s) => `${s.id} ${stepById(s.id)?.title}`)
          .join("; ") || "none"
      }.`,
      style: "small",
    },
  ];
}

/** An input by what it means: a report is read by people who type no commands. */
const named = (i: { readonly meaning: string; readonly path: string }): TableCell => {
  const can = /^strip\.can(\d+)\./.exec(i.path)?.[1];
  return upper(can === undefined ? i.meaning : `can ${can}: ${i.meaning}`);
};

function assumed(answers: readonly Answer[]): Content[] {
  const seen = new Map<string, TableCell[]>();
  for (const a of answers) {
    for (const q of a.quantities)
      if (q.quantity.origin === "assumed" && q.quantity.source !== nothingAdded)
        seen.set(q.path, [named(q), printQuantity(q.quantity.value, q.quantity.spread, q.dimension), q.quantity.source]);
    for (const c of a.choices) if (c.origin === "assumed") seen.set(c.path, [named(c), c.value, "assumed"]);
  }
  return [
    head("What was assumed"),
    { text: "Not measured on this set. Each widens the intervals by what it is worth.", color: quiet },
    table([220, 105, "*"], ["Input", "Value", "Why"], [...seen.values()]),
  ];
}

function instruments(view: JobView): Content[] {
  const rows = view.instruments.map((i): TableCell[] => [i.id, i.label, i.uncertainty, i.lastCheck, i.offset]);
  return [head("Instruments"), table([60, "*", 90, 70, 70], ["Id", "What", "Uncertainty", "Last check", "Offset"], rows)];
}
