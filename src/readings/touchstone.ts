import { bad, good, type Read } from "../units/issue";
import { type Network, sweepOfNetwork } from "./network";
import { linesOf, plainNumber } from "./text";
import { type Scanned, scanned, type Token } from "./touchstone-lines";
import { networkOf } from "./touchstone-matrix";

export { type Network, sweepOfNetwork };

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
  const read = scanned(lines.value, name);
  if (!read.ok) return read;
  const { keywords, network, optionLine } = read.value;
  const version = keywords.has("version") ? 2 : 1;
  if (version === 1 && optionLine === 0) {
    if (network.length === 0) return bad(name, "no-data", lines.value[0] ?? "", "an option line (# ...) and numbers");
    const [[first]] = network;
    return bad(`${name} line ${first.line}`, "no-option-line", first.text, "an option line such as # MHz S MA R 50 before the numbers");
  }
  if (network.length === 0) return bad(name, "no-data", "", "network data");
  return version === 2 ? version2(read.value) : version1(read.value);
}

const portsByName = (name: string): number | undefined => {
  const m = /\.s(\d{1,2})p$/i.exec(name);
  return m ? Number(m[1]) : undefined;
};

/** Rows of version 1 as points of the network, and the noise block that may end them. */
function parted(s: Scanned, ports: number, per: number): Read<{ readonly network: Token[]; readonly noise: Token[] }> {
  const network: Token[] = [];
  const noise: Token[] = [];
  let lastHz = Number.NEGATIVE_INFINITY;
  for (const row of s.network) {
    const start = network.length % per === 0;
    const hz = start ? plainNumber(row[0].text)! * s.options.unitHz : 0;
    if (noise.length > 0 || (ports === 2 && start && row.length === 5 && network.length > 0 && hz <= lastHz)) {
      if (row.length !== 5)
        return bad(`${s.name} line ${row[0].line}`, "bad-noise-row", row.map((t) => t.text).join(" "), "five numbers of noise data");
      noise.push(...row);
      continue;
    }
    if (start) lastHz = hz;
    network.push(...row);
  }
  return good({ network, noise });
}
function version1(s: Scanned): Read<Network> {
  const { name, network: rows, options } = s;
  const stated = portsByName(name);
  const ports = stated ?? portsFromFirst(rows);
  const [[head]] = rows;
  const where = `${name} line ${head.line}`;
  if (ports === undefined) return bad(where, "bad-row", rows[0].map((t) => t.text).join(" "), "a frequency and an even count of numbers");
  const per = 1 + 2 * ports * ports;
  const first = rows[0].length;
  if (stated !== undefined && stated <= 2 && first !== per && !(stated === 2 && first < per && first !== 3))
    return bad(where, "wrong-ports", `${first} numbers`, `${per} numbers a point, as the name .s${stated}p says`);
  const data = parted(s, ports, per);
  if (!data.ok) return data;
  const short = truncated(name, data.value.network, per);
  if (short) return short;
  const [referenceOhm] = options.referenceOhm;
  return networkOf(
    s,
    {
      ports,
      version: 1,
      referenceOhm: options.referenceOhm,
      per,
      cell: (k) => positionOf(k, ports, "21_12"),
      scale: (row, column) => normalisation(options.parameter, referenceOhm, row, column),
      mirror: false,
      noiseOhm: referenceOhm,
    },
    data.value.network,
    data.value.noise,
  );
}
/** Numbers that do not fill their last point. */
function truncated(name: string, data: readonly Token[], per: number) {
  const over = data.length % per;
  if (over === 0) return undefined;
  return bad(`${name} line ${data[data.length - 1].line}`, "truncated", `${over} numbers in the last point`, `${per} numbers a point`);
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

/** Ports of a version 2 file: what it states, whatever its name says. */
function portsOf({ name, keywords, warnings }: Scanned): Read<number> {
  const key = keywords.get("number of ports");
  const ports = Number(key?.text);
  if (!key || !Number.isInteger(ports) || ports < 1 || ports > 64)
    return bad(key ? `${name} line ${key.line}` : name, "bad-ports", key?.text ?? "", "[Number of Ports] with a whole number from 1 to 64");
  const stated = portsByName(name);
  if (stated !== undefined && stated !== ports) warnings.push(`the name says ${stated} ports, the file ${ports}; the file was believed`);
  if (!keywords.has("end")) warnings.push("[End] is missing: the file may be cut short");
  return good(ports);
}
/** The places of a matrix in the order in which a version 2 file lists them, and whether they are half of it. */
function cellsOf(s: Scanned, ports: number): Read<{ readonly cells: (readonly [number, number])[]; readonly mirror: boolean }> {
  const { name, keywords, warnings } = s;
  let order: "21_12" | "12_21" = "21_12";
  const orderKey = keywords.get("two-port data order");
  if (ports === 2) {
    if (!orderKey) warnings.push("[Two-Port Data Order] is missing; read as 21_12");
    else if (orderKey.text === "12_21" || orderKey.text === "21_12") order = orderKey.text;
    else return bad(`${name} line ${orderKey.line}`, "bad-order", orderKey.text, "12_21 or 21_12");
  }
  const key = keywords.get("matrix format");
  const shape = (key?.text || "full").toLowerCase();
  if (!["full", "lower", "upper"].includes(shape))
    return bad(`${name} line ${key?.line}`, "bad-matrix", key?.text ?? "", "Full, Lower or Upper");
  const cells: (readonly [number, number])[] = [];
  if (shape === "full") for (let k = 0; k < ports * ports; k++) cells.push(positionOf(k, ports, order));
  else
    for (let r = 0; r < ports; r++)
      for (let c = shape === "lower" ? 0 : r; c < (shape === "lower" ? r + 1 : ports); c++) cells.push([r, c]);
  return good({ cells, mirror: shape !== "full" });
}
/** Reference resistances of a version 2 file: one for each port. */
function referencesOf({ name, keywords, options, reference }: Scanned, ports: number): Read<number[]> {
  if (!reference) return good(Array.from({ length: ports }, (_, i) => options.referenceOhm[i] ?? options.referenceOhm[0]));
  const values = reference.flatMap((t) => plainNumber(t.text) ?? []);
  return values.length !== ports || reference.length !== ports || values.some((v) => !(v > 0))
    ? bad(
        `${name} line ${keywords.get("reference")?.line}`,
        "bad-reference",
        reference.map((t) => t.text).join(" "),
        `${ports} resistances above 0`,
      )
    : good(values);
}
function version2(s: Scanned): Read<Network> {
  const { name, keywords, warnings } = s;
  const ports = portsOf(s);
  if (!ports.ok) return ports;
  const shape = cellsOf(s, ports.value);
  if (!shape.ok) return shape;
  const referenceOhm = referencesOf(s, ports.value);
  if (!referenceOhm.ok) return referenceOhm;
  const { cells, mirror } = shape.value;
  const per = 1 + 2 * cells.length;
  const data = s.network.flat();
  const short = truncated(name, data, per);
  if (short) return short;
  const count = keywords.get("number of frequencies");
  if (count && data.length / per !== Number(count.text))
    warnings.push(`[Number of Frequencies] says ${count.text}, the file has ${data.length / per}`);
  const noise = s.noise.flat();
  if (noise.length % 5 !== 0)
    return bad(
      `${name} line ${noise[noise.length - 1].line}`,
      "bad-noise-row",
      `${noise.length % 5} numbers`,
      "five numbers of noise data a point",
    );
  return networkOf(
    s,
    { ports: ports.value, version: 2, referenceOhm: referenceOhm.value, per, cell: (k) => cells[k], scale: () => 1, mirror, noiseOhm: 1 },
    data,
    noise,
  );
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
