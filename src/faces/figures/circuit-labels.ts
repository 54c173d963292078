import type { Circuit, CircuitNode, CircuitPart, CircuitTube, Mark } from "../../ask/drawn/circuit";
import { kills, voltsSaid } from "../../ask/drawn/volts";
import { type Line, linePx, textPx } from "./picture-text";
import { linesWithin, textWidth, widestWord } from "./text-width";

/** Words beside a symbol, as they are drawn: lines of 16 px, with the sign of danger before them where the volts can kill. */
/** room of the sign before the words */
export const signPx = 24;
/** across a key */
export const keyPx = 26;

export interface Words {
  readonly lines: readonly Line[];
  readonly danger: boolean;
  /** number that stands in place of the words, which are then told below the drawing */
  readonly key?: number;
  readonly width: number;
  readonly height: number;
}

export const markWord: Readonly<Record<Mark, string>> = { fit: "fit", turn: "turn", suspect: "suspect" };
/** A value with the sign of what nobody has looked at. */
export const shown = (p: Pick<CircuitPart, "value">): string => (p.value ? `${p.value.text}${p.value.assumed ? "?" : ""}` : "");

/** A word longer than this is broken. */
const longestPx = 150;
type Said = readonly (readonly [text: string, bold: boolean])[];
function words(said: Said, wrapPx: number, tone: Line["tone"], danger: boolean): Words {
  // no word is broken within, but one that would be a line of its own anywhere
  const wide = Math.max(wrapPx, ...said.map(([text]) => Math.min(widestWord(text, textPx), longestPx)));
  const lines = said.flatMap(([text, bold]) => linesWithin(text, wide, textPx).map((t) => ({ text: t, bold, tone })));
  const width = Math.max(0, ...lines.map((l) => textWidth(l.text, textPx))) + (danger ? signPx : 0);
  return { lines, danger, width, height: lines.length * linePx };
}

/** What stands beside a part: what to do with it, its name and value; what it is; a word more. */
function partWords(p: CircuitPart, wrapPx: number): Words | undefined {
  if (p.kind === "wire" || p.kind === "block") return undefined;
  const head = [p.name, shown(p)].filter((t) => t).join(" ");
  const first = head === "" ? p.what : head;
  const said: Said = [
    [p.mark ? `${markWord[p.mark]}: ${first}` : first, true],
    ...(head === "" ? [] : [[p.what, false] as const]),
    ...(p.says ? [[p.says, false] as const] : []),
  ];
  return words(said, wrapPx, p.mark ? "accent" : "ink", false);
}

/** What stands in a block, and beside a tube. */
const blockWords = (p: CircuitPart, wrapPx: number): Words =>
  words(
    [
      [p.mark ? `${markWord[p.mark]}: ${p.what}` : p.what, true],
      ...[shown(p), p.says ?? ""].filter((t) => t !== "").map((t) => [t, false] as const),
    ],
    wrapPx,
    p.mark ? "accent" : "ink",
    false,
  );
const tubeWords = (t: CircuitTube, wrapPx: number): Words =>
  words(
    [
      [[t.mark ? `${markWord[t.mark]}:` : "", t.name ?? ""].filter((w) => w !== "").join(" ") || t.what, true],
      ...(t.name ? [[t.what, false] as const] : []),
    ],
    wrapPx,
    t.mark ? "accent" : "ink",
    false,
  );

const endWords: Readonly<Partial<Record<NonNullable<CircuitNode["end"]>, string>>> = {
  chassis: "chassis",
  "live-chassis": "chassis, LIVE",
  "b-minus": "B−",
  earth: "earth",
};
/** What stands at the sign that a lead ends in. */
function endSays(n: CircuitNode, wrapPx: number): Words | undefined {
  const said = n.end && endWords[n.end];
  return said === undefined ? undefined : words([[n.label ?? said, false]], wrapPx, "ink", n.end === "live-chassis");
}

/** What stands at a node: its name, its volts, and that they kill. */
function nodeWords(n: CircuitNode, wrapPx: number): Words | undefined {
  if (n.end && endWords[n.end]) return undefined;
  const volts = n.volts ? voltsSaid(n.volts) : [];
  const danger = n.volts !== undefined && kills(n.volts);
  const said: Said = [...(n.label ? [[n.label, true] as const] : []), ...volts.map((t) => [t, false] as const)];
  return said.length === 0 ? undefined : words(said, wrapPx, "ink", danger);
}

/** Everything that a circuit may have written in it, measured: a layout is tried many times over with the same words. */
export interface Told {
  readonly parts: ReadonlyMap<CircuitPart, Words | undefined>;
  readonly tubes: ReadonlyMap<CircuitTube, Words | undefined>;
  readonly ends: ReadonlyMap<CircuitNode, Words | undefined>;
  readonly nodes: ReadonlyMap<CircuitNode, Words | undefined>;
}
/** All words of a circuit in lines no wider than so, but where a word is. */
export const toldWithin = ({ parts, tubes, nodes }: Circuit, wrapPx: number): Told => ({
  parts: new Map(parts.map((p) => [p, p.kind === "block" ? blockWords(p, wrapPx) : partWords(p, wrapPx)])),
  tubes: new Map(tubes.map((t) => [t, tubeWords(t, wrapPx)])),
  ends: new Map(nodes.map((n) => [n, endSays(n, wrapPx)])),
  nodes: new Map(nodes.map((n) => [n, nodeWords(n, wrapPx)])),
});
