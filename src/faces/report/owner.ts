import type { Column, Content, TableCell, TDocumentDefinitions } from "pdfmake/interfaces";
import type { OwnersReport } from "../../job/rollups/owner/owner";
import type { LeftLine } from "../../job/rollups/owner/state";
import { upperFirst } from "../../units/sentence";
import type { Drawing } from "../figures/drawing";
import { beforeAndAfter } from "./owner-before-after";
import { body, inTables, said, section, tabled } from "./owner-looks";
import { accent, head, pageOf, pairs, quiet, sectioned, titled } from "./paper";
import { pastContent } from "./past";

export interface OwnersPaper {
  readonly report: OwnersReport;
  readonly stamp: string;
  /** sweeps of the IF, before and after */
  readonly sweeps?: Drawing | undefined;
  /** cards that sit with the set, as the content of a page of its own each */
  readonly cards: readonly Content[];
}
const list = (items: readonly string[]): Content => ({
  ul: items.map((text) => ({ text, margin: [0, 1, 0, 2] as [number, number, number, number] })),
});
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
    { fontSize: inTables, ...(pairs(120, what) as object) } as Content,
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
    : [
        tabled(
          sectioned("What was wrong"),
          [92, "*", "*", 92],
          ["Where", "How it showed", "What caused it", "What became of it"],
          all.map((l): TableCell[] => [l.where, l.showed, l.cause, l.became]),
        ),
      ];

function done({ exchanged, done: works }: OwnersReport): Content[] {
  const title = "What was done and why";
  const changed =
    exchanged.length === 0
      ? section(title, said("No part was changed."))
      : [
          tabled(
            sectioned(title),
            ["*", 88, 88, 88, 112],
            ["Part", "Where", "Old one", "New one", "Why"],
            exchanged.map((l): TableCell[] => [l.part, upperFirst(l.where), upperFirst(l.old), upperFirst(l.came), upperFirst(l.why)]),
          ),
          ...(exchanged.some((l) => /\bkept\b/i.test(l.old))
            ? [{ text: "Old parts are kept for you where it says so.", style: "small" } as Content]
            : []),
        ];
  const other = works.map((w): TableCell[] => [w.day, w.what]);
  return [...changed, ...(works.length === 0 ? [] : [tabled(titled("Other work"), [104, "*"], ["Day", "Work"], other)])];
}

function use({ use: all }: OwnersReport): Content[] {
  if (all.length === 0) return [];
  const [first, ...rest] = all.map(
    (u): Content => ({
      unbreakable: true,
      margin: [0, 2, 0, 6],
      stack: [
        { text: u.title.endsWith(u.label) ? u.title : `${u.title} (${u.label})`, bold: true },
        { ol: [...u.steps] },
        { text: u.heed, style: "caution" },
      ],
    }),
  );
  return section("How to use what was fitted", first, ...rest);
}
function safetyRecord({ safety }: OwnersReport): Content[] {
  const both = safety.lines.some((l) => l.came !== "");
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
          tabled(
            titled("What was tested"),
            both ? ["*", 150, 150] : ["*", 300],
            ["What", ...(both ? ["Coming in"] : []), "Going out"],
            safety.lines.map((l): TableCell[] => [l.what, ...(both ? [l.came || "–"] : []), l.goes || "–"]),
          ),
          ...(safety.lines.some((l) => (both && l.came === "") || l.goes === "") ? [{ text: "–: not on record", color: quiet }] : []),
        ]
      : []),
    ...(safety.lacks.length > 0
      ? [{ unbreakable: true, stack: [{ text: "Missing from the record", bold: true }, list(safety.lacks)] } as Content]
      : []),
  );
}
/** A list of what was left stands in two columns of smaller letters. */
const leftLine = ({ says, all = [] }: LeftLine): Content => {
  const half = Math.ceil(all.length / 2);
  const column = (own: readonly string[]): Column => ({ width: "*", ul: [...own], fontSize: inTables });
  const columns = all.length < 4 ? [column(all)] : [column(all.slice(0, half)), column(all.slice(half))];
  return { margin: [0, 1, 0, 2], stack: [says, ...(all.length === 0 ? [] : [{ columns, columnGap: 12 } as Content])] };
};
const line = (words: string): Column => ({
  width: "*",
  stack: [
    { text: " ", margin: [0, 24, 0, 0] },
    { canvas: [{ type: "line", x1: 0, y1: 0, x2: 210, y2: 0, lineWidth: 0.6 }] },
    { text: words, style: "small", margin: [0, 2, 0, 0] },
  ],
});
/** What was left; its last lines stand with the signature, which is never alone on a page. */
function leftAndSigned({ left, signature, day }: OwnersReport): Content[] {
  const lines = left.length === 0 ? [said("Nothing on record.")] : left.map((l): Content => ({ ul: [leftLine(l)] }));
  const signed: Content[] = [
    head("Signature"),
    said(signature || "Not signed yet."),
    { columns: [line("For the bench, and the day"), line("The owner, having read it")], columnGap: 40 },
    {
      text: `The technical record of ${day} holds every reading, input and step behind this report.`,
      style: "small",
      margin: [0, 10, 0, 0],
    },
  ];
  const [first, ...others] = lines;
  const whole = (...stack: Content[]): Content => ({ unbreakable: true, stack });
  if (others.length === 0) return [whole(head("What was left"), first, ...signed)];
  const last = others.length - 1;
  return [whole(head("What was left"), first), ...others.slice(0, last).map((l) => whole(l)), whole(others[last], ...signed)];
}

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
      ...leftAndSigned(report),
      ...cards.map((card): Content => ({ stack: [card], pageBreak: "before" })),
    ],
  };
}
