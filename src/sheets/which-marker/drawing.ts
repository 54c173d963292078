import type { GroundOf } from "../../ask/declare";
import type { Sketch } from "../../ask/drawn/pictures";
import { mhz } from "../inputs/dial-figures";
import type { ask } from "./ask";

/**
 * The dial about its reading, with the markers beside it.
 *
 * @param g what the answer stands on
 * @returns the dial
 * @source nearestMarker
 */
export function drawingOf(g: GroundOf<typeof ask>): Sketch {
  const { dialFrequency: at, spacing, dialError } = g.best;
  const marker = g.figures.marker;
  const { low, high } = marker;
  const half = low === null || high === null ? spacing / 2 : Math.max(spacing / 2, (high - low) / 2);
  const reach = Math.max(2.4 * spacing, 1.2 * half);
  const own = at - dialError;
  const marks = [];
  const step = Math.max(1, Math.round(reach / spacing / 3)) * spacing;
  for (let k = Math.ceil((own - reach) / step); k * step <= own + reach; k++)
    marks.push({ at: k * step, text: String(Number(((k * step) / 1e6).toFixed(4))) });
  return {
    kind: "dial",
    id: "beside",
    title: "The dial, and the markers beside its reading",
    scale: { from: own - reach, to: own + reach, says: "MHz, with its markers" },
    marks,
    beats: [],
    edges: [],
    pointer: {
      at: own,
      half: low === null || high === null ? 0 : (high - low) / 2,
      says: `the dial says ${mhz(at)}${marker.value === null ? "" : `; the marker is ${mhz(marker.value)}`}`,
    },
  };
}
