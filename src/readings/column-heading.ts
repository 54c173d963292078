import { own } from "../units/own";
import { type Layout, split } from "./table-layout";

/** A longer cell of a heading is no name of a column: no pattern is tried on it. */
const longestHeading = 80;
const levelUnits: Readonly<Record<string, string>> = {
  db: "dB",
  dbm: "dBm",
  dbuv: "dBµV",
  dbµv: "dBµV",
  dbv: "dBV",
  v: "V",
  mv: "mV",
  uv: "µV",
  µv: "µV",
  volts: "V",
  volt: "V",
  "re.": "re",
  re: "re",
  "im.": "im",
  im: "im",
  real: "re",
  imag: "im",
  s: "S",
  "s-units": "S",
  deg: "°",
  swr: "VSWR",
  vswr: "VSWR",
  ms: "ms",
  sec: "s",
};
/** Units of frequency that a heading may have, in small letters. */
export const frequencyUnits = ["hz", "khz", "mhz", "ghz", "kc", "mc", "kc/s", "mc/s", "cps", "c/s"];
const unitName = (word: string): string | undefined => {
  const w = word.trim().toLowerCase().replace("μ", "µ");
  return frequencyUnits.includes(w) ? w : own(levelUnits, w);
};

/**
 * Name and unit of a column, from the heading lines just above the numbers.
 *
 * @param headings lines before the first number, in order
 * @param column which, from 0
 * @param layout of the table
 * @returns both; empty where no heading tells
 * @source house rule
 */
export function headingOf(
  headings: readonly string[],
  column: number,
  { by, columns }: Layout,
): { readonly name: string; readonly unit: string } {
  let name = "";
  let unit = "";
  for (const h of headings.slice(-3).reverse()) {
    const cells = [split(h, by), split(h, " ")].find((c) => c.length === columns);
    const cell = cells?.[column];
    if (!cell || cell.length > longestHeading) continue;
    const m = /^(.*?)[\s_]*[([{/]?\s*([a-zµμ°%]+(?:\s*V)?)\s*[)\]}]?$/i.exec(cell);
    const asUnit = unitName(cell) ?? (m && m[1] !== "" ? unitName(m[2]) : undefined);
    if (asUnit && unit === "") unit = asUnit;
    const rest = asUnit && m && unitName(cell) === undefined ? m[1].replace(/[\s_([{/]+$/, "") : asUnit ? "" : cell;
    if (rest && name === "") name = rest;
  }
  return { name, unit };
}
