import type { DraftingOf } from "../../ask/declare";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { bPlusMost } from "../../ask/drawn/volts";
import { jointAtThePlate } from "../inputs/drawn-joint";
import type { ask, G } from "./ask";

/**
 * The cable on the plate, and what can be turned to tune it out: the can's slug where it reaches, the coil in the accessory else.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns the circuit
 * @source solveCable
 */
export function drawingOf(g: G, draft: DraftingOf<typeof ask>): CircuitSketch {
  const coil = draft.result("compensatingInductance");
  const cable = draft.result("cableCapacitance");
  const slugReaches = g.verdict((_, y) => y.slugMargin > 0) === "yes";
  const sketch = jointAtThePlate(draft, {
    id: "cable",
    bPlus: bPlusMost(g.rating),
    ...(slugReaches ? { primary: { mark: "turn", says: "its slug reaches" } } : {}),
    series: {},
    accessory: [
      {
        kind: "slug-coil",
        from: "connector",
        to: "far",
        what: "coil in the accessory",
        ...(coil ? { value: coil } : {}),
        ...(slugReaches ? {} : { mark: "fit" }),
      },
    ],
  });
  return { ...sketch, parts: sketch.parts.map((p) => (p.kind === "cable" && cable ? { ...p, says: cable.text } : p)) };
}
