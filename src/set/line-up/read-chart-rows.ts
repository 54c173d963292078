import { bulbOf } from "../../standards/tube-bulbs";
import { bad, good, type Issue, type Read } from "../../units/issue";
import { parseQuantity } from "../../units/parse";
import { socketName, socketNumber } from "../sockets";

/** One row of a voltage chart as it was said, in the words of its record card. */
export interface SaidRow {
  readonly socket: string;
  readonly pin: string;
  readonly electrode: string;
  readonly volts: string;
  /** ohms of the one resistor at the electrode */
  readonly ohms: string;
  readonly measured: string;
  readonly line: number;
}
const electrode = String.raw`plate|anode|screen|g2|cathode|control grid|grid|g1|heater|filament|b\+|avc`;
const volts = String.raw`[-+−]?\d+(?:[.,]\d+)?`;
const unit = String.raw`(?:\s*(?:v|volts?|vdc|v dc)\b)?`;
const ohm = String.raw`\d+(?:[.,]\d+)?\s*(?:k|m|meg)?\s*(?:Ω|Ω|ohms?|kΩ)?[\d]*`;
const rowLine = new RegExp(
  String.raw`^(v\s?\d{1,2}[abc]?)[\s.:,;]+(?:(?:pin|p)?\s*(\d{1,2})[\s,;:]+)?(?:(${electrode})[\s,;:=]+)?(${volts})${unit}(?:[\s,;]+(?:through|via|resistor|part|\()?\s*(${ohm})\)?)?(?:[\s,;]+(?:reads?|measured|found|now)\s+(${volts})${unit})?$`,
  "i",
);
const named = (said: string): string =>
  said
    .replace(/anode/i, "plate")
    .replace(/g2/i, "screen")
    .replace(/control grid|g1/i, "grid")
    .replace(/filament/i, "heater")
    .toLowerCase()
    .replace("b+", "B+")
    .replace("avc", "AVC");

/** What stands at a pin of a type, where its basing is known; of a double tube also which half. */
function atPin(type: string | undefined, pin: number): { readonly electrode: string; readonly half: string } | undefined {
  const hit = type === undefined ? undefined : bulbOf(type)?.pins.get(pin);
  if (!hit || hit.electrode === "other") return undefined;
  return { electrode: hit.electrode, half: hit.unit === undefined ? "" : (["a", "b", "c"][hit.unit] ?? "") };
}
/** Ohms as a card takes them: a figure without a letter is ohms. */
const ohmsSaid = (said: string): string => (/^[\d.,]+$/.test(said.trim()) ? `${said.trim()} Ω` : said.trim());

/**
 * A row of the voltage chart in a line of its own.
 *
 * @param said such as `V3 pin 5 plate 220 V 2.2k`, `V3 plate 220 V, reads 90 V`
 * @param line its number
 * @returns the row; undefined where the line is none
 * @source house format
 */
export function readRowLine(said: string, line: number): SaidRow | undefined {
  const m = rowLine.exec(said);
  if (!m || (m[2] === undefined && m[3] === undefined)) return undefined;
  const [, socket, pin = "", el = "", v, ohms = "", measured = ""] = m;
  return { socket: socketSaid(socket), pin, electrode: named(el), volts: v.replace("−", "-"), ohms: ohmsSaid(ohms), measured, line };
}
const socketSaid = (said: string): string => socketName(socketNumber(said) ?? 0);

/** Columns of a table from a service sheet, by their headings. */
const heads: readonly (readonly [string, RegExp])[] = [
  ["socket", /^(?:tube|socket|valve|ref|no|symbol|position|designation)\.?$/i],
  ["type", /^type$/i],
  ["duty", /^(?:function|use|duty|circuit|stage|purpose)$/i],
  ["pinOf", /^pin$/i],
  ["electrode", /^(?:electrode|element)$/i],
  ["volts", /^(?:volts?|voltage|chart|v|dc volts|chart v)$/i],
  ["ohms", /^(?:ohms?|resistance|resistor|Ω|part)$/i],
  ["measured", /^(?:measured|reads?|found|now|measured v)$/i],
];
const pinHead = /^(?:pin\s*)?(\d)$/i;
const electrodeHead = new RegExp(`^(?:${electrode})(?: (?:v|volts))?$`, "i");
function headOf(cell: string): string | undefined {
  const known = heads.find(([, r]) => r.test(cell))?.[0];
  if (known) return known;
  const pin = pinHead.exec(cell)?.[1];
  return pin !== undefined ? `pin ${pin}` : electrodeHead.test(cell) ? `at ${named(cell.replace(/\s+(?:v|volts)$/i, ""))}` : undefined;
}
export interface Table {
  readonly separator: RegExp;
  readonly columns: readonly (string | undefined)[];
}
const separators = [/\t/, /\s*\|\s*/, /\s*;\s*/, /\s*,\s*/, /\s{2,}/, /\s+/];
const cellsOf = (line: string, separator: RegExp): readonly string[] =>
  line
    .replace(/^\||\|$/g, "")
    .split(separator)
    .map((c) => c.trim());

/**
 * The heading of a table: names the tube first, and at least one more column that is known.
 *
 * @param line as written
 * @returns how the rows under it are cut; undefined where the line is no heading
 * @source words of service sheets
 */
export function tableAt(line: string): Table | undefined {
  for (const separator of separators) {
    const columns = cellsOf(line, separator).map(headOf);
    if (columns.length > 1 && columns[0] === "socket" && columns.slice(1).some((c) => c !== undefined)) return { separator, columns };
  }
  return undefined;
}
/** What a row of a table says: of the tube, and of the chart. */
export interface FromTable {
  readonly tube: string | undefined;
  readonly rows: readonly SaidRow[];
}
const nothing = /^(?:|-+|–|—|n\.?c\.?|\.+|\*|none)$/i;
/**
 * A row of a table.
 *
 * @param table its heading
 * @param said the line
 * @param line its number
 * @param typeOf the type at a socket, as far as it was said
 * @returns the tube's own text, and its rows of the chart; undefined where the line is no row of it; or the cell that can't be read
 * @source words of service sheets
 */
export function readTableRow(
  table: Table,
  said: string,
  line: number,
  typeOf: (socket: string) => string | undefined,
): Read<FromTable> | undefined {
  const cells = cellsOf(said, table.separator);
  const at = (name: string): string => cells[table.columns.indexOf(name)] ?? "";
  if (cells.length < 2 || socketNumber(at("socket")) === undefined) return undefined;
  if (cells.length > table.columns.length)
    return bad(`line ${line}`, "too-many-cells", said, `at most ${table.columns.length} cells, as the heading has`);
  const socket = socketSaid(at("socket"));
  const type = nothing.test(at("type")) ? typeOf(socket) : at("type");
  const rows: SaidRow[] = [];
  const issues: Issue[] = [];
  const put = (pin: string, el: string, half: string, text: string, more: Pick<SaidRow, "ohms" | "measured">): void => {
    if (nothing.test(text) && nothing.test(more.measured)) return;
    const read =
      text === ""
        ? undefined
        : parseQuantity(/^[-+−\d.,]+$/.test(text) ? `${text} V` : text.replace(/\s*(?:ac|~|dc)$/i, ""), "voltage", `line ${line}`);
    if (read && !read.ok)
      issues.push({
        path: `line ${line}, ${el || `pin ${pin}`}`,
        code: "not-volts",
        read: text,
        expected: "volts, such as 220 or 220 V; a dash where there are none",
      });
    else
      rows.push({
        socket: half === "" || /[abc]$/.test(socket) ? socket : `${socket}${half}`,
        pin,
        electrode: el,
        volts: text,
        ...more,
        line,
      });
  };
  const bare = { ohms: "", measured: "" };
  for (const [k, column] of table.columns.entries()) {
    const pin = /^pin (\d)$/.exec(column ?? "")?.[1];
    const el = /^at (.*)$/.exec(column ?? "")?.[1];
    const known = pin === undefined ? undefined : atPin(type, Number(pin));
    // a heater's volts are AC, and tell nothing of the DC points
    if (pin !== undefined && known?.electrode !== "heater")
      put(pin, known?.electrode ?? "", halfOf(type, known?.half), cells[k] ?? "", bare);
    else if (el !== undefined) put("", el, "", cells[k] ?? "", bare);
  }
  if (table.columns.includes("volts") || table.columns.includes("measured")) {
    const pin = nothing.test(at("pinOf")) ? "" : at("pinOf");
    const known = atPin(type, Number(pin));
    const el = nothing.test(at("electrode")) ? (known?.electrode ?? "") : named(at("electrode"));
    put(pin, el, halfOf(type, known?.half), at("volts"), {
      ohms: nothing.test(at("ohms")) ? "" : ohmsSaid(at("ohms")),
      measured: nothing.test(at("measured")) ? "" : at("measured"),
    });
  }
  const tube = table.columns.includes("type") && !nothing.test(at("type")) ? `${socket}, ${at("type")}, ${at("duty")}` : undefined;
  return issues.length > 0 ? { ok: false, issues } : good({ tube, rows });
}
/** Which half of a bulb a pin is of, where the bulb has two that amplify. */
function halfOf(type: string | undefined, half = ""): string {
  const units = type === undefined ? [] : (bulbOf(type)?.units ?? []);
  return units.filter((u) => ["pentode", "output", "triode"].includes(u)).length > 1 ? half : "";
}
