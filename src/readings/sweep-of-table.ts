import { dimensionOf } from "../units/dimensions";
import { bad, good, type Read } from "../units/issue";
import { own } from "../units/own";
import { frequencyUnits } from "./column-heading";
import { inOrder, type Points } from "./points-in-order";
import { mostSweepPoints, type NumberTable, type Sweep } from "./sweep";

const isReflection = (said: string): boolean => /\bs11\b|reflect|return loss/i.test(said);

export interface SweepOptions {
  /** unit of the frequencies, where the file has no heading */
  readonly frequencyUnit?: string;
  /** dB of each S-meter reading over S9, from this set's own record or a stated law */
  readonly sMeterDb?: (reading: number) => number;
}
type Column = NumberTable["columns"][number];
/** The rows that are taken of a table, and how a row is named. */
interface Taken {
  readonly name: string;
  readonly rows: number;
  readonly at: (row: number) => string;
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
  const rows = table.runs[1] ?? table.lines.length;
  const several = table.runs.length > 1 ? [`${table.runs.length} runs of numbers: the first one (${rows} rows) is taken`] : [];
  if (rows < 5) return bad(name, "too-few", `${rows} points`, "at least 5 points");
  if (table.columns.length < 2)
    return bad(name, "one-column", "one column of numbers", "frequency and level: read a log of one column as a table");
  if (rows > mostSweepPoints) return bad(name, "too-many", `${rows} points`, `at most ${mostSweepPoints} points`);
  const taken: Taken = { name, rows, at: (row) => `${name} line ${table.lines[row]}` };
  const column = Math.max(
    0,
    table.columns.findIndex((c) => frequencyUnits.includes(c.unit)),
  );
  const f = table.columns[column];
  const frequency = frequencyOf(f, taken, options);
  if (!frequency.ok) return frequency;
  const level = levelOf(
    table,
    table.columns.filter((_, i) => i !== column),
    taken,
    options,
  );
  if (!level.ok) return level;
  const { quantity, warnings, ...levels } = level.value;
  const points = inOrder({ frequencyHz: frequency.value.hz, ...levels }, f.values, taken.at);
  if (!points.ok) return points;
  return good({
    ...points.value.points,
    resolutionHz: points.value.resolutionHz,
    quantity,
    ...(isReflection(quantity) ? { reflection: true } : {}),
    warnings: [...table.warnings, ...several, ...frequency.value.warnings, ...warnings, ...points.value.warnings],
  });
}

interface Frequency {
  readonly hz: Float64Array<ArrayBuffer>;
  readonly warnings: readonly string[];
}
function frequencyOf(f: Column, { name, rows }: Taken, options: SweepOptions): Read<Frequency> {
  const factor = own(dimensionOf("frequency").loose, f.unit || options.frequencyUnit?.toLowerCase() || "");
  if (factor === undefined && f.values[0] < 20_000)
    return bad(name, "no-unit", f.name || "no heading", 'a heading with the unit of frequency, such as "frequency kHz, level dB"');
  return good({
    hz: Float64Array.from(f.values.subarray(0, rows), (v) => v * (factor ?? 1)),
    warnings: factor === undefined ? ["no unit of frequency in the heading: read as Hz"] : [],
  });
}

interface Level extends Omit<Points, "frequencyHz"> {
  readonly quantity: string;
  readonly warnings: readonly string[];
}
function levelOf(table: NumberTable, others: readonly Column[], taken: Taken, options: SweepOptions): Read<Level> {
  const re = others.find((c) => c.unit === "re");
  const im = others.find((c) => c.unit === "im");
  if (re && im) {
    const complex = { re: re.values.slice(0, taken.rows), im: im.values.slice(0, taken.rows) };
    const levelDb = complex.re.map((x, i) => 20 * Math.log10(Math.max(1e-15, Math.hypot(x, im.values[i]))));
    const reflected = others.some((c) => isReflection(c.name)) || table.comments.some(isReflection);
    return good({ complex, levelDb, quantity: reflected ? "S11" : "complex transmission", warnings: [] });
  }
  const level =
    others.find((c) => c.unit.startsWith("dB")) ??
    others.find((c) => ["V", "mV", "µV"].includes(c.unit)) ??
    others.find((c) => c.unit === "S") ??
    others[0];
  const levelDb = decibelsOf(level, taken, options);
  if (!levelDb.ok) return levelDb;
  const u = others.find((c) => c !== level && /^uncertainty$/i.test(c.name) && c.unit === "dB")?.values.slice(0, taken.rows);
  const negative = u?.findIndex((v) => !(v >= 0)) ?? -1;
  if (u && negative >= 0) return bad(taken.at(negative), "negative", String(u[negative]), "an uncertainty of 0 dB or more");
  return good({
    levelDb: levelDb.value,
    ...(u ? { levelUDb: u } : {}),
    quantity: level.unit === "VSWR" ? "S11 from VSWR" : level.name || "level",
    warnings: level.unit === "" ? ["no unit of level in the heading: read as dB"] : [],
  });
}

/** A column of levels in dB, by its unit. */
function decibelsOf(level: Column, { name, rows, at }: Taken, options: SweepOptions): Read<Float64Array<ArrayBuffer>> {
  const values = level.values.slice(0, rows);
  if (level.unit === "S") {
    const expected = "dB, dBm or volts: S-units can be used only with this set's own S-meter record or a stated law";
    return options.sMeterDb ? good(values.map(options.sMeterDb)) : bad(name, "s-units", level.name || "S", expected);
  }
  if (["V", "mV", "µV"].includes(level.unit)) {
    const low = values.findIndex((v) => !(v > 0));
    if (low >= 0) return bad(at(low), "not-positive", String(values[low]), "a voltage above 0");
    return good(values.map((v) => 20 * Math.log10(v)));
  }
  if (level.unit === "VSWR") {
    const low = values.findIndex((v) => !(v >= 1));
    if (low >= 0) return bad(at(low), "under-one", String(values[low]), "a standing wave ratio of 1 or more");
    return good(values.map((v) => 20 * Math.log10(Math.max(1e-6, (v - 1) / (v + 1)))));
  }
  return good(values);
}
