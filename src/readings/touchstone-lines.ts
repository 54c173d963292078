import { bad, good, type Read } from "../units/issue";
import type { Network } from "./network";
import { mostNumbers } from "./sweep";
import { plainNumber } from "./text";

export interface Token {
  readonly text: string;
  readonly line: number;
}
export interface Options {
  unitHz: number;
  parameter: Network["parameter"];
  format: Network["format"];
  referenceOhm: number[];
}
/** A file taken apart: its option line, its keywords, and the rows of numbers of each section. */
export interface Scanned {
  readonly name: string;
  readonly options: Options;
  readonly keywords: Map<string, Token>;
  readonly network: Token[][];
  readonly noise: Token[][];
  readonly warnings: string[];
  reference: Token[] | undefined;
  /** line of the option line; 0 for none yet */
  optionLine: number;
}
/** Where in a file the scan stands. */
interface Place {
  section: "head" | "network" | "noise" | "end";
  inReference: boolean;
  numbersCount: number;
}
const units: Readonly<Record<string, number>> = { hz: 1, khz: 1e3, mhz: 1e6, ghz: 1e9 };

const knownKeywords = new Set([
  "version",
  "number of ports",
  "two-port data order",
  "number of frequencies",
  "number of noise frequencies",
  "matrix format",
  "mixed-mode order",
  "begin information",
  "end information",
  "network data",
  "noise data",
  "end",
  "reference",
]);
const tokens = (text: string, line: number): Token[] =>
  text
    .split(/\s+/)
    .filter(Boolean)
    .map((t) => ({ text: t, line }));

/** A line that begins a section, or states something by a keyword in brackets. */
function takeKeyword(s: Scanned, place: Place, code: string, line: number): Read<true> {
  const end = code.indexOf("]");
  if (end < 0) return bad(`${s.name} line ${line}`, "bad-keyword", code, "a keyword in brackets");
  const word = code.slice(1, end).trim();
  const text = code.slice(end + 1).trim();
  const key = word.toLowerCase().replace(/\s+/g, " ");
  place.inReference = key === "reference";
  if (key === "end") place.section = "end";
  else if (key === "network data") place.section = "network";
  else if (key === "noise data") place.section = "noise";
  else if (key === "reference") s.reference = tokens(text, line);
  else if (!knownKeywords.has(key)) s.warnings.push(`line ${line}: unknown keyword [${word}], skipped`);
  s.keywords.set(key, { text, line });
  return good(true);
}
function takeNumbers(s: Scanned, place: Place, code: string, line: number): Read<true> {
  const at = `${s.name} line ${line}`;
  const row = tokens(code, line);
  place.numbersCount += row.length;
  if (place.numbersCount > mostNumbers)
    return bad(at, "too-many-numbers", `more than ${mostNumbers} numbers`, `at most ${mostNumbers} numbers`);
  if (s.reference && place.inReference) {
    s.reference.push(...row);
    return good(true);
  }
  const odd = row.find((t) => plainNumber(t.text) === undefined);
  if (odd)
    return /^\d+,\d+$/.test(odd.text)
      ? bad(at, "decimal-comma", odd.text, "a decimal point: this format has no decimal comma")
      : bad(at, "not-a-number", odd.text, "a finite number");
  (place.section === "noise" ? s.noise : s.network).push(row);
  return good(true);
}
function takeOptions(s: Scanned, code: string, line: number): Read<true> {
  if (s.optionLine > 0) {
    s.warnings.push(`line ${line}: a second option line, ignored as the specification says`);
    return good(true);
  }
  s.optionLine = line;
  return readOptions(code, `${s.name} line ${line}`, s.options, s.warnings);
}

/**
 * Takes a Touchstone file apart, line by line.
 *
 * @param lines of the file
 * @param name its name, for the error
 * @returns options, keywords and rows of numbers, none of them judged yet; or the located issue
 * @source Touchstone File Format Specification 2.1 (IBIS Open Forum, January 2024)
 */
export function scanned(lines: readonly string[], name: string): Read<Scanned> {
  const options: Options = { unitHz: 1e9, parameter: "S", format: "MA", referenceOhm: [50] };
  const s: Scanned = { name, options, keywords: new Map(), network: [], noise: [], warnings: [], reference: undefined, optionLine: 0 };
  const place: Place = { section: "head", inReference: false, numbersCount: 0 };
  for (const [i, said] of lines.entries()) {
    const code = said
      .replace(/^\uFEFF/, "")
      .split("!")[0]
      .trim();
    if (/[^\u0020-\u007e\t]/.test(code)) return bad(`${name} line ${i + 1}`, "not-ascii", code, "7-bit ASCII outside comments");
    if (code === "" || place.section === "end") continue;
    const taken = code.startsWith("#")
      ? takeOptions(s, code, i + 1)
      : code.startsWith("[")
        ? takeKeyword(s, place, code, i + 1)
        : takeNumbers(s, place, code, i + 1);
    if (!taken.ok) return taken;
  }
  return good(s);
}

function readOptions(code: string, at: string, o: Options, warnings: string[]): Read<true> {
  const words = code.slice(1).split(/\s+/).filter(Boolean);
  for (let k = 0; k < words.length; k++) {
    const w = words[k].toLowerCase();
    if (Object.hasOwn(units, w)) o.unitHz = units[w];
    else if (/^[szyhg]$/.test(w)) o.parameter = w.toUpperCase() as Options["parameter"];
    else if (w === "ma" || w === "db" || w === "ri") o.format = w.toUpperCase() as Options["format"];
    else if (w === "r") {
      const values: number[] = [];
      while (k + 1 < words.length && plainNumber(words[k + 1]) !== undefined) values.push(plainNumber(words[++k])!);
      if (values.length === 0 || values.some((v) => !(v > 0)))
        return bad(at, "bad-reference", words[k + 1] ?? "", "a resistance above 0 after R");
      o.referenceOhm = values;
    } else if (/^r\d/.test(w)) {
      const v = plainNumber(w.slice(1));
      if (!v || !(v > 0)) return bad(at, "bad-reference", words[k], "R and a resistance, such as R 50");
      warnings.push(`${at}: "${words[k]}" has no space after R; read as R ${v}`);
      o.referenceOhm = [v];
    } else return bad(at, "bad-option", words[k], "Hz, kHz, MHz or GHz; S, Y, Z, H or G; MA, DB or RI; R and a resistance");
  }
  return good(true);
}
