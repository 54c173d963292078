import type { Column, Content, TableCell, TDocumentDefinitions } from "pdfmake/interfaces";
import type { Answer } from "../../ask/answered";
import type { AnySheet } from "../../ask/contract";
import { sayCell, sayFigure } from "../../ask/say";
import { dayInWords } from "../../units/day";
import { type Quantity, standardUncertainty } from "../../units/quantity";
import { drawingOf } from "../figures/drawing";
import { svgOf } from "../figures/svg";

export interface DialCard {
  readonly job: string;
  readonly set: string;
  readonly band: string;
  readonly setPoint: string;
  readonly date: string;
  readonly thermal: string;
  readonly invented: boolean;
  /** side that the law holds for, in words */
  readonly side: string;
  readonly dial: { readonly sheet: AnySheet; readonly answer: Answer };
  /** absent where no band of the licence lies here */
  readonly edge?: Answer;
}
export const quiet = "#444";
export const cardLines = {
  hLineWidth: () => 0.4,
  vLineWidth: () => 0,
  hLineColor: () => "#999",
  paddingTop: () => 2,
  paddingBottom: () => 2,
};
const blocks = 3;

/** The markers' known error, how well it is known, and that the table holds none of it. */
function markersSaid(q: Quantity): string {
  const u = standardUncertainty(q.spread);
  const ppm = Math.abs(q.value * 1e6).toFixed(1);
  const size = ppm === "0.0" ? "no known error" : `${ppm} ppm ${q.value < 0 ? "low" : "high"}`;
  const within =
    u > 0 ? `, give or take ${Number((2 * u * 1e6).toPrecision(2))} ppm (${Number((2 * u * 7e6).toPrecision(1))} Hz at 7 MHz)` : "";
  return `${size}${within}, ${q.origin} (${q.source}); the unknown part is not in the ± below`;
}

/** Rows of a card in columns side by side. */
export function cardBlocks(heads: readonly string[], rows: readonly (readonly string[])[]): Content {
  const each = Math.max(1, Math.ceil(rows.length / blocks));
  const block = (k: number): Column => ({
    width: "*",
    layout: cardLines,
    table: {
      headerRows: 1,
      widths: heads.map((_, i) => (i === 0 ? "*" : "auto")),
      body: [
        heads.map((text): TableCell => ({ text, bold: true, fontSize: 8.5, noWrap: true })),
        ...rows.slice(k * each, (k + 1) * each).map((r) => r.map((text): TableCell => ({ text, fontSize: 9.5, noWrap: true }))),
      ],
    },
  });
  return { columns: Array.from({ length: blocks }, (_, k) => block(k)), columnGap: 14 };
}
/** Page of a card that sits with the set. */
export const cardPage = (job: string, title: string, date: string): Omit<TDocumentDefinitions, "content"> => ({
  pageSize: "A4",
  pageMargins: [42, 42, 42, 48],
  info: { title: `${job}: ${title}`, creator: "Fettle", producer: "Fettle", creationDate: new Date(date) },
  defaultStyle: { font: "Roboto", fontSize: 10.5, lineHeight: 1.15 },
  footer: (page, pages) => ({
    text: `${job}, ${title}, page ${page} of ${pages}`,
    alignment: "right",
    fontSize: 8.5,
    color: quiet,
    margin: [0, 12, 42, 0],
  }),
});

/** Band edges with the settings that keep inside them, where a band of the licence lies here. */
function edgesOf(edge: Answer): Content[] {
  const say = (n: string): string => (edge.results[n] ? sayFigure(edge.results[n], true) : "");
  const stated = edge.results.lowEdgeHz?.value !== null;
  const edgeRows: TableCell[][] = [
    ["Lower edge", say("lowEdgeAt"), say("carrierLow"), say("signalLow"), say("guardLow")],
    ["Upper edge", say("highEdgeAt"), say("carrierHigh"), say("signalHigh"), say("guardHigh")],
  ];
  return [
    { text: "Band edges", fontSize: 13, bold: true, margin: [0, 12, 0, 4] },
    ...(stated ? [{ text: edge.headline, margin: [0, 0, 0, 4] } as Content] : []),
    ...(stated
      ? [
          {
            layout: cardLines,
            table: {
              headerRows: 1,
              widths: ["auto", "*", "*", "*", "*"],
              body: [
                ["", "edge itself", "carrier inside", "whole signal inside", "keeps from the edge"].map(
                  (text): TableCell => ({ text, bold: true, fontSize: 9 }),
                ),
                ...edgeRows,
              ],
            },
          },
        ]
      : []),
    {
      text: edge.findings.find((f) => f.id === (stated ? "edge-rules" : "edge-region"))?.says ?? "",
      fontSize: 8.5,
      color: quiet,
      margin: [0, 4, 0, 0],
    },
  ];
}

function factsOf(c: DialCard): [string, string][] {
  const error = c.dial.answer.quantities.find((q) => q.path === "markerError");
  const markers = error && markersSaid(error.quantity);
  return [
    ["Band", c.band],
    ["Approach a setting", c.side],
    ["Main dial", c.setPoint || "no set-point: a main scale"],
    ["Zero beats taken", `${dayInWords(c.date)}, set ${c.thermal}${c.invented ? ". INVENTED readings, taken by no instrument" : ""}`],
    ["Markers", markers ?? ""],
  ];
}

/** The calibration card that sits with the set: scale reading of each frequency, edges and safe settings, when and how it was taken; with as many pictures and rows as are asked for. */
export function dialCardDefinition(
  c: DialCard,
  figures = c.dial.sheet.figures.length,
  mostRows = Number.POSITIVE_INFINITY,
): TDocumentDefinitions {
  const table = c.dial.answer.tables.find((t) => t.id === "correction");
  const all = table?.rows ?? [];
  // among others' papers a card has one page: every second frequency, or third
  const each = Math.max(1, Math.ceil(all.length / mostRows));
  const rows = all.filter((_, i) => i % each === 0).map((r): string[] => r.slice(0, 3).map((v, i) => (table ? sayCell(table, v, i) : "")));
  return {
    ...cardPage(c.job, `calibration card, ${c.band}`, c.date),
    content: [
      { text: "Calibration card", fontSize: 18, bold: true },
      { text: `${c.job}. ${c.set}`, color: quiet, margin: [0, 0, 0, 6] },
      { layout: cardLines, table: { widths: [110, "*"], body: factsOf(c).map(([a, b]) => [{ text: a, color: quiet }, { text: b }]) } },
      { text: c.dial.answer.headline, bold: true, margin: [0, 10, 0, 6] },
      cardBlocks(["Frequency", "Scale", "± 95 %"], rows),
      ...(c.edge ? edgesOf(c.edge) : []),
      ...c.dial.answer.findings
        .filter((f) => f.id.startsWith("dial-odd"))
        .map((f): Content => ({ text: `Left out: ${f.says}`, fontSize: 9.5, margin: [0, 4, 0, 0] })),
      ...c.dial.sheet.figures.slice(0, figures).map(
        (f): Content => ({
          unbreakable: true,
          stack: [
            { text: f.title, bold: true, margin: [0, 10, 0, 0] },
            { svg: svgOf(drawingOf(f, c.dial.answer), { width: 500, height: 200 }), width: 500 },
          ],
        }),
      ),
    ],
  };
}
