import type { DraftingOf } from "../../ask/declare";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { generatorDrawing } from "../inputs/drawn-generator";
import type { ask, G } from "./ask";

/**
 * The generator at the antenna terminal, and the meter that is read.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns the circuit
 * @source IARU: S9 is 50 µV in 50 Ω; the way it is done: common practice, no source
 */
export const drawingOf = (g: G, draft: DraftingOf<typeof ask>): CircuitSketch =>
  generatorDrawing(draft, {
    id: "s-meter",
    title: "The generator at the antenna terminal, and the meter",
    through: { kind: "resistor", what: "generator's own resistance, or a pad", value: { text: "50 Ω" } },
    at: "antenna terminal",
    behind: {
      series: { kind: "block", what: "the set, AVC on" },
      down: [
        [
          {
            kind: "meter",
            what: "S meter",
            says: g.figures.s9Level.low === null ? "does not reach S9" : `S9 at ${g.about("s9Level")}`,
            mark: "turn",
          },
        ],
      ],
    },
  });
