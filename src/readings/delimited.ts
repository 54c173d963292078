import { dimensionOf } from "../units/dimensions";
import { bad, good, type Read } from "../units/issue";
import { own } from "../units/own";
import { mostNumbers, mostSweepPoints, type NumberTable, type Sweep } from "./sweep";
import { linesOf, plainNumber, regrid } from "./text";

type Separator = "\t" | ";" | "," | " ";
const mostColumns = 256;
/** A longer cell of a heading is no name of a column: no pattern is tried on it. */
const longestHeading = 80;

const commentMark = /^\s*(?:[#!%*]|\/\/)\s?/;
const split = (text: string, by: Separator): string[] => {
  const cells = by === " " ? text.trim().split(/\s+/) : text.split(by);
  while (cells.length > 1 && cells[cells.length - 1].trim() === "") cells.pop();
  return cells.map((c) =>
    c
      .trim()
      .replace(/^"(.*)"$/, "$1")
      .trim(),
  );
};
const asNumber = (cell: string, decimalComma: boolean): number | undefined => plainNumber(decimalComma ? cell.replace(",", ".") : cell);

/** Separator and decimal sign: the pair under which most lines read as numbers, plain signs first. */
function chooseLayout(
  lines: readonly string[],
): { readonly by: Separator; readonly decimalComma: boolean; readonly columns: number } | undefined {
  const sample = lines.filter((l) => l.trim() !== "" && !commentMark.test(l)).slice(0, 400);
  let best: { by: Separator; decimalComma: boolean; columns: number } | undefined;
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

/**
 * Reads a table of numbers: comma, semicolon, tab or space separated, decimal point or comma, with a heading, a heading in a comment, or none.
 *
 * One column of numbers is taken too, as a log without times.
 * A line of words between numbers starts a new run and is kept as a comment. A line of which some cells are numbers and some are not is refused.
 *
 * @param bytes the file
 * @param name its name, for the error
 * @returns columns, runs and comments, or the located issue
 * @source common practice of instrument files
 */
export function readTable(bytes: Uint8Array, name: string): Read<NumberTable> {
  const lines = linesOf(bytes, name);
  if (!lines.ok) return lines;
  const text = lines.value.map((l) => l.replace(/^\uFEFF/, ""));
  const layout = chooseLayout(text);
  if (!layout) {
    const at = text.findIndex((l) => l.trim() !== "");
    return bad(`${name} line ${at + 1}`, "no-table", text[at], "lines of numbers, separated by commas, semicolons, tabs or spaces");
  }
  if (layout.columns > mostColumns) return bad(name, "too-many-columns", `${layout.columns} columns`, `at most ${mostColumns} columns`);
  const values = Array.from({ length: layout.columns }, (): number[] => []);
  const rows: number[] = [];
  const runs: number[] = [];
  const comments: string[] = [];
  const headings: string[] = [];
  const warnings: string[] = [];
  let broken = true;
  for (let i = 0; i < text.length; i++) {
    const l = text[i];
    if (l.trim() === "") continue;
    const cells = split(l, layout.by);
    const numbers = cells.filter((c) => asNumber(c, layout.decimalComma) !== undefined).length;
    const words = commentMark.test(l) || numbers === 0;
    if (words) {
      const said = l.replace(commentMark, "").trim();
      if (/^(?:nan|[+-]?inf(?:inity)?|null)$/i.test(cells[0]) || cells.some((c) => /^(?:nan|[+-]?inf(?:inity)?)$/i.test(c)))
        return bad(`${name} line ${i + 1}`, "not-a-number", l.trim(), "finite numbers");
      comments.push(said);
      if (rows.length === 0) headings.push(said);
      else if (!broken) warnings.push(`line ${i + 1}: words between numbers, "${said.slice(0, 40)}": a new run starts after it`);
      broken = true;
      continue;
    }
    if (numbers < cells.length) {
      if (rows.length === 0) {
        headings.push(l.trim());
        continue;
      }
      const odd = cells.find((c) => asNumber(c, layout.decimalComma) === undefined) ?? "";
      return bad(`${name} line ${i + 1}`, "not-a-number", odd, "a finite number");
    }
    if (cells.length !== layout.columns) {
      return bad(`${name} line ${i + 1}`, "wrong-count", l.trim(), `${layout.columns} numbers, as on the other lines`);
    }
    if ((rows.length + 1) * layout.columns > mostNumbers)
      return bad(
        `${name} line ${i + 1}`,
        "too-many-numbers",
        `more than ${mostNumbers} numbers`,
        `a table of at most ${mostNumbers} numbers`,
      );
    if (broken) runs.push(rows.length);
    broken = false;
    rows.push(i + 1);
    for (let c = 0; c < cells.length; c++) values[c].push(asNumber(cells[c], layout.decimalComma) ?? Number.NaN);
  }
  const columns = Array.from({ length: layout.columns }, (_, c) => ({
    ...headingOf(headings, c, layout.columns, layout.by),
    values: Float64Array.from(values[c]),
  }));
  return good({ columns, runs, lines: Int32Array.from(rows), comments, warnings });
}

/** Name and unit of a column, from the heading lines just above the numbers. */
function headingOf(
  headings: readonly string[],
  column: number,
  columns: number,
  by: Separator,
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
const frequencyUnits = ["hz", "khz", "mhz", "ghz", "kc", "mc", "kc/s", "mc/s", "cps", "c/s"];
const unitName = (word: string): string | undefined => {
  const w = word.trim().toLowerCase().replace("μ", "µ");
  return frequencyUnits.includes(w) ? w : own(levelUnits, w);
};

const isReflection = (said: string): boolean => /\bs11\b|reflect|return loss/i.test(said);

export interface SweepOptions {
  /** unit of the frequencies, where the file has no heading */
  readonly frequencyUnit?: string;
  /** dB of each S-meter reading over S9, from this set's own record or a stated law */
  readonly sMeterDb?: (reading: number) => number;
}

/**
 * Takes a table as a sweep: its first run, frequency first, level (or real and imaginary part) after it.
 *
 * @param table columns
 * @param name file, for the error
 * @param options unit of frequency where there is no heading; law of the S meter
 * @returns the sweep, or the located issue
 * @source house rule; S-units are taken only by this set's own record or a stated law
 */
export function sweepOfTable(table: NumberTable, name: string, options: SweepOptions = {}): Read<Sweep> {
  const end = table.runs[1] ?? table.lines.length;
  const warnings = [...table.warnings];
  if (table.runs.length > 1) warnings.push(`${table.runs.length} runs of numbers: the first one (${end} rows) is taken`);
  const at = (row: number) => `${name} line ${table.lines[row]}`;
  if (end < 5) return bad(name, "too-few", `${end} points`, "at least 5 points");
  if (table.columns.length < 2)
    return bad(name, "one-column", "one column of numbers", "frequency and level: read a log of one column as a table");
  if (end > mostSweepPoints) return bad(name, "too-many", `${end} points`, `at most ${mostSweepPoints} points`);
  const column = Math.max(
    0,
    table.columns.findIndex((c) => frequencyUnits.includes(c.unit)),
  );
  const f = table.columns[column];
  const unit = f.unit || options.frequencyUnit?.toLowerCase() || "";
  let factor = own(dimensionOf("frequency").loose, unit);
  if (factor === undefined) {
    if (f.values[0] < 20_000)
      return bad(name, "no-unit", f.name || "no heading", 'a heading with the unit of frequency, such as "frequency kHz, level dB"');
    factor = 1;
    warnings.push("no unit of frequency in the heading: read as Hz");
  }
  let frequencyHz = f.values.slice(0, end).map((v) => v * factor);
  const others = table.columns.filter((_, i) => i !== column);
  const re = others.find((c) => c.unit === "re");
  const im = others.find((c) => c.unit === "im");
  let levelDb: Float64Array;
  let complex: Sweep["complex"];
  let quantity = "level";
  if (re && im) {
    complex = { re: re.values.slice(0, end), im: im.values.slice(0, end) };
    levelDb = complex.re.map((x, i) => 20 * Math.log10(Math.max(1e-15, Math.hypot(x, im.values[i]))));
    quantity = others.some((c) => isReflection(c.name)) || table.comments.some(isReflection) ? "S11" : "complex transmission";
  } else {
    const level =
      others.find((c) => c.unit.startsWith("dB")) ??
      others.find((c) => ["V", "mV", "µV"].includes(c.unit)) ??
      others.find((c) => c.unit === "S") ??
      others[0];
    const values = level.values.slice(0, end);
    if (level.unit === "S") {
      if (!options.sMeterDb)
        return bad(
          name,
          "s-units",
          level.name || "S",
          "dB, dBm or volts: S-units can be used only with this set's own S-meter record or a stated law",
        );
      levelDb = values.map(options.sMeterDb);
    } else if (["V", "mV", "µV", "dBV"].includes(level.unit) && level.unit !== "dBV") {
      const low = values.findIndex((v) => !(v > 0));
      if (low >= 0) return bad(at(low), "not-positive", String(values[low]), "a voltage above 0");
      levelDb = values.map((v) => 20 * Math.log10(v));
    } else if (level.unit === "VSWR") {
      const low = values.findIndex((v) => !(v >= 1));
      if (low >= 0) return bad(at(low), "under-one", String(values[low]), "a standing wave ratio of 1 or more");
      levelDb = values.map((v) => 20 * Math.log10(Math.max(1e-6, (v - 1) / (v + 1))));
    } else {
      levelDb = values;
      if (level.unit === "") warnings.push("no unit of level in the heading: read as dB");
    }
    quantity = level.unit === "VSWR" ? "S11 from VSWR" : level.name || "level";
  }
  const odd = frequencyHz.findIndex((v, i) => !Number.isFinite(v) || !Number.isFinite(levelDb[i]));
  if (odd >= 0) return bad(at(odd), "out-of-range", String(f.values[odd]), "a frequency and a level that a number can hold");
  if (frequencyHz[end - 1] < frequencyHz[0]) {
    frequencyHz = frequencyHz.reverse();
    levelDb = levelDb.reverse();
    complex = complex && { re: complex.re.slice().reverse(), im: complex.im.slice().reverse() };
    warnings.push("swept downwards: turned round");
  }
  let resolutionHz = 0;
  let repeats = 0;
  for (let i = 1; i < end; i++) {
    if (frequencyHz[i] < frequencyHz[i - 1])
      return bad(at(i), "unsorted", String(f.values[i]), `frequencies in order: ${f.values[i - 1]} stands before it`);
    if (frequencyHz[i] === frequencyHz[i - 1]) repeats++;
  }
  if (repeats > 0) {
    const grid = end > 8 ? regrid(frequencyHz) : undefined;
    const first = frequencyHz.findIndex((v, i) => i > 0 && v === frequencyHz[i - 1]);
    if (!grid) return bad(at(first), "duplicate-frequency", String(f.values[first]), "each frequency once");
    frequencyHz = grid.hz as Float64Array<ArrayBuffer>;
    resolutionHz = grid.resolutionHz;
    warnings.push(
      `${repeats} frequencies repeat because they were printed with too few digits; put back on the even grid that they round from`,
    );
  }
  const reflection = isReflection(quantity) ? { reflection: true } : {};
  return good({ frequencyHz, levelDb, ...(complex ? { complex } : {}), resolutionHz, quantity, ...reflection, warnings });
}
