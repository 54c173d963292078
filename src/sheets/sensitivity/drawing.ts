import type { DraftingOf, GroundOf } from "../../ask/declare";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { generatorDrawing } from "../inputs/drawn-generator";
import type { ask } from "./ask";

/**
 * The generator at the antenna terminal, through what stands for the antenna.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns the circuit
 * @source definitions of sensitivity
 */
export function drawingOf(g: GroundOf<typeof ask>, draft: DraftingOf<typeof ask>): CircuitSketch {
  const x = g.best;
  const level = x.level > 0 ? draft.value("level") : undefined;
  return generatorDrawing(draft, {
    id: "level",
    title: "The generator at the antenna terminal",
    through: {
      kind: "resistor",
      what: "in place of the antenna, generator included",
      value: x.sourceResistance > 0 ? draft.value("sourceResistance") : undefined,
      says: level && `level ${level.text}${level.assumed ? "?" : ""}`,
    },
    at: "antenna terminal",
    behind: {
      series: { kind: "block", what: "the set", says: `${g.about("receiverNoise")} noise figure` },
      label: "loudspeaker or its load",
      end: "onward",
    },
  });
}
