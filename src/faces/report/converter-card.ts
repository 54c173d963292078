import type { Content, TableCell, TDocumentDefinitions } from "pdfmake/interfaces";
import type { Answer } from "../../ask/answered";
import { sayCell, sayFigure } from "../../ask/say";
import { dayInWords } from "../../units/day";
import { stripsSvg } from "../figures/strips";
import { cardBlocks, cardLines, cardPage, quiet } from "./dial-card";
import { onPaper, pageWidth } from "./paper";

export interface ConverterCard {
  readonly job: string;
  readonly set: string;
  readonly date: string;
  readonly answer: Answer;
  /** scale of the receiver at each place of its dial, with its doubt, where zero beats were taken on that range */
  readonly scale?: (dialHz: number) => { readonly reading: string; readonly doubt: string } | undefined;
  readonly range: string;
  /** how the scale's readings were taken, and how to come to a mark */
  readonly scaled?: string;
}

/** Places of the receiver's dial: what each stands for, and the scale's reading where there is one. */
function placesOf({ answer: a, scale }: ConverterCard): string[][] {
  const card = a.tables.find((t) => t.id === "card");
  const mhz = (v: string | number): string => (Number(v) / 1e6).toFixed(4).replace(/0$/, "");
  return (card?.rows ?? []).map((r): string[] => {
    const own = [mhz(r[0]), mhz(r[1])];
    if (!scale) return own;
    const at = scale(Number(r[1]));
    return [...own, at ? `${at.reading} ± ${at.doubt}` : "–"];
  });
}

function factsOf(c: ConverterCard): [string, string][] {
  const a = c.answer;
  const figure = (n: string): string => sayFigure(a.results[n], true);
  const measured = a.results.crystalFound.low !== null;
  return [
    ["Crystal", `${figure("crystal")}${measured ? `, measured: ${figure("crystalFound")} off` : ", not measured yet"}`],
    ["Receiver set to", c.range],
    ...(c.scaled ? [["Scale", c.scaled] as [string, string]] : []),
    ["True minus card", `${figure("readout")}, to 95 %`],
    [
      "Image",
      `${figure("imageLow")} to ${figure("imageHigh")}, ${figure("imageRejection")} down: it tunes the opposite way to the wanted signals, with sidebands inverted`,
    ],
    ["Made", dayInWords(c.date)],
  ];
}

/** Steady notes on the dial that are no signals. */
function notesOf(a: Answer): Content[] {
  const table = a.tables.find((t) => t.id === "notes");
  const rows = table ? table.rows.map((r) => r.map((v, i) => sayCell(table, v, i))) : [];
  return [
    { text: "Steady notes that are not signals", bold: true, margin: [0, 10, 0, 2] },
    {
      layout: cardLines,
      table: {
        headerRows: 1,
        widths: ["auto", "auto", "*"],
        body: [
          ["Dial", "Looks like", "What it is"].map((text): TableCell => ({ text, bold: true, fontSize: 9 })),
          ...rows.map((r) => r.map((text): TableCell => ({ text, fontSize: 9.5 }))),
        ],
      },
    },
    { text: "Short the converter's input: whatever remains is such a note.", fontSize: 9.5, color: quiet, margin: [0, 4, 0, 0] },
  ];
}

/** The card of a band that a converter brings: what each place of the receiver's dial stands for, and what is no signal there. */
export function converterCardDefinition(c: ConverterCard): TDocumentDefinitions {
  const a = c.answer;
  return {
    ...cardPage(c.job, "card of the converter's band", c.date),
    content: [
      { text: "Card of the converter's band", fontSize: 18, bold: true },
      { text: `${c.job}. ${c.set}`, color: quiet, margin: [0, 0, 0, 6] },
      { layout: cardLines, table: { widths: [110, "*"], body: factsOf(c).map(([n, t]) => [{ text: n, color: quiet }, { text: t }]) } },
      { text: a.headline.replace(/^Take a crystal/, "With a crystal"), bold: true, margin: [0, 10, 0, 6] },
      cardBlocks(c.scale ? ["Wanted", "Dial, MHz", "Scale ±"] : ["Wanted", "Dial, MHz"], placesOf(c)),
      ...notesOf(a),
      ...a.strips.map(
        (s): Content => ({
          unbreakable: true,
          margin: [0, 10, 0, 0],
          stack: [{ text: s.title, bold: true }, onPaper({ ...stripsSvg(s, 510), width: 510 }, pageWidth).content],
        }),
      ),
    ],
  };
}
