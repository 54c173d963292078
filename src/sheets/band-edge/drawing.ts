import type { DialFace } from "../../ask/drawn/dial-face";
import type { Sketch } from "../../ask/drawn/pictures";
import { orThrow } from "../../units/issue";
import { mhz } from "../inputs/dial-figures";
import { dialOf } from "../inputs/dial-law";
import { faceOf } from "../inputs/drawn-dial";
import type { G } from "./ask";

const short = (v: number): string => String(Number(v.toFixed(2)));

/**
 * The dial with the edges of the band, and the window of settings that are certain to be inside.
 *
 * @param g what the answer stands on
 * @returns the dial
 * @source safeReading
 */
export function drawingOf(g: G): Sketch {
  const { fit } = orThrow(dialOf(g.best));
  const face = faceOf(fit);
  const { carrierLow, carrierHigh, lowEdgeAt, highEdgeAt, lowEdgeHz, highEdgeHz } = g.figures;
  const edge = (at: number | null, hz: number | null, name: string): DialFace["edges"] =>
    at === null || hz === null ? [] : [{ at, says: `${name} edge, ${mhz(hz)}, at ${short(at)}` }];
  const [from, to] = [carrierLow.value, carrierHigh.value];
  // an edge beyond the zero beats leaves the window open on that side
  const [a, b] = [from ?? face.scale.from, to ?? face.scale.to];
  const [low, high] = [Math.min(a, b), Math.max(a, b)];
  const known = from !== null || to !== null;
  return {
    ...face,
    id: "window",
    title: "Where the carrier is certain to be inside the band",
    edges: [...edge(lowEdgeAt.value, lowEdgeHz.value, "lower"), ...edge(highEdgeAt.value, highEdgeHz.value, "upper")],
    ...(known
      ? { window: { from: low, to: high, says: `carrier certain to be inside: ${short(low)} to ${short(high)} on the scale` } }
      : {}),
  };
}
