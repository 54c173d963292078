import type { Circuit, CircuitNode, CircuitPart, CircuitTube } from "../../ask/drawn/circuit";
import { kills, voltsSaid } from "../../ask/drawn/volts";
import { upperFirst } from "../../units/sentence";
import { shown } from "./circuit-labels";

/** A circuit in words, a sentence for each part and place: for the terminal, and for who hears the page. */
const markSaid = { fit: "fit this", turn: "turn this", suspect: "suspected" } as const;
const endSaid = {
  chassis: "the chassis",
  "live-chassis": "the chassis, which is LIVE or counts as live",
  "b-minus": "B−, the common side, which is not the chassis",
  earth: "the protective earth of the house",
  terminal: "a terminal",
  onward: "what follows",
} as const;

/** What a node is called: its own name, what it ends in, or nothing where it is only a joint. */
const called = (n: CircuitNode): string => n.label ?? (n.end ? endSaid[n.end] : "");

/** What currents return to: a part that hangs between a nameless joint and it goes "to" it, and is not "at" it. */
const grounds: readonly (string | undefined)[] = ["chassis", "live-chassis", "b-minus", "earth"] satisfies (keyof typeof endSaid)[];
const isGround = (n: CircuitNode): boolean => n.label === undefined && grounds.includes(n.end);

/** A node, its volts, and that they kill. */
export function nodeSentence(n: CircuitNode): string {
  const volts = n.volts ? voltsSaid(n.volts) : [];
  const danger = n.volts !== undefined && kills(n.volts);
  return `${upperFirst(called(n) || "joint")}${volts.length > 0 ? `: ${volts.join(", ")}` : ""}${danger ? "; it kills" : ""}.`;
}

/** Names that a joint between parts stands for: it is told by its neighbours, so nothing is said of it. */
export function partSentence(p: CircuitPart, circuit: Circuit): string {
  const nodes = [p.from, p.to].map((id): CircuitNode => circuit.nodes.find((n) => n.id === id) ?? { id, at: [0, 0] });
  const ends = nodes.map(called).filter((t) => t !== "");
  const head = [p.name, shown(p)].filter((t) => t).join(" ");
  const where =
    ends.length === 2 ? `, from ${ends[0]} to ${ends[1]}` : ends.length === 1 ? `, ${nodes.some(isGround) ? "to" : "at"} ${ends[0]}` : "";
  const mark = p.mark ? ` (${markSaid[p.mark]})` : "";
  return `${upperFirst(p.what)}${head === "" ? "" : ` ${head}`}${mark}${where}${p.says ? `; ${p.says}` : ""}${p.braid ? `; its braid to ${endSaid[p.braid]}` : ""}.`;
}

export const tubeSentence = (t: CircuitTube): string =>
  `${t.name ? `${t.name}: ` : ""}${upperFirst(t.what)}${t.mark ? ` (${markSaid[t.mark]})` : ""}.`;

const hasAssumed = (c: Circuit): boolean => c.parts.some((p) => p.value?.assumed) || c.nodes.some((n) => n.volts?.assumed);

/** What stands below every drawing: what kills, and what the query sign means. */
export function circuitFoot(c: Circuit): { readonly danger?: string; readonly quiet?: string } {
  const live = (ac: boolean): string[] => c.nodes.filter((n) => n.volts && kills(n.volts) && (n.volts.ac ?? false) === ac).map(called);
  const named = (ac: boolean): string => [...new Set(live(ac).filter((t) => t !== ""))].join(", ");
  const [line, direct] = [named(true), named(false)];
  const chassis = c.nodes.some((n) => n.end === "live-chassis");
  const danger = [
    ...(line === "" ? [] : [`Kills while the plug is in: ${line}.`]),
    ...(direct === "" ? [] : [`Kills with the set on, and until it is discharged and MEASURED: ${direct}.`]),
    ...(chassis ? ["Treat the chassis as live: never earth it, connect nothing to it."] : []),
  ].join(" ");
  return {
    ...(danger === "" ? {} : { danger }),
    ...(hasAssumed(c) ? { quiet: "?: assumed, nobody has checked." } : {}),
  };
}

/** Every part in order of the drawing, then the places that have volts or end in something. */
export function circuitWords(c: Circuit): string[] {
  const foot = circuitFoot(c);
  return [
    ...(c.example ? ["EXAMPLE, not this set."] : []),
    ...c.tubes.map(tubeSentence),
    ...c.parts.filter((p) => p.kind !== "wire").map((p) => partSentence(p, c)),
    ...c.nodes.filter((n) => n.volts).map(nodeSentence),
    ...(foot.danger ? [foot.danger] : []),
    ...(foot.quiet ? [foot.quiet] : []),
  ];
}
