import type { DraftingOf } from "../../ask/declare";
import type { Volts } from "../../ask/drawn/circuit";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { filterDrawing } from "../inputs/drawn-filter";
import type { ask, G } from "./ask";
import { isFed, tapNode } from "./solve";

/**
 * The filter of B+ with what is expected at the accessory's tap, all warm and plugged in.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns the circuit
 * @source solve
 */
export function drawingOf(g: G, draft: DraftingOf<typeof ask>): CircuitSketch {
  const x = g.best;
  const most = g.figures.noLoad.high ?? undefined;
  const fed = isFed(x);
  const at = (node: 0 | 1 | 2): Volts => ({
    ...(fed && tapNode(x) === node ? draft.expect("with") : {}),
    ...(most === undefined ? {} : { most }),
    ...(fed && tapNode(x) === node && x.tapWith !== undefined ? { read: x.tapWith } : {}),
  });
  return filterDrawing(draft, x, {
    id: "tap",
    title: "Where the accessory is fed from",
    volts: { ...(x.filterInput === "choke" ? {} : { first: at(0) }), second: at(1), third: at(2) },
  });
}
