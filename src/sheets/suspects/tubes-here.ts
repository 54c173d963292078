import { onceFor } from "../../numerics/once";
import type { Node } from "../../physics/tube-stage";
import { stages } from "../../set/addresses/stages";
import type { Bench } from "../../set/bench";
import type { FromCard } from "../../set/columns";
import { socketName, socketNumber } from "../../set/sockets";
import { tubeClassOf } from "../../standards/receiving-tubes";
import { type ChartRow, chartOnCard, chartRow } from "../inputs/chart";

/** The choices of the question: tube, its type, the meters. */
export type Chosen = Readonly<Record<string, string>>;
/** One amplifying tube of a stage, or one half of a double one, with its own rows of the chart. */
export interface StageTube {
  readonly socket: string;
  readonly type: string;
  readonly function: string;
  readonly rows: readonly ChartRow[];
}
const tubeOrder = stages.tube.options;
const words: Readonly<Partial<Record<ChartRow["electrode"], Node>>> = {
  "B+": "supply",
  plate: "plate",
  screen: "screen",
  cathode: "cathode",
  grid: "grid",
};
export const nodeOf = (r: ChartRow): Node | undefined => words[r.electrode];

/** The rows of the voltage chart's card, read once a set. */
export const cardOf = onceFor(chartOnCard);
/** Cells of the card that can't be read, told with the rows. */
export const unreadOfCard = (bench: Bench): FromCard["unread"] => cardOf(bench).unread;

/** Rows of one socket as the halves of a double tube, where an electrode stands on two pins of it: the lower pins are the first half. */
function halvesOf(rows: readonly ChartRow[]): readonly (readonly ChartRow[])[] {
  const pinsOf = (r: ChartRow): number[] =>
    [...new Set(rows.filter((o) => o.electrode === r.electrode).map((o) => o.pin ?? Number.NaN))].sort((a, b) => a - b);
  const own = rows.filter((r) => nodeOf(r) !== undefined && r.electrode !== "B+");
  const two = own.some((r) => pinsOf(r).filter((p) => !Number.isNaN(p)).length > 1);
  if (!two) return [rows];
  const halfOf = (r: ChartRow): number => Math.min(1, Math.max(0, pinsOf(r).indexOf(r.pin ?? Number.NaN)));
  // what both halves share, such as one cathode pin or B+, belongs to each
  return [0, 1].map((half) => rows.filter((r) => pinsOf(r).length < 2 || halfOf(r) === half));
}

/**
 * The amplifying tubes of the stage that the sheet is about, each by itself: a double tube's halves are two, and no readings merge.
 *
 * @param bench the set, at the stage
 * @returns tubes in the order of the set's list; diodes and converters, which are no resting stage, are left out
 * @source house frame
 */
export function tubesAt(bench: Bench): StageTube[] {
  const rows = cardOf(bench).rows.map(chartRow);
  return bench
    .tubes()
    .filter((t) => `stages.${t.stage}` === bench.at && !["double diode", "converter"].includes(tubeClassOf(t.type) ?? ""))
    .flatMap((t) => {
      const socket = socketNumber(t.socket);
      const tube = { socket: t.socket, type: t.type, function: t.function };
      const halves = [...new Set(rows.map((r) => r.socket))].filter(
        (s): s is number => s !== undefined && socket !== undefined && s !== socket && Math.floor(s) === socket,
      );
      if (halves.length > 0)
        return halves.sort().map((s) => ({ ...tube, socket: socketName(s), rows: rows.filter((r) => r.socket === s) }));
      const split = halvesOf(rows.filter((r) => socket !== undefined && r.socket === socket));
      return split.map((own, i) => ({ ...tube, socket: split.length > 1 ? `${t.socket}${"ab"[i]}` : t.socket, rows: own }));
    });
}
/**
 * The tube that the sheet is about: the one chosen, else the first that was read, else the first.
 *
 * @param bench the set, at the stage
 * @param chosen the sheet's choices
 * @returns the tube; undefined where the stage has none
 * @source house frame
 */
export function tubeHere(bench: Bench, chosen: Chosen): StageTube | undefined {
  const all = tubesAt(bench);
  const k = tubeOrder.findIndex((o) => o === (bench.choice(`${bench.at}.tube`) ?? chosen.tube));
  return all[Math.max(0, k)];
}
export const firstRead = (bench: Bench): (typeof tubeOrder)[number] | undefined => {
  const k = tubesAt(bench).findIndex((t) => t.rows.some((r) => r.measured !== undefined));
  return k > 0 ? tubeOrder[k] : undefined;
};
