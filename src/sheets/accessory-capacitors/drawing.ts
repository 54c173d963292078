import type { DraftingOf } from "../../ask/declare";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { bPlusMost } from "../../ask/drawn/volts";
import { leadDrawing } from "../inputs/drawn-accessory";
import type { ask, G } from "./ask";
import { decideOwn, hasSeries, seriesDuty } from "./solve";

/**
 * The accessory's lead with the capacitor that keeps B+ off it, and what is to be done with that.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns the circuit
 * @source decideOwn
 */
export function drawingOf(g: G, draft: DraftingOf<typeof ask>): CircuitSketch {
  const x = g.best;
  const onBPlus = x.hangsOn === "a B+ point" || hasSeries(x);
  const series = decideOwn(x).find((c) => c.duty === seriesDuty);
  const doubted = series !== undefined && series.decision !== "sound";
  return leadDrawing(draft, {
    id: "lead",
    ...(onBPlus ? { bPlus: bPlusMost(g.rating) } : {}),
    series: doubted ? { mark: "suspect", says: series.decision } : {},
  });
}
