import type { DraftingOf } from "../../ask/declare";
import type { CircuitPart } from "../../ask/drawn/circuit";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { bPlusMost } from "../../ask/drawn/volts";
import { jointAtThePlate } from "../inputs/drawn-joint";
import type { ask, G } from "./ask";

/**
 * What is turned: the cable's coil and the tank on the mixer plate.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns the circuit
 * @source centreSolver
 */
export function drawingOf(g: G, draft: DraftingOf<typeof ask>): CircuitSketch {
  const tank = draft.value("tankCapacitance");
  const accessory: readonly CircuitPart[] = [
    { kind: "slug-coil", from: "connector", to: "far", what: "coil for the cable", mark: "turn" },
    { kind: "wire", what: "", from: "connector", to: "top" },
    { kind: "tank", from: "top", to: "foot", what: "its tank", ...(tank ? { value: tank } : {}), mark: "turn" },
  ];
  return jointAtThePlate(draft, {
    id: "centre",
    bPlus: bPlusMost(g.rating),
    series: {},
    accessory,
    more: [
      { id: "top", at: [4, 1], narrow: [3, 4] },
      { id: "foot", at: [4, 3], narrow: [3, 5], end: draft.common },
    ],
  });
}
