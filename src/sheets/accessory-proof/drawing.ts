import type { DraftingOf } from "../../ask/declare";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { bPlusMost } from "../../ask/drawn/volts";
import { leadDrawing } from "../inputs/drawn-accessory";
import type { ask, G } from "./ask";

/**
 * The accessory's lead with the volts that were read at its connector.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns the circuit
 * @source readings
 */
export function drawingOf(g: G, draft: DraftingOf<typeof ask>): CircuitSketch {
  const { kind, connectorRead } = g.best;
  const atAntenna = kind === "marker-generator" || kind === "converter";
  return leadDrawing(draft, {
    id: "lead",
    ...(atAntenna ? {} : { bPlus: bPlusMost(g.rating) }),
    ...(connectorRead === undefined ? {} : { connector: { read: connectorRead } }),
  });
}
