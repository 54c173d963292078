import type { Content, TableCell, TDocumentDefinitions } from "pdfmake/interfaces";
import type { OwnersReport } from "../../job/rollups/owner/owner";
import type { ProofLine } from "../../job/rollups/proof/line";
import { upperFirst } from "../../units/sentence";
import { beforeAfterSvg } from "../figures/before-after";
import type { Drawing } from "../figures/drawing";
import { svgOf } from "../figures/svg";
import { accent, head, lines, pageOf, quiet, table } from "./paper";
import { pastContent } from "./past";

export interface OwnersPaper {
  readonly report: OwnersReport;
  readonly stamp: string;
  /** sweeps of the IF, before and after */
  readonly sweeps?: Drawing | undefined;
  /** cards that sit with the set, as the content of a page of its own each */
  readonly cards: readonly Content[];
}
/** Points that are drawn; what is over is in the technical record. */
const mostPoints = 14;
const mostFigures = 16;
const body = 11;
const list = (items: readonly string[]): Content => ({
  ul: items.map((text) => ({ text, margin: [0, 1, 0, 2] as [number, number, number, number] })),
});
/** A heading that never stands alone at the foot of a page. */
const section = (title: string, first: Content, ...rest: Content[]): Content[] => [
  { unbreakable: true, stack: [head(title), first] },
  ...rest,
];
const said = (text: string): Content => ({ text, margin: [0, 0, 0, 4] });

function cover({ title, note, what, short, safety, invented, day }: OwnersReport): Content[] {
  return [
    { text: "Report to the owner", color: quiet },
    { text: title, style: "h1" },
    { text: note, style: "small", margin: [0, 0, 0, 8] },
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
    {
      layout: lines,
      table: { widths: [120, "*"], body: what.map(([a, b]): TableCell[] => [{ text: a, color: quiet }, b]) },
      margin: [0, 0, 0, 8],
    },
    head("In short"),
    ...short.map(
      (text): Content => ({
        text,
        margin: [0, 0, 0, 5],
        ...(text === safety.verdict && !safety.holds ? { color: accent, bold: true } : {}),
      }),
    ),
    {
      text: `B+ kills. Nothing inside this case is for the owner to touch. Local code and licensed practice prevail over this report. As of ${day}.`,
      style: "caution",
      margin: [0, 6, 0, 0],
    },
  ];
}
const wrong = ({ wrong: all }: OwnersReport): Content[] =>
  all.length === 0
    ? section("What was wrong", said("No fault is on record."))
    : section(
        "What was wrong",
        said("Each fault: how it showed, what caused it, and what became of it."),
        table(
          [104, "*", "*", 96],
          ["Where", "How it showed", "What caused it", "What became of it"],
          all.map((l): TableCell[] => [l.where, l.showed, l.cause, l.became]),
        ),
      );

function done({ exchanged, done: works }: OwnersReport): Content[] {
  const parts = table(
    ["*", 92, 100, 100, "*"],
    ["Part", "Where", "Old one", "New one", "Why"],
    exchanged.map((l): TableCell[] => [l.part, l.where, l.old, l.came, l.why]),
  );
  return [
    ...section(
      "What was done and why",
      said(exchanged.length === 0 ? "No part was changed." : "Parts taken out and put in; old ones are kept for you where it says so."),
      ...(exchanged.length === 0 ? [] : [parts]),
    ),
    ...(works.length === 0
      ? []
      : [
          table(
            [62, "*"],
            ["Day", "Other work"],
            works.map((w): TableCell[] => [w.day, w.what]),
          ),
        ]),
  ];
}

const measured = (l: ProofLine): TableCell[] => [
  `${upperFirst(l.figure)}${l.where ? `, ${l.where}` : ""}`,
  l.found || "not read",
  l.left || "not read",
  { text: [l.says, l.method === "" ? "" : `${upperFirst(l.method)}.`].filter((t) => t !== "").join(" "), fontSize: 9 },
];
function beforeAndAfter({ figures, points }: OwnersReport, sweeps: Drawing | undefined): Content[] {
  if (figures.length === 0 && points.length === 0 && !sweeps)
    return section("Before and after", said("Nothing was measured both before and after."));
  const drawn = points.flatMap((l) => (l.share ? [{ label: l.figure, ...l.share }] : [])).slice(0, mostPoints);
  const picture = drawn.length === 0 ? undefined : beforeAfterSvg(drawn, { width: 500, labels: 170 });
  const shown = figures.slice(0, mostFigures);
  const over = points.length - drawn.length + figures.length - shown.length;
  return [
    ...section("Before and after", said("Measured at the bench, each with its uncertainty.")),
    ...(sweeps
      ? [
          {
            unbreakable: true,
            stack: [
              { text: "How sharply it tunes", bold: true, margin: [0, 4, 0, 0] },
              { text: "The narrower and the more even on both sides, the better it separates two stations.", color: quiet, fontSize: 9 },
              { svg: svgOf(sweeps, { width: 500, height: 205 }), width: 499 },
            ],
          } as Content,
        ]
      : []),
    ...(picture
      ? [
          {
            unbreakable: true,
            stack: [
              { text: "Voltages against what they should be", bold: true, margin: [0, 8, 0, 2] },
              { svg: picture.svg, width: 499 },
            ],
          } as Content,
        ]
      : []),
    ...(shown.length > 0 ? [table(["*", 96, 96, 170], ["What", "As found", "As left", "What it says"], shown.map(measured))] : []),
    ...(over > 0
      ? [
          {
            text: `${over === 1 ? "One more value is" : `${over} more values are`} in the technical record.`,
            style: "small",
          } as Content,
        ]
      : []),
  ];
}
function use({ use: all }: OwnersReport): Content[] {
  if (all.length === 0) return [];
  const [first, ...rest] = all.map(
    (u): Content => ({
      unbreakable: true,
      margin: [0, 2, 0, 6],
      stack: [{ text: `${u.title} (${u.label})`, bold: true }, { ol: [...u.steps] }, { text: u.heed, style: "caution" }],
    }),
  );
  return section("How to use what was fitted", first, ...rest);
}
function safetyRecord({ safety }: OwnersReport): Content[] {
  return section(
    "Safety record",
    {
      stack: [
        { text: safety.verdict, bold: true, ...(safety.holds ? {} : { color: accent }) },
        { text: `Chassis: ${safety.chassis}`, margin: [0, 2, 0, 2] },
        ...(safety.by ? [{ text: `Tested with, and signed: ${safety.by}`, color: quiet }] : []),
      ],
    },
    ...(safety.lines.length > 0
      ? [
          table(
            ["*", 140, 140],
            ["What", "Coming in", "Going out"],
            safety.lines.map((l): TableCell[] => [l.what, l.came || "not on record", l.goes || "not on record"]),
          ),
        ]
      : []),
    ...(safety.lacks.length > 0 ? [{ text: "Missing from the record", bold: true } as Content, list(safety.lacks)] : []),
  );
}
/** What was left and the signature stand together: neither alone on a page. */
const leftAndSigned = ({ left, signature, day }: OwnersReport): Content => ({
  unbreakable: true,
  stack: [
    head("What was left"),
    left.length === 0 ? said("Nothing on record.") : list(left),
    head("Signature"),
    said(signature || "Not signed yet."),
    {
      columns: [
        {
          stack: [
            { text: " ", margin: [0, 24, 0, 0] },
            { canvas: [{ type: "line", x1: 0, y1: 0, x2: 210, y2: 0, lineWidth: 0.6 }] },
            { text: "For the bench, and the day", style: "small" },
          ],
        },
        {
          stack: [
            { text: " ", margin: [0, 24, 0, 0] },
            { canvas: [{ type: "line", x1: 0, y1: 0, x2: 210, y2: 0, lineWidth: 0.6 }] },
            { text: "The owner, having read it", style: "small" },
          ],
        },
      ],
      columnGap: 40,
    },
    {
      text: `The technical record of ${day} holds every reading, input and step behind this report.`,
      style: "small",
      margin: [0, 10, 0, 0],
    },
  ],
});

/**
 * The report to the owner as pdfmake's document definition, in the order in which an owner asks. From its words and figures alone, so the same job gives
 * the same bytes.
 */
export function ownersPaper({ report, stamp, sweeps, cards }: OwnersPaper): TDocumentDefinitions {
  const page = pageOf(report.title, `${report.title}: report to the owner`, stamp);
  return {
    ...page,
    defaultStyle: { ...page.defaultStyle, fontSize: body },
    content: [
      ...cover(report),
      ...wrong(report),
      ...pastContent(report.past),
      ...done(report),
      ...beforeAndAfter(report, sweeps),
      ...use(report),
      ...section("What to watch", list(report.watch)),
      ...safetyRecord(report),
      leftAndSigned(report),
      ...cards.map((card): Content => ({ stack: [card], pageBreak: "before" })),
    ],
  };
}
