import type { DraftingOf } from "../../ask/declare";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { bPlusMost } from "../../ask/drawn/volts";
import { canDrawing } from "../inputs/drawn-can";
import type { ask, G } from "./ask";

/**
 * The first can, where a sweep goes in and where accessories hang.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns the circuit
 * @source the strip as described
 */
export const drawingOf = (g: G, draft: DraftingOf<typeof ask>): CircuitSketch =>
  canDrawing(draft, { id: "can", number: 1, title: "The first can, where the sweep goes in", bPlus: bPlusMost(g.rating) });
