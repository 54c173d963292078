import type { DraftingOf } from "../../ask/declare";
import type { CircuitPart } from "../../ask/drawn/circuit";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { bPlusMost } from "../../ask/drawn/volts";
import { jointAtThePlate } from "../inputs/drawn-joint";
import type { ask, G } from "./ask";

/**
 * The accessory on the mixer plate: its cable's coil, its tank, and the resistance that sets regeneration.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns the circuit
 * @source multiplierSolver
 */
export function drawingOf(g: G, draft: DraftingOf<typeof ask>): CircuitSketch {
  const [tank, series] = [draft.value("tankCapacitance"), draft.result("seriesResistance")];
  const peak = g.best.function === "peak";
  const own: readonly CircuitPart[] = [
    { kind: "slug-coil", from: "connector", to: "far", what: "coil for the cable", mark: "turn" },
    { kind: "wire", from: "connector", to: "top" },
    { kind: "tank", from: "top", to: "foot", what: "its tank", ...(tank ? { value: tank } : {}), mark: "turn" },
    ...(peak
      ? [
          { kind: "rheostat", from: "top", to: "tube", what: "regeneration", ...(series ? { value: series } : {}), mark: "turn" } as const,
          { kind: "block", from: "tube", to: "back", what: "feedback tube" } as const,
        ]
      : []),
  ].map((p) => ({ what: "", ...p }) as CircuitPart);
  return jointAtThePlate(draft, {
    id: "multiplier",
    bPlus: bPlusMost(g.rating),
    series: {},
    accessory: own,
    more: [
      { id: "top", at: [4, 1], narrow: [3, 4] },
      { id: "foot", at: [4, 3], narrow: [3, 5], end: draft.common },
      ...(peak
        ? [{ id: "tube", at: [5, 1], narrow: [4, 4] } as const, { id: "back", at: [5, 3], narrow: [4, 5], end: draft.common } as const]
        : []),
    ],
  });
}
