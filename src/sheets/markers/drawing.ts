import type { DraftingOf } from "../../ask/declare";
import { ladder } from "../../ask/drawn/ladder";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import type { ask, G } from "./ask";

/**
 * The marker's coupling at the antenna terminal.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns the circuit
 * @source markerSolver
 */
export function drawingOf(g: G, draft: DraftingOf<typeof ask>): CircuitSketch {
  const x = g.best;
  const { value } = draft;
  const suits = g.verdict((i, y) => i.markerCoupling >= y.smallestCoupling && i.markerCoupling <= y.largestCoupling) === "yes";
  return ladder({ id: "coupling", title: "The marker generator at the antenna terminal", common: draft.common }, [
    {
      label: "marker generator",
      end: "terminal",
      // a swing from foot to top, told as what a meter that follows it would peak at
      volts: { ...draft.expect("amplitude"), ac: true },
    },
    { series: { kind: "resistor", what: "its own resistance", value: value("sourceResistance") } },
    {
      series: {
        kind: "capacitor",
        what: "coupling",
        value: value("markerCoupling"),
        says: `${g.about("smallestCoupling")} to ${g.about("largestCoupling")} suits`,
        mark: suits ? undefined : "fit",
      },
      label: "antenna terminal",
      volts: { ...draft.expect("levelHighest"), ac: true },
      down: [
        ...(x.antenna === "connected" ? [[{ kind: "resistor", what: "the antenna", value: value("antennaResistance") } as const]] : []),
        [{ kind: "resistor", what: "the set's input", value: value("inputResistance") }],
        [{ kind: "capacitor", what: "strays and input", value: value("inputCapacitance") }],
      ],
    },
  ]);
}
