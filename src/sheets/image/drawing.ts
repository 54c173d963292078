import type { DraftingOf } from "../../ask/declare";
import { ladder } from "../../ask/drawn/ladder";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { tubeOfKind } from "../inputs/drawn-chart";
import type { ask, G } from "./ask";

/**
 * The tuned circuits before the mixer, which alone keep the image out.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns the circuit
 * @source physics/images.ts
 */
export function drawingOf(g: G, draft: DraftingOf<typeof ask>): CircuitSketch {
  const count = Math.max(1, Math.min(4, Math.round(g.best.circuits)));
  const q = draft.value("signalQ");
  const [mixer, rf] = [tubeOfKind(draft.bench, "mixer"), tubeOfKind(draft.bench, "rf")];
  const says = q && `Q ${q.text}${q.assumed ? "?" : ""}`;
  const tanks = Array.from({ length: count }, (_, i) => ({
    series:
      i === 0
        ? ({ kind: "wire", what: "wire" } as const)
        : i === 1 && rf
          ? ({ kind: "block", what: rf.socket, says: "RF stage" } as const)
          : ({ kind: "capacitor", what: "coupling" } as const),
    down: [[{ kind: "tank", what: `circuit ${i + 1}`, value: draft.value("signal"), says, mark: "turn" } as const]],
  }));
  return ladder({ id: "front", title: "The tuned circuits before the mixer", common: draft.common }, [
    { label: "antenna", end: "terminal" },
    ...tanks,
    {
      series: { kind: "block", what: mixer?.socket ?? "mixer", says: mixer ? "mixer" : undefined },
      label: `image ${g.about("imageRejection")} down`,
      end: "onward",
    },
  ]);
}
