import Papa from "papaparse";

/**
 * Reads comma-separated text.
 *
 * @param text lines of cells, quoted where they hold a comma, a quote or a line's end
 * @returns cells by line; a line with nothing in it is left out
 * @source RFC 4180, by the library papaparse
 */
export const readCsv = (text: string): string[][] =>
  Papa.parse<string[]>(text, { delimiter: "," }).data.filter((row) => row.length > 1 || row[0] !== "");
