/** Advance widths in hundredths of an em: the widest of the regular and bold cuts of the page's and the report's fonts, as their files have them. */
const byWidth: readonly (readonly [hundredths: number, characters: string])[] = [
  [25, "',;|"],
  [29, "!.:j’"],
  [33, " `il·\u00a0"],
  [37, "()[]fr{}"],
  [41, '"-t°'],
  [46, "*/I\\_"],
  [52, "yz≤≥“”"],
  [55, "FLcsvx×"],
  [60, "1279<>EJ^abdeghknopquµ−≈"],
  [65, "$+034568=?BPSTZ±"],
  [71, "&ACDKRUVXY~Ω–"],
  [76, "GHNw"],
  [80, "#OQ"],
  [89, "MWm—…"],
  [92, "@"],
  [98, "%"],
];
const widths = new Map(byWidth.flatMap(([w, all]) => [...all].map((c) => [c, w] as const)));
/** What is not in the table is taken as wide as anything. */
const widest = 100;

/** A number keeps its unit on its line. */
const bound = (text: string): string =>
  text.replace(/(\d\??) ((?:[pnµmkM]?(?:F|H|Ω|V|A|W|Hz|C|m|s)|%|dB)(?![\p{L}\d]))/gu, "$1\u00a0$2").replace(/ (AC\??)(?= |$)/g, "\u00a0$1");

/** Width that a text takes at most, in the unit of the size. */
export const textWidth = (text: string, size: number): number =>
  ([...text].reduce((n, c) => n + (widths.get(c) ?? widest), 0) * size) / 100;

/** Width of the longest word of a text, a number with its unit counted as one. */
export const widestWord = (text: string, size: number): number =>
  Math.max(
    0,
    ...bound(text)
      .split(/[ \n\t]+/)
      .map((w) => textWidth(w, size)),
  );

/** Breaks a text into lines no wider than so much; a word that is wider by itself is broken within. */
export function linesWithin(text: string, width: number, size: number): string[] {
  const out: string[] = [];
  let here = "";
  for (const word of bound(text)
    .split(/[ \n\t]+/)
    .filter((w) => w !== "")) {
    const longer = here === "" ? word : `${here} ${word}`;
    if (textWidth(longer, size) <= width) {
      here = longer;
      continue;
    }
    if (here !== "") out.push(here);
    here = "";
    for (const c of word) {
      if (here !== "" && textWidth(here + c, size) > width) {
        out.push(here);
        here = "";
      }
      here += c;
    }
  }
  return here === "" ? out : [...out, here];
}
