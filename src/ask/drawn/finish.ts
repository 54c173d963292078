import { symbolSets } from "../../standards/symbols";
import { isLiveSet, isSafeToJoin } from "../chassis";
import type { Concluding } from "../conclude";
import { SheetMistake } from "../run";
import type { CircuitPart, CircuitTube, Mark } from "./circuit";
import { draftingOf, isNoSet } from "./drafting";
import type { CircuitSketch, Picture } from "./pictures";

/** What is wrong with a circuit as it is declared: a node that is none, a frame or an earth where the chassis is live. */
function mistakeIn(s: CircuitSketch, live: boolean): string | undefined {
  const ids = new Set(s.nodes.map((n) => n.id));
  const named = [
    ...s.parts.flatMap((p) => [p.from, p.to]),
    ...s.tubes.flatMap((t) => [t.plate, t.grid, t.cathode, ...(t.screen ? [t.screen] : [])]),
  ];
  const lost = named.find((id) => !ids.has(id));
  if (lost !== undefined) return `no node ${lost}`;
  if (ids.size < s.nodes.length) return "two nodes of one name";
  return live && s.nodes.some((n) => n.end === "chassis" || n.end === "earth")
    ? "a live chassis drawn as an isolated one, or as earth"
    : undefined;
}
/** Without what tells hands to do something; of an example without suspects too. */
function orderless(s: CircuitSketch, keeps: readonly Mark[]): CircuitSketch {
  const own = <P extends CircuitPart | CircuitTube>(p: P): P => ({ ...p, mark: keeps.find((m) => m === p.mark) });
  return { ...s, parts: s.parts.map(own), tubes: s.tubes.map(own) };
}

/**
 * The pictures of an answer: in the symbols that the job asks for, marked as an example where nothing in them is this set's. An example, and a chassis
 * that is live or not proved, tell nobody to fit or turn anything.
 *
 * @param from the sheet with its inputs and results
 * @returns pictures; none where the sheet draws nothing
 * @throws {SheetMistake} where a circuit names no node of its own, or draws a live chassis as another
 * @source house frame
 */
export function picturesOf(from: Concluding): Picture[] {
  const { sheet, bench, inputs, ground } = from;
  const sketches = sheet.drawing?.(ground, draftingOf(from)) ?? [];
  const chassis = String(inputs.plain.chassis ?? bench.choice("chassis") ?? "unstated");
  const symbols = symbolSets.find((s) => s === bench.choice("place.symbols")) ?? symbolSets[0];
  const unread = from.unread.length > 0 || isNoSet(bench);
  return sketches.map((s): Picture => {
    if (s.kind !== "circuit") return { ...s, example: unread };
    const mistake = mistakeIn(s, isLiveSet(chassis));
    if (mistake !== undefined) throw new SheetMistake(`sheet ${sheet.id}, drawing ${s.id}: ${mistake}`);
    const said = [...s.parts.flatMap((p) => (p.value ? [p.value] : [])), ...s.nodes.flatMap((n) => (n.volts ? [n.volts] : []))];
    const example = unread || (said.length > 0 && said.every((v) => v.assumed));
    const marked = example ? orderless(s, []) : isSafeToJoin(chassis) ? s : orderless(s, ["suspect"]);
    return { ...marked, symbols, example };
  });
}
