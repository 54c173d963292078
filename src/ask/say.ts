import type { Dimension } from "../units/dimensions";
import { printExact, printInterval, printShort, printValue } from "../units/print";
import { upperFirst } from "../units/sentence";
import type { MeasureNext } from "./answered";
import type { Table } from "./drawings";
import type { Figure } from "./results";

/**
 * A figure as a person reads it: interval, unit, and how often there is none; in brief without the reason. A figure is never told finer than it can be known.
 *
 * @param f result in SI with its interval
 * @param brief leaves out why there is none in some cases
 * @returns text with unit
 * @source JCGM 100:2008 7.2.6 (digits of a value follow its uncertainty); the words are the house format
 */
export function sayFigure(f: Figure, brief = false): string {
  if (f.low === null || f.high === null) return f.why ?? "no value";
  const text = f.exact
    ? sayExact(f.value ?? f.low, f.low, f.high, f.dimension)
    : f.known !== undefined && (f.high - f.low) / 4 < f.known / 4
      ? printValue((f.low + f.high) / 2, f.dimension, f.known)
      : printInterval(f.value, f.low, f.high, f.dimension);
  if (f.without <= 0.005) return text;
  return `${text}; none in ${Math.max(1, Math.round(f.without * 100))} % of cases${brief ? "" : `: ${f.why ?? "no value"}`}`;
}

/** What is exact, by each of the values that it may be. */
const sayExact = (value: number, low: number, high: number, dimension: Dimension): string =>
  low === high
    ? printExact(low, dimension)
    : `${printExact(value, dimension)} (${printExact(low, dimension)} to ${printExact(high, dimension)})`;

/**
 * A cell of a table as a person reads it.
 *
 * @param t the table
 * @param v SI, or a word
 * @param column its place
 * @returns text with unit; a dash for no number
 * @source house format
 */
export function sayCell(t: Table, v: number | string, column: number): string {
  if (typeof v === "string") return v;
  const { dimension, u, part, exact } = t.columns[column];
  if (!Number.isFinite(v)) return "–";
  if (exact) return printExact(v, dimension);
  return u === undefined ? printShort(v, dimension) : printValue(v, dimension, Math.max(u, (part ?? 0) * Math.abs(v)));
}

/**
 * A figure in short: its value with the digits that its interval leaves it.
 *
 * @param f result in SI with its interval
 * @returns text with unit; the reason where there is no value
 * @source JCGM 100:2008 7.2.6
 */
export function aboutFigure(f: Figure): string {
  if (f.low === null || f.high === null) return f.why ?? "no value";
  if (f.exact) return printExact(f.value ?? f.low, f.dimension);
  return printValue(f.value ?? (f.low + f.high) / 2, f.dimension, Math.max(f.known ?? 0, (f.high - f.low) / 4));
}

/** What stands in a sentence for a result that has no value, until `holding` takes the sentence out. */
const [opens, closes] = ["\uE000", "\uE001"];
const absent = (name: string): string => `${opens}${name}${closes}`;
const absentNames = new RegExp(`${opens}([^${closes}]*)${closes}`, "g");

/** The two ways in which a sentence may tell a result: long with its interval, and short. A result without a value is marked, never told as its reason. */
export const sayers = (figures: Readonly<Record<string, Figure>>) => ({
  say: (name: string): string => {
    const f = figures[name];
    if (f.low === null) return absent(name);
    const text = sayFigure({ ...f, without: 0 });
    return f.without > 0.005 ? `${text} (none in ${Math.max(1, Math.round(f.without * 100))} % of cases)` : text;
  },
  about: (name: string): string => (figures[name].low === null ? absent(name) : aboutFigure(figures[name])),
});

/** Whether a text tells a result that has no value. */
export const tellsAbsent = (text: string): boolean => text.includes(opens);

/**
 * A text that holds though some of its results have no value: every clause that would tell one is left out, and what is missing is said after the rest with its reason.
 *
 * @param text sentences made with `sayers`
 * @param figures the results
 * @param told whether to say what is missing; not in what to do, where a step that can't be told is left out
 * @returns sentences in which every figure is one
 * @source house frame
 */
export function holding(text: string, figures: Readonly<Record<string, Figure>>, told = true): string {
  if (!tellsAbsent(text)) return text;
  const names = [...new Set([...text.matchAll(absentNames)].map((m) => m[1]))];
  const kept = text
    .split(/(?<=[.?!])\s+/)
    .map((sentence) => {
      const end = /[.?!]$/.exec(sentence)?.[0] ?? ".";
      const clauses = sentence.replace(/[.?!]$/, "").split(/;\s+/);
      const whole = clauses.filter((c) => !tellsAbsent(c));
      return whole.length === clauses.length ? sentence : whole.length === 0 ? "" : `${upperFirst(whole.join("; "))}${end}`;
    })
    .filter((s) => s !== "");
  const missing = names.map((n) => `No value for ${figures[n].meaning}: ${figures[n].why ?? "no value at these inputs"}.`);
  return [...kept, ...(told ? missing : [])].join(" ");
}

/**
 * Whether inputs were told together by a sweep of the strip; others are by a chart or a log.
 *
 * @param inputs their paths
 * @returns true where they are several, all of the strip
 * @source house frame
 */
export const isStrip = (inputs: readonly string[]): boolean => inputs.length > 1 && inputs.every((i) => i.startsWith("strip."));

/**
 * What is to be measured next, by name.
 *
 * @param next one or more inputs, told together where there are several
 * @param named what an input is called where it is shown
 * @returns its name; of several the strip's, or the first with what goes with it
 * @source house frame
 */
export function nextNamed({ inputs }: Pick<MeasureNext, "inputs">, named: (path: string) => string): string {
  if (isStrip(inputs)) return "the strip";
  return inputs.length > 1 ? `${named(inputs[0])}, together with what was estimated alongside it` : named(inputs[0]);
}
