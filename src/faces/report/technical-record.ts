import type { Content, TableCell, TDocumentDefinitions } from "pdfmake/interfaces";
import type { Answer } from "../../ask/answered";
import { chassisSaid } from "../../ask/chassis";
import type { AnySheet } from "../../ask/contract";
import { accessoriesOf } from "../../job/accessory-states";
import { sayBroughtIn } from "../../job/format";
import { pastOf } from "../../job/history/history";
import { nextSteps } from "../../job/next";
import { stepCounts } from "../../job/open-steps";
import { partsIn, partsOf } from "../../job/rollups/parts";
import { ratedLineSaid } from "../../job/rollups/rated-line";
import { stepById } from "../../job/steps";
import { type JobView, subjectLabel } from "../../job/view";
import { isOpen, stateWord } from "../../standards/cautions";
import { dayInWords } from "../../units/day";
import { printQuantity } from "../../units/print";
import { upperFirst } from "../../units/sentence";
import { accent, coverCaution, head, heed, pageOf, pairs, quiet, sectioned, table } from "./paper";
import { pastContent } from "./past";
import { answerContent } from "./record-answers";
import { type InputList, inputList } from "./record-inputs";
import { performance, readingsTaken } from "./record-measured";
import { instruments, shopping, thread, workDone } from "./record-parts";

export interface RecordParts {
  readonly view: JobView;
  readonly answers: readonly { readonly sheet: AnySheet; readonly at?: string; readonly answer: Answer }[];
  /** a line for each question that could not be answered, with why */
  readonly leftOut?: readonly string[];
}

/** The technical record as pdfmake's document definition: from the job and its answers alone, so the same job gives the same bytes. */
export function technicalRecord({ view, answers, leftOut = [] }: RecordParts): TDocumentDefinitions {
  const { document: job } = view;
  const stamp = job.entries.at(-1)?.at ?? job.created;
  const inputs = inputList(
    view,
    answers.map((a) => a.answer),
  );
  return {
    ...pageOf(job.name, `${job.name}: technical record`, stamp),
    content: [
      ...cover(view, stamp),
      ...pastContent(pastOf(view)),
      ...readingsTaken(view),
      ...performance(view),
      ...thread(view),
      ...answered(view, answers, inputs),
      ...(leftOut.length > 0 ? [{ unbreakable: true, stack: [head("Not answered"), { ul: leftOut.map(upperFirst) }] }] : []),
      ...shopping(
        partsOf(
          answers.map(({ sheet, at, answer }) => ({ title: sheet.title, at, parts: answer.parts })),
          partsIn(view),
        ),
      ),
      ...workDone(view),
      ...toDo(view),
      ...instruments(view),
      ...inputs.content,
    ],
  };
}

/** The answers; what they share is said before the first. */
function answered(view: JobView, answers: RecordParts["answers"], inputs: InputList): Content[] {
  const [first] = answers;
  if (!first) return [];
  const { seed, draws } = first.answer;
  const [opening, ...rest] = answers.flatMap(({ sheet, answer: a }) =>
    answerContent(sheet, a, sheet.subject === "stage" ? subjectLabel(view.set, a.at) : "", inputs.of(a), { seed, draws }),
  );
  const shared = `Every interval is a 95 % one, probabilistically symmetric, from ${draws} draws with seed ${seed}. Inputs go by their numbers in the list at the end.`;
  return [{ unbreakable: true, stack: [head("The answers"), { text: shared, color: quiet }, opening] }, ...rest];
}

function cover(view: JobView, stamp: string): Content[] {
  const { document: job, set } = view;
  const { proved, due, all } = stepCounts(view);
  const invented = view.readings.some((r) => r.invented);
  const facts: [string, string][] = [
    ["Set", set.title],
    ["Chassis", `${upperFirst(chassisSaid[view.chassis])}.`],
    ["Line", ratedLineSaid(set)],
    ["IF", printQuantity(set.strip.intermediateFrequency.value, set.strip.intermediateFrequency.spread, "frequency")],
    ["Tubes", set.tubes.map((t) => `${t.socket} ${t.function}`).join(", ")],
    [
      "Accessories",
      accessoriesOf(set)
        .map((f) => `${f.label}: ${f.state}`)
        .join(", ") || "none",
    ],
    ["State of the job", `${proved} of ${all} steps proved, ${due} due again`],
    ...(job.broughtIn ? [["From elsewhere", sayBroughtIn(job.broughtIn)] as [string, string]] : []),
    ["Last entry", dayInWords(stamp)],
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
    pairs(92, facts),
    {
      text: coverCaution,
      style: "caution",
      margin: [0, 10, 0, 0],
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
    table([28, "*", 60], ["Step", "What, why and with what care", "State"], rows, { title: sectioned("What to do next") }),
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
