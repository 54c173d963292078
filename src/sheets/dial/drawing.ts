import type { Sketch } from "../../ask/drawn/pictures";
import { orThrow } from "../../units/issue";
import { mhz } from "../inputs/dial-figures";
import { dialOf } from "../inputs/dial-law";
import { faceOf } from "../inputs/drawn-dial";
import type { G } from "./ask";

/**
 * The dial by its law, its pointer on the frequency asked about.
 *
 * @param g what the answer stands on
 * @returns the dial
 * @source infer/dial
 */
export function drawingOf(g: G): Sketch {
  const { fit } = orThrow(dialOf(g.best));
  const { value, low, high } = g.figures.reading;
  return {
    ...faceOf(fit),
    id: "dial",
    title: "This dial, by its zero beats",
    ...(value === null || low === null || high === null
      ? {}
      : {
          pointer: { at: value, half: (high - low) / 2, says: `${mhz(g.best.where)} is at ${Number(value.toFixed(2))} on the scale` },
        }),
  };
}
