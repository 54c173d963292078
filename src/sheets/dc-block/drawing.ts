import type { DraftingOf } from "../../ask/declare";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { bPlusMost } from "../../ask/drawn/volts";
import { jointAtThePlate } from "../inputs/drawn-joint";
import type { ask, G } from "./ask";

/**
 * The capacitor at the plate pin, and what stands on the connector where it fails.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns the circuit
 * @source solveBlock
 */
export function drawingOf(g: G, draft: DraftingOf<typeof ask>): CircuitSketch {
  const [fit, bleeder, shorted] = [draft.result("preferredCapacitance"), draft.value("bleederResistance"), g.figures.connectorShorted.high];
  return jointAtThePlate(draft, {
    id: "block",
    bPlus: { ...bPlusMost(g.rating), most: g.figures.noLoadBPlus.high ?? g.rating.crestV },
    series: { ...(fit ? { value: fit } : {}), says: `rated ${g.about("preferredRating")}, at the pin`, mark: "fit" },
    ...(bleeder ? { bleeder } : {}),
    connector: { label: "connector (capacitor shorted)", ...(shorted === null ? {} : { volts: { most: shorted } }) },
    accessory: [{ kind: "block", from: "connector", to: "far", what: "accessory" }],
  });
}
