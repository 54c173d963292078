import type { DraftingOf } from "../../ask/declare";
import { ladder } from "../../ask/drawn/ladder";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import type { ask, G } from "./ask";

/**
 * The coil with what tunes it.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns the circuit
 * @source physics/inductance.ts
 */
export function drawingOf(g: G, draft: DraftingOf<typeof ask>): CircuitSketch {
  const far = g.verdict((_, y) => Math.abs(y.offBy) > 0.02) !== "no";
  return ladder({ id: "coil", title: "The coil with what tunes it", common: draft.common }, [
    { label: "hot end", end: "onward" },
    {
      down: [
        [
          {
            kind: "coil",
            what: `${draft.value("turns")?.text ?? ""} turns`,
            value: draft.result("inductance"),
            says: far ? `${g.about("wanted")} takes ${g.about("turnsWanted")} turns` : undefined,
            mark: far ? "fit" : undefined,
          },
        ],
        [{ kind: "capacitor", what: "across it", value: draft.value("capacitance") }],
        [{ kind: "capacitor", what: "of the coil itself", value: draft.value("selfCapacitance") }],
      ],
    },
  ]);
}
