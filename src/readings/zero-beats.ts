import { dimensionOf } from "../units/dimensions";
import { bad, good, type Read } from "../units/issue";
import { readTable } from "./delimited";

/** More than any dial was ever calibrated by. */
const mostBeats = 2000;
const largestBytes = 256 * 1024;

/** Zero beats as a table holds them: scale reading, frequency, and the side from which the dial was turned. */
export interface ZeroBeats {
  readonly reading: readonly number[];
  readonly frequencyHz: readonly number[];
  /** 1 up, -1 down, 0 not said */
  readonly approach: readonly number[];
}

/** A zero beat: what the scale said, what frequency it was, and from which side the dial was turned. */
export interface DialPoint {
  readonly reading: number;
  readonly frequencyHz: number;
  /** 1 turned up to it, -1 down to it, 0 not known */
  readonly approach: -1 | 0 | 1;
}

/**
 * Reads zero beats from a table: reading, frequency, and up or down, in any order under headings, in that order without.
 *
 * @param bytes the file
 * @param name its name, for the errors
 * @param frequencyUnit unit of the frequencies where no heading says it
 * @returns zero beats in the order of the file, or the located issue
 * @source house format
 */
export function readZeroBeats(bytes: Uint8Array, name: string, frequencyUnit?: string): Read<ZeroBeats> {
  if (bytes.length > largestBytes)
    return bad(name, "too-large", `${Math.round(bytes.length / 1024)} kB`, `zero beats: a file of at most ${largestBytes / 1024} kB`);
  const words = new TextDecoder("utf-8")
    .decode(bytes)
    .replace(/\b(up|down|not-said)\b/gi, (w) => ({ up: "1", down: "-1" })[w.toLowerCase()] ?? "0");
  const t = readTable(new TextEncoder().encode(words), name);
  if (!t.ok) return t;
  const { columns, lines } = t.value;
  const find = (pattern: RegExp, otherwise: number) => {
    const i = columns.findIndex((c) => pattern.test(`${c.name} ${c.unit}`));
    return i >= 0 ? columns[i] : columns[otherwise];
  };
  const reading = find(/reading|scale|dial|div/i, 0);
  const frequency = find(/freq|hz|\bkc|\bmc/i, 1);
  const side = find(/approach|side|from/i, 2);
  if (!frequency || reading === frequency)
    return bad(name, "no-columns", `${columns.length} columns`, "a scale reading and a frequency in each row");
  const unit = frequency.unit || frequencyUnit || "";
  const factor = dimensionOf("frequency").loose[unit.toLowerCase()];
  if (factor === undefined)
    return bad(
      `${name} heading`,
      "no-unit",
      unit || "no unit",
      "the unit of the frequencies in the heading, such as reading, kHz, approach",
    );
  if (lines.length > mostBeats) return bad(name, "too-many", `${lines.length} rows`, `at most ${mostBeats} zero beats`);
  const far = frequency.values.findIndex((v) => !Number.isFinite(v * factor));
  if (far >= 0)
    return bad(`${name} line ${lines[far]}`, "out-of-range", String(frequency.values[far]), "a frequency that a number can hold");
  for (const [i, v] of (side?.values ?? []).entries())
    if (![1, -1, 0].includes(v)) return bad(`${name} line ${lines[i]}`, "not-a-side", String(v), "up, down, or nothing");
  return good({
    reading: Array.from(reading.values),
    frequencyHz: Array.from(frequency.values, (v) => v * factor),
    approach: Array.from(reading.values, (_, i) => side?.values[i] ?? 0),
  });
}
