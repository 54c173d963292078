import type { DraftingOf } from "../../ask/declare";
import { ladder } from "../../ask/drawn/ladder";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { printValue } from "../../units/print";
import type { ask, G } from "./ask";

/**
 * What is turned in a converter: its input circuits, the crystal's trimmer; and where a pad goes.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns the circuit
 * @source house frame
 */
export function drawingOf(g: G, draft: DraftingOf<typeof ask>): CircuitSketch {
  const change = g.figures.trimmerChange.value;
  const by =
    change === null ? "hear a signal first" : `${printValue(Math.abs(change), "capacitance", 0.1e-12)} ${change > 0 ? "more" : "less"}`;
  const pad = g.figures.toTakeOff.value;
  const inputs = Math.max(1, Math.min(3, Math.round(g.best.inputCircuits)));
  return ladder({ id: "setting", title: "What you turn in the converter", common: draft.common }, [
    { label: "antenna", end: "terminal" },
    {
      series: { kind: "capacitor", what: "in, or a link" },
      down: Array.from({ length: inputs }, () => [{ kind: "tank", what: "input", value: draft.result("peakAt"), mark: "turn" } as const]),
    },
    {
      series: { kind: "block", what: "mixer", says: "and its oscillator" },
      down: [
        [{ kind: "crystal", what: "crystal", value: draft.value("crystal") }],
        [{ kind: "trimmer", what: "trimmer", says: by, mark: "turn" }],
      ],
    },
    {
      series: pad === null ? { kind: "cable", what: "cable", braid: draft.common } : { kind: "block", what: "pad", says: "and cable" },
      label: "receiver's antenna terminal",
    },
    { series: { kind: "block", what: "receiver" }, end: "onward" },
  ]);
}
