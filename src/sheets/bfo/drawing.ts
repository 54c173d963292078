import type { DraftingOf, GroundOf } from "../../ask/declare";
import { ladder } from "../../ask/drawn/ladder";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { tubeOfKind } from "../inputs/drawn-chart";
import type { ask } from "./ask";

/**
 * The BFO with its pitch capacitor, coupled to the detector, and the volts of both there.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns the circuit
 * @source bfo/solve.ts
 */
export function drawingOf(g: GroundOf<typeof ask>, draft: DraftingOf<typeof ask>): CircuitSketch {
  const x = g.best;
  const tube = tubeOfKind(draft.bench, "bfo");
  const weak = g.verdict((_, y) => y.injection < 1) === "yes";
  const signal = draft.value("signalVolts");
  return ladder({ id: "bfo", title: "The BFO at the detector", common: draft.common }, [
    {
      label: tube ? `BFO, ${tube.socket}` : "BFO",
      end: "onward",
    },
    {
      down: [
        [
          {
            kind: "slug-coil",
            what: "BFO coil",
            says: `${g.about("lowerAt")} and ${g.about("upperAt")} for the sidebands`,
            mark: "turn",
          },
        ],
        [{ kind: "variable-capacitor", what: "pitch", says: `±${draft.value("bfoRange")?.text ?? ""}` }],
      ],
    },
    {
      series: { kind: "capacitor", what: "coupling", mark: weak ? "suspect" : undefined },
      label: "detector",
      volts: { ...draft.expect("bfoVolts"), ac: true },
      down: [[{ kind: "block", what: `${x.cwDetector} detector`, says: signal && `signal ${signal.text}${signal.assumed ? "?" : ""}` }]],
    },
  ]);
}
