import type { DraftingOf, GroundOf } from "../../ask/declare";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { bPlusMost } from "../../ask/drawn/volts";
import { printValue } from "../../units/print";
import { canDrawing } from "../inputs/drawn-can";
import type { ask } from "./ask";
import { couplingOf, loadFor } from "./solve";

/**
 * The can that takes a resistor while it is aligned, else the one that is aligned first: the last of the strip.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns the circuit
 * @source procedure
 */
export function drawingOf(g: GroundOf<typeof ask>, draft: DraftingOf<typeof ask>): CircuitSketch {
  const { strip } = g.best;
  const f = strip.intermediateFrequency;
  const over = strip.cans.map((can) => couplingOf(can, f).a > 1.1).lastIndexOf(true);
  const number = (over >= 0 ? over : strip.cans.length - 1) + 1;
  const can = strip.cans[number - 1];
  return canDrawing(draft, {
    id: "can",
    number,
    title: over >= 0 ? `Can ${number}: its coupling asks for a resistor` : `Can ${number}, aligned first`,
    bPlus: bPlusMost(g.rating),
    says: `to ${g.about("centreToUse")}`,
    mark: "turn",
    across: over >= 0 && can ? { text: printValue(loadFor(can, f), "resistance", 1000) } : undefined,
  });
}
