import type { DraftingOf } from "../../ask/declare";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { filterDrawing } from "../inputs/drawn-filter";
import type { ask, G } from "./ask";

/**
 * The filter with what is expected on each of its capacitors, and what was read.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns the circuit
 * @source solveSupply
 */
export function drawingOf(g: G, draft: DraftingOf<typeof ask>): CircuitSketch {
  const x = g.best;
  const most = g.figures.noLoad.high ?? undefined;
  const read = x.measuredFirst;
  const node = (name: "bPlusFirst" | "bPlusSecond" | "bPlusThird") => ({ ...draft.expect(name), ...(most === undefined ? {} : { most }) });
  const first = { ...node("bPlusFirst"), ...(read === undefined ? {} : { read }) };
  const over = g.verdict((i, y) => y.noLoad > i.capacitorRating) !== "no";
  const mark = over ? ({ mark: "suspect", says: `rated ${draft.value("capacitorRating")?.text ?? "too low"}` } as const) : {};
  const choke = x.filterInput === "choke";
  return filterDrawing(draft, x, {
    id: "filter",
    title: "The filter of B+",
    volts: { ...(choke ? {} : { first }), second: choke ? first : node("bPlusSecond"), third: node("bPlusThird") },
    first: mark,
    second: mark,
    third: mark,
  });
}
