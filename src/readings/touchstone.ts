import { bad, good, type Read } from "../units/issue";
import { mostNumbers, mostSweepPoints, type Sweep } from "./sweep";
import { linesOf, plainNumber, regrid } from "./text";

/** Network data as a Touchstone file states them, in SI: S is plain, Z in ohm, Y in siemens; H and G mixed. */
export interface Network {
  readonly ports: number;
  readonly parameter: "S" | "Z" | "Y" | "H" | "G";
  readonly format: "MA" | "DB" | "RI";
  readonly referenceOhm: readonly number[];
  readonly frequencyHz: Float64Array;
  /** re[row * ports + column][point] */
  readonly re: readonly Float64Array[];
  readonly im: readonly Float64Array[];
  readonly noise: readonly {
    readonly frequencyHz: number;
    readonly minimumDb: number;
    readonly sourceMagnitude: number;
    readonly sourceDeg: number;
    readonly resistanceOhm: number;
  }[];
  readonly version: 1 | 2;
  readonly resolutionHz: number;
  readonly warnings: readonly string[];
}

interface Token {
  readonly text: string;
  readonly line: number;
}
interface Options {
  unitHz: number;
  parameter: Network["parameter"];
  format: Network["format"];
  referenceOhm: number[];
}
const units: Readonly<Record<string, number>> = { hz: 1, khz: 1e3, mhz: 1e6, ghz: 1e9 };

/**
 * Reads a Touchstone file, versions 1.0, 1.1, 2.0 and 2.1.
 *
 * Version 1: option line with defaults GHz S MA R 50 in any order; later option lines ignored; two-port data in the order 11 21 12 22; Z, Y, H, G
 * normalised to R; a noise block begins at the first five-number line whose frequency does not rise. Version 2: keywords in brackets, stated
 * two-port order, full, lower or upper matrices, [Reference] over any number of lines, impedances in ohm.
 *
 * @param bytes the file
 * @param name its name; `.sNp` states the number of ports
 * @returns the network data, or the located issue
 * @source Touchstone File Format Specification 2.1 (IBIS Open Forum, January 2024), as read in public copies; cases in touchstone.published.test.ts
 */
export function readTouchstone(bytes: Uint8Array, name: string): Read<Network> {
  const lines = linesOf(bytes, name);
  if (!lines.ok) return lines;
  const warnings: string[] = [];
  const options: Options = { unitHz: 1e9, parameter: "S", format: "MA", referenceOhm: [50] };
  const keywords = new Map<string, { readonly text: string; readonly line: number }>();
  const network: Token[][] = [];
  const noise: Token[][] = [];
  let optionLine = 0;
  let section: "head" | "network" | "noise" | "end" = "head";
  let reference: Token[] | undefined;
  let inReference = false;
  let numbers = 0;
  for (let i = 0; i < lines.value.length; i++) {
    const raw = lines.value[i].replace(/^\uFEFF/, "");
    const code = raw.split("!")[0].trim();
    if (/[^\u0020-\u007e\t]/.test(code)) return bad(`${name} line ${i + 1}`, "not-ascii", code, "7-bit ASCII outside comments");
    if (code === "" || section === "end") continue;
    const at = `${name} line ${i + 1}`;
    if (code.startsWith("#")) {
      if (optionLine > 0) {
        warnings.push(`line ${i + 1}: a second option line, ignored as the specification says`);
        continue;
      }
      optionLine = i + 1;
      const r = readOptions(code, at, options, warnings);
      if (!r.ok) return r;
      continue;
    }
    if (code.startsWith("[")) {
      const end = code.indexOf("]");
      if (end < 0) return bad(at, "bad-keyword", code, "a keyword in brackets");
      const word = code.slice(1, end).trim();
      const text = code.slice(end + 1).trim();
      const key = word.toLowerCase().replace(/\s+/g, " ");
      inReference = key === "reference";
      if (key === "end") section = "end";
      else if (key === "network data") section = "network";
      else if (key === "noise data") section = "noise";
      else if (key === "reference") reference = tokens(text, i + 1);
      else if (!knownKeywords.has(key)) warnings.push(`line ${i + 1}: unknown keyword [${word}], passed over`);
      keywords.set(key, { text, line: i + 1 });
      continue;
    }
    const row = tokens(code, i + 1);
    numbers += row.length;
    if (numbers > mostNumbers) return bad(at, "too-many-numbers", `more than ${mostNumbers} numbers`, `at most ${mostNumbers} numbers`);
    if (reference && inReference) {
      reference.push(...row);
      continue;
    }
    for (const t of row) {
      if (plainNumber(t.text) === undefined)
        return bad(
          at,
          /^\d+,\d+$/.test(t.text) ? "decimal-comma" : "not-a-number",
          t.text,
          /^\d+,\d+$/.test(t.text) ? "a decimal point: this format has no decimal comma" : "a finite number",
        );
    }
    (section === "noise" ? noise : network).push(row);
  }
  const version = keywords.has("version") ? 2 : 1;
  if (version === 1 && optionLine === 0) {
    if (network.length === 0) return bad(name, "no-data", lines.value[0] ?? "", "an option line (# ...) and numbers");
    return bad(
      `${name} line ${network[0][0].line}`,
      "no-option-line",
      network[0][0].text,
      "an option line such as # MHz S MA R 50 before the numbers",
    );
  }
  if (network.length === 0) return bad(name, "no-data", "", "network data");
  return version === 2
    ? assemble2(name, options, keywords, reference, network, noise, warnings)
    : assemble1(name, options, network, warnings);
}

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

const portsByName = (name: string): number | undefined => {
  const m = /\.s(\d{1,2})p$/i.exec(name);
  return m ? Number(m[1]) : undefined;
};

function assemble1(name: string, o: Options, rows: Token[][], warnings: string[]): Read<Network> {
  const stated = portsByName(name);
  const guess = stated ?? portsFromFirst(rows);
  if (guess === undefined)
    return bad(
      `${name} line ${rows[0][0].line}`,
      "bad-row",
      rows[0].map((t) => t.text).join(" "),
      "a frequency and an even count of numbers",
    );
  const per = 1 + 2 * guess * guess;
  const first = rows[0].length;
  if (stated !== undefined && stated <= 2 && first !== per && !(stated === 2 && first < per && first !== 3))
    return bad(
      `${name} line ${rows[0][0].line}`,
      "wrong-ports",
      `${first} numbers`,
      `${per} numbers a point, as the name .s${stated}p says`,
    );
  const network: Token[] = [];
  const noise: Token[] = [];
  let lastHz = Number.NEGATIVE_INFINITY;
  for (const row of rows) {
    const start = network.length % per === 0;
    const hz = start ? plainNumber(row[0].text)! * o.unitHz : 0;
    if (noise.length > 0 || (guess === 2 && start && row.length === 5 && network.length > 0 && hz <= lastHz)) {
      if (row.length !== 5)
        return bad(`${name} line ${row[0].line}`, "bad-noise-row", row.map((t) => t.text).join(" "), "five numbers of noise data");
      noise.push(...row);
      continue;
    }
    if (start) lastHz = hz;
    network.push(...row);
  }
  if (network.length % per !== 0) {
    const last = network[network.length - 1];
    return bad(`${name} line ${last.line}`, "truncated", `${network.length % per} numbers in the last point`, `${per} numbers a point`);
  }
  const scale = (row: number, column: number): number => normalisation(o.parameter, o.referenceOhm[0], row, column);
  return finish(name, o, guess, 1, network, per, (k) => positionOf(k, guess, "21_12"), scale, noise, o.referenceOhm[0], warnings);
}

/** Ports from the shape of the first lines: 1 or 2 by the count on a line, more by rows. */
function portsFromFirst(rows: Token[][]): number | undefined {
  const n = rows[0].length;
  if (n === 3) return 1;
  if (n === 9 && (rows.length < 2 || rows[1].length === 9 || rows[1].length === 5)) return 2;
  if (n === 5 && rows[1]?.length === 4) return 2;
  if (n === 7 && rows[1]?.length === 6) return 3;
  if (n === 9 && rows[1]?.length === 8) {
    let k = 1;
    while (rows[k]?.length === 8) k++;
    return k === 4 ? 4 : k;
  }
  return undefined;
}

/** Version 1 states Z in units of R, Y in units of 1/R, and of H and G the terms that carry a dimension. */
function normalisation(p: Network["parameter"], r: number, row: number, column: number): number {
  if (p === "Z") return r;
  if (p === "Y") return 1 / r;
  if (p === "H") return row === 0 && column === 0 ? r : row === 1 && column === 1 ? 1 / r : 1;
  if (p === "G") return row === 0 && column === 0 ? 1 / r : row === 1 && column === 1 ? r : 1;
  return 1;
}

const positionOf = (k: number, ports: number, order: "21_12" | "12_21"): readonly [number, number] =>
  ports === 2 && order === "21_12" ? [k % 2, Math.floor(k / 2)] : [Math.floor(k / ports), k % ports];

function assemble2(
  name: string,
  o: Options,
  keywords: Map<string, { readonly text: string; readonly line: number }>,
  referenceTokens: Token[] | undefined,
  rows: Token[][],
  noiseRows: Token[][],
  warnings: string[],
): Read<Network> {
  const portsKey = keywords.get("number of ports");
  const ports = Number(portsKey?.text);
  if (!portsKey || !Number.isInteger(ports) || ports < 1 || ports > 64)
    return bad(
      portsKey ? `${name} line ${portsKey.line}` : name,
      "bad-ports",
      portsKey?.text ?? "",
      "[Number of Ports] with a whole number from 1 to 64",
    );
  const stated = portsByName(name);
  if (stated !== undefined && stated !== ports) warnings.push(`the name says ${stated} ports, the file ${ports}; the file is believed`);
  if (!keywords.has("end")) warnings.push("[End] is missing: the file may be cut short");
  let order: "21_12" | "12_21" = "21_12";
  const orderKey = keywords.get("two-port data order");
  if (ports === 2) {
    if (!orderKey) warnings.push("[Two-Port Data Order] is missing; read as 21_12");
    else if (orderKey.text === "12_21" || orderKey.text === "21_12") order = orderKey.text;
    else return bad(`${name} line ${orderKey.line}`, "bad-order", orderKey.text, "12_21 or 21_12");
  }
  const shapeKey = keywords.get("matrix format");
  const shape = (shapeKey?.text || "full").toLowerCase();
  if (!["full", "lower", "upper"].includes(shape))
    return bad(`${name} line ${shapeKey?.line}`, "bad-matrix", shapeKey?.text ?? "", "Full, Lower or Upper");
  let referenceOhm: number[] = Array.from({ length: ports }, (_, i) => o.referenceOhm[i] ?? o.referenceOhm[0]);
  if (referenceTokens) {
    const values = referenceTokens.map((t) => plainNumber(t.text));
    if (values.length !== ports || values.some((v) => v === undefined || !(v > 0)))
      return bad(
        `${name} line ${keywords.get("reference")?.line}`,
        "bad-reference",
        referenceTokens.map((t) => t.text).join(" "),
        `${ports} resistances above 0`,
      );
    referenceOhm = values as number[];
  }
  const cells: (readonly [number, number])[] = [];
  if (shape === "full") for (let k = 0; k < ports * ports; k++) cells.push(positionOf(k, ports, order));
  else
    for (let r = 0; r < ports; r++)
      for (let c = shape === "lower" ? 0 : r; c < (shape === "lower" ? r + 1 : ports); c++) cells.push([r, c]);
  const per = 1 + 2 * cells.length;
  const data = rows.flat();
  if (data.length % per !== 0)
    return bad(
      `${name} line ${data[data.length - 1].line}`,
      "truncated",
      `${data.length % per} numbers in the last point`,
      `${per} numbers a point`,
    );
  const count = Number(keywords.get("number of frequencies")?.text);
  if (keywords.has("number of frequencies") && data.length / per !== count)
    warnings.push(`[Number of Frequencies] says ${keywords.get("number of frequencies")?.text}, the file has ${data.length / per}`);
  const noise = noiseRows.flat();
  if (noise.length % 5 !== 0)
    return bad(
      `${name} line ${noise[noise.length - 1].line}`,
      "bad-noise-row",
      `${noise.length % 5} numbers`,
      "five numbers of noise data a point",
    );
  return finish(
    name,
    { ...o, referenceOhm },
    ports,
    2,
    data,
    per,
    (k) => cells[k],
    () => 1,
    noise,
    1,
    warnings,
    shape !== "full",
  );
}

function finish(
  name: string,
  o: Options,
  ports: number,
  version: 1 | 2,
  data: Token[],
  per: number,
  cell: (k: number) => readonly [number, number],
  scale: (row: number, column: number) => number,
  noiseTokens: Token[],
  noiseOhm: number,
  warnings: string[],
  mirror = false,
): Read<Network> {
  const points = data.length / per;
  let frequencyHz = new Float64Array(points);
  const re = Array.from({ length: ports * ports }, () => new Float64Array(points));
  const im = Array.from({ length: ports * ports }, () => new Float64Array(points));
  let repeats = 0;
  for (let p = 0; p < points; p++) {
    const at = data[p * per];
    frequencyHz[p] = plainNumber(at.text)! * o.unitHz;
    if (!Number.isFinite(frequencyHz[p]))
      return bad(`${name} line ${at.line}`, "out-of-range", at.text, "a frequency that a number can hold");
    if (p > 0 && frequencyHz[p] < frequencyHz[p - 1])
      return bad(`${name} line ${at.line}`, "unsorted", at.text, `a frequency above ${data[(p - 1) * per].text}: frequencies must ascend`);
    if (p > 0 && frequencyHz[p] === frequencyHz[p - 1]) repeats++;
    for (let k = 0; 2 * k + 2 < per; k++) {
      const [row, column] = cell(k);
      const a = plainNumber(data[p * per + 1 + 2 * k].text)!;
      const b = plainNumber(data[p * per + 2 + 2 * k].text)!;
      const s = scale(row, column);
      const size = o.format === "DB" ? 10 ** (a / 20) : a;
      const x = s * (o.format === "RI" ? a : size * Math.cos((b * Math.PI) / 180));
      const y = s * (o.format === "RI" ? b : size * Math.sin((b * Math.PI) / 180));
      if (!Number.isFinite(x) || !Number.isFinite(y))
        return bad(
          `${name} line ${data[p * per + 1 + 2 * k].line}`,
          "out-of-range",
          data[p * per + 1 + 2 * k].text,
          "a level that a number can hold",
        );
      re[row * ports + column][p] = x;
      im[row * ports + column][p] = y;
      if (mirror) {
        re[column * ports + row][p] = x;
        im[column * ports + row][p] = y;
      }
    }
  }
  let resolutionHz = 0;
  if (repeats > 0) {
    const grid = points > 8 ? regrid(frequencyHz) : undefined;
    if (!grid) {
      const p = frequencyHz.findIndex((f, i) => i > 0 && f === frequencyHz[i - 1]);
      return bad(`${name} line ${data[p * per].line}`, "duplicate-frequency", data[p * per].text, "each frequency once");
    }
    frequencyHz = grid.hz as Float64Array<ArrayBuffer>;
    resolutionHz = grid.resolutionHz;
    warnings.push(
      `${repeats} frequencies repeat because they were printed with too few digits; put back on the even grid of ${(grid.hz[1] - grid.hz[0]).toPrecision(6)} Hz that they round from`,
    );
  }
  const noise = Array.from({ length: noiseTokens.length / 5 }, (_, i) => {
    const [f, nf, m, d, r] = noiseTokens.slice(5 * i, 5 * i + 5).map((t) => plainNumber(t.text)!);
    return { frequencyHz: f * o.unitHz, minimumDb: nf, sourceMagnitude: m, sourceDeg: d, resistanceOhm: r * noiseOhm };
  });
  const odd = noise.findIndex((v) => !Number.isFinite(v.frequencyHz) || !Number.isFinite(v.resistanceOhm));
  if (odd >= 0)
    return bad(`${name} line ${noiseTokens[5 * odd].line}`, "out-of-range", noiseTokens[5 * odd].text, "noise data that a number can hold");
  return good({
    ports,
    parameter: o.parameter,
    format: o.format,
    referenceOhm: o.referenceOhm,
    frequencyHz,
    re,
    im,
    noise,
    version,
    resolutionHz,
    warnings,
  });
}

/**
 * The transmission of a two-port (S21), or the reflection of a one-port (S11), as a sweep.
 *
 * @param n network data
 * @param name file, for the error
 * @returns the sweep; data other than S are refused
 * @source definition of S parameters
 */
export function sweepOfNetwork(n: Network, name: string): Read<Sweep> {
  if (n.parameter !== "S") return bad(name, "not-s", n.parameter, "S parameters for a sweep");
  if (n.frequencyHz.length > mostSweepPoints)
    return bad(name, "too-many", `${n.frequencyHz.length} points`, `at most ${mostSweepPoints} points`);
  const k = n.ports >= 2 ? n.ports : 0;
  const levelDb = n.frequencyHz.map((_, p) => 20 * Math.log10(Math.max(1e-15, Math.hypot(n.re[k][p], n.im[k][p]))));
  const odd = levelDb.findIndex((v) => !Number.isFinite(v));
  if (odd >= 0) return bad(`${name} point ${odd + 1}`, "out-of-range", String(levelDb[odd]), "a level that a number can hold");
  return good({
    frequencyHz: n.frequencyHz,
    levelDb,
    complex: { re: n.re[k], im: n.im[k] },
    resolutionHz: n.resolutionHz,
    quantity: n.ports >= 2 ? "S21" : "S11",
    ...(n.ports >= 2 ? {} : { reflection: true }),
    warnings: n.warnings,
  });
}

/**
 * Writes a network as Touchstone 2.0 (one- and two-port), S in RI, with every digit.
 *
 * @source Touchstone File Format Specification 2.0, IBIS Open Forum
 */
export function writeTouchstone(n: Network): string {
  const head = [
    "[Version] 2.0",
    `# Hz ${n.parameter} RI R ${n.referenceOhm[0]}`,
    `[Number of Ports] ${n.ports}`,
    ...(n.ports === 2 ? ["[Two-Port Data Order] 12_21"] : []),
    `[Number of Frequencies] ${n.frequencyHz.length}`,
    `[Reference] ${Array.from({ length: n.ports }, (_, i) => n.referenceOhm[i] ?? n.referenceOhm[0]).join(" ")}`,
    "[Network Data]",
  ];
  const rows = Array.from(n.frequencyHz, (f, p) => `${f} ${n.re.map((r, k) => `${r[p]} ${n.im[k][p]}`).join(" ")}`);
  return `${[...head, ...rows, "[End]"].join("\n")}\n`;
}
