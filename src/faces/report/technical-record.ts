import type { Content, TableCell, TDocumentDefinitions } from "pdfmake/interfaces";
import type { Answer } from "../../ask/answered";
import { chassisSaid } from "../../ask/chassis";
import type { AnySheet } from "../../ask/contract";
import type { HeededFinding } from "../../ask/findings";
import { sayCell, sayFigure } from "../../ask/say";
import { sayBroughtIn } from "../../job/format";
import { pastOf } from "../../job/history/history";
import { nextSteps } from "../../job/next";
import { foundAndLeftOf } from "../../job/rollups/chart-lines";
import { partsOf, replacedIn } from "../../job/rollups/parts";
import { type ProofLine, proofCells } from "../../job/rollups/proof/line";
import { proofOf } from "../../job/rollups/proof/proof";
import { stepById } from "../../job/steps";
import { type JobView, readingsAndDials, subjectLabel } from "../../job/view";
import { isOpen, stateWord } from "../../standards/cautions";
import { printQuantity } from "../../units/print";
import { upperFirst } from "../../units/sentence";
import { drawingOf, hasValues } from "../figures/drawing";
import { pictureSvg } from "../figures/picture";
import { stripsSvg } from "../figures/strips";
import { svgOf } from "../figures/svg";
import { accent, coverCaution, head, heed, lines, pageOf, quiet, table } from "./paper";
import { pastContent } from "./past";
import { assumed, inputsTable, instruments, shopping, thread, workDone } from "./record-parts";

export interface RecordParts {
  readonly view: JobView;
  readonly answers: readonly { readonly sheet: AnySheet; readonly answer: Answer }[];
  /** a line for each question that could not be answered, with why */
  readonly leftOut?: readonly string[];
}

/** The technical record as pdfmake's document definition: from the job and its answers alone, so the same job gives the same bytes. */
export function technicalRecord({ view, answers, leftOut = [] }: RecordParts): TDocumentDefinitions {
  const { document: job, set } = view;
  const stamp = job.entries.at(-1)?.at ?? job.created;
  return {
    ...pageOf(job.name, `${job.name}: technical record`, stamp),
    content: [
      ...cover(view, stamp),
      ...pastContent(pastOf(view)),
      ...foundAndLeft(view),
      ...performance(view),
      ...thread(view),
      ...answers.flatMap((a) => answerPages(a.sheet, a.answer, a.sheet.subject === "stage" ? subjectLabel(set, a.answer.at) : "")),
      ...(leftOut.length > 0 ? [head("Not answered"), { ul: leftOut.map(upperFirst) }] : []),
      ...shopping(
        partsOf(
          answers.map(({ sheet, answer }) => ({ title: sheet.title, parts: answer.parts })),
          replacedIn(view),
        ),
      ),
      ...workDone(view),
      ...toDo(view),
      ...assumed(answers.map((a) => a.answer)),
      ...instruments(view),
    ],
  };
}

function cover(view: JobView, stamp: string): Content[] {
  const { document: job, set } = view;
  const count = (state: string) => view.steps.filter((s) => s.state === state).length;
  const invented = view.readings.some((r) => r.invented);
  const facts: TableCell[][] = [
    ["Set", set.title],
    ["Chassis", `${upperFirst(chassisSaid[view.chassis])}.`],
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
    { layout: lines, table: { widths: [92, "*"], body: facts.map(([a, b]) => [{ text: a as string, color: quiet }, b]) } },
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
  const rows = names.map((n): TableCell[] => [upperFirst(n), last("as-found", n), last("as-left", n)]);
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

/** Lines of what was measured, as found, as left, by chart and model: one table of one shape. */
const proofTable = (all: readonly ProofLine[]): Content =>
  table(
    ["*", 50, 48, 60, 60, 60, 84, "*"],
    ["What", "Where", "Chart", "As found", "As left", "By the model", "Method, conditions", "What it says"],
    all.map((l) => {
      const [what, where, found, left, model, method, says] = proofCells(l);
      return [what, where, l.chart ?? "", found, left, model, method, says].map(
        (text, i): TableCell => ({ text, fontSize: 8.5, ...(i === 7 && l.refused ? { color: accent } : {}) }),
      );
    }),
  );
/** What was measured, beside chart and model; unlike figures are kept apart. */
function performance(view: JobView): Content[] {
  const proof = proofOf(view);
  const charts = foundAndLeftOf(view);
  return [
    ...(proof.length > 0 ? [head("Performance record"), proofTable(proof)] : []),
    ...(charts.length > 0 ? [head("Volts, ohms and parts"), proofTable(charts)] : []),
  ];
}

const word = { danger: "DANGER", act: "Do", check: "Check", note: "Note" } as const;

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

const pictured = (title: string, svg: string): Content => ({
  stack: [
    { text: title, bold: true, margin: [0, 4, 0, 0] },
    { svg, width: 499 },
  ],
  unbreakable: true,
});
/** Pictures of an answer: its place as a circuit, its strips, its plots. */
const picturesOf = (sheet: AnySheet, a: Answer): Content[] => [
  ...a.drawn.map((d) => pictured(d.title, pictureSvg(d, 620).svg)),
  ...a.strips.map((s) => pictured(s.title, stripsSvg(s, 500).svg)),
  ...(a.missing.length > 0 ? [] : sheet.figures.filter((f) => hasValues(f, a))).map((f) =>
    pictured(f.title, svgOf(drawingOf(f, a), { width: 500, height: 205 })),
  ),
];
const tablesOf = (a: Answer): Content[] =>
  a.tables.flatMap((t): Content[] => [
    { text: t.title, bold: true, margin: [0, 4, 0, 0] },
    table(
      // words take what figures leave
      t.columns.map((_, i) => (t.rows.some((r) => typeof r[i] === "string" && r[i].length > 14) ? "*" : "auto")),
      t.columns.map((c) => c.name),
      t.rows.map((r) => r.map((v, i): TableCell => sayCell(t, v, i))),
    ),
  ]);
function answerPages(sheet: AnySheet, a: Answer, label: string): Content[] {
  const shown = Object.values(a.results).filter((f) => f.low !== null || f.why === undefined);
  return [
    { text: `${sheet.title}${label ? `: ${label}` : ""}`, style: "h2", pageBreak: "before" },
    { text: a.question, color: quiet },
    { text: a.headline, style: "answer" },
    ...picturesOf(sheet, a),
    table(
      ["*", 190],
      ["Result", "Value (95 % interval)"],
      shown.map((f): TableCell[] => [upperFirst(f.meaning), sayFigure(f)]),
    ),
    ...tablesOf(a),
    ...a.findings.map(findingContent),
    ...inputsTable(a),
    {
      text: `${a.sheet} version ${a.version}, seed ${a.seed}, ${a.draws} draws; intervals 95 %, probabilistically symmetric; weakest input: ${a.weakest}.`,
      style: "small",
    },
  ];
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
          { text: `${upperFirst(i.why)}.${i.amount ? ` ${upperFirst(i.amount)}.` : ""}` },
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
