import type { DraftingOf } from "../../ask/declare";
import { ladder } from "../../ask/drawn/ladder";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { tubeOfKind } from "../inputs/drawn-chart";
import type { ask, G } from "./ask";

/**
 * The oscillator's tuned circuit, and the capacitor that stops its drift.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns the circuit
 * @source physics/temperature.ts
 */
export function drawingOf(_: G, draft: DraftingOf<typeof ask>): CircuitSketch {
  const { value } = draft;
  const needed = draft.result("needed");
  const tube = tubeOfKind(draft.bench, "oscillator") ?? tubeOfKind(draft.bench, "mixer");
  return ladder({ id: "compensator", title: "The oscillator's tuned circuit, and what warms with it", common: draft.common }, [
    { label: tube ? `to ${tube.socket}, oscillator` : "oscillator", end: "onward" },
    {
      down: [
        [{ kind: "slug-coil", what: "coil", says: `${value("coilCoefficient")?.text ?? "?"} per kelvin` }],
        [{ kind: "variable-capacitor", what: "gang, as it is set", value: value("gangNow") }],
        [{ kind: "capacitor", what: "fixed", value: value("fixedCapacitance") }],
        ...(needed
          ? [
              [
                {
                  kind: "capacitor",
                  what: "compensator, replacing as much",
                  value: needed,
                  says: `${value("compensator")?.text ?? ""} per kelvin`,
                  mark: "fit",
                } as const,
              ],
            ]
          : []),
      ],
    },
  ]);
}
