import { plainNumber } from "./text";

type Separator = "\t" | ";" | "," | " ";
export const commentMark = /^\s*(?:[#!%*]|\/\/)\s?/;
/** Cells of a line, without their quotes and without empty ones at its end. */
export const split = (text: string, by: Separator): string[] => {
  const cells = by === " " ? text.trim().split(/\s+/) : text.split(by);
  while (cells.length > 1 && cells[cells.length - 1].trim() === "") cells.pop();
  return cells.map((c) =>
    c
      .trim()
      .replace(/^"(.*)"$/, "$1")
      .trim(),
  );
};
/** A cell as a number. */
export const asNumber = (cell: string, decimalComma: boolean): number | undefined =>
  plainNumber(decimalComma ? cell.replace(",", ".") : cell);

/** How a table is written. */
export interface Layout {
  readonly by: Separator;
  readonly decimalComma: boolean;
  readonly columns: number;
}
/**
 * Separator and decimal sign of a table: the pair under which most lines read as numbers, plain signs first.
 *
 * @param lines of the file
 * @returns the layout, with the number of columns; undefined where nothing reads as numbers
 * @source house rule
 */
export function chooseLayout(lines: readonly string[]): Layout | undefined {
  const sample = lines.filter((l) => l.trim() !== "" && !commentMark.test(l)).slice(0, 400);
  let best: Layout | undefined;
  let most = 0;
  for (const decimalComma of [false, true]) {
    for (const by of ["\t", ";", ",", " "] as const) {
      if (decimalComma && by === ",") continue;
      const widths = new Map<number, number>();
      for (const l of sample) {
        const cells = split(l, by);
        if (cells.length >= 2 && cells.every((c) => asNumber(c, decimalComma) !== undefined))
          widths.set(cells.length, (widths.get(cells.length) ?? 0) + 1);
      }
      for (const [columns, count] of widths) {
        if (count > most) {
          most = count;
          best = { by, decimalComma, columns };
        }
      }
    }
  }
  if (best) return best;
  const alone = sample.filter((l) => asNumber(l.trim(), false) !== undefined).length;
  return alone >= 2 ? { by: " ", decimalComma: false, columns: 1 } : undefined;
}
