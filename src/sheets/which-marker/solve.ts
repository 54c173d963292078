import type { Asked } from "./ask";

/** Marker next to a frequency. */
export const nearestMarker = (hz: number, spacing: number): number => Math.round(hz / spacing) * spacing;

/**
 * Which marker is next to where the set really is: the dial's reading less its error, to the nearest multiple of the spacing. The interval of
 * `marker` over the draws shows which neighbours are possible.
 *
 * @param x plain inputs, Hz; dialError drawn about its best value
 * @returns markers and distances, Hz
 * @source identity
 */
export function solveWhich(x: Asked) {
  const at = x.dialFrequency - x.dialError;
  const marker = nearestMarker(at, x.spacing);
  const counted = x.anchor + Math.round(x.counted) * x.spacing;
  return {
    marker,
    atDial: nearestMarker(x.dialFrequency, x.spacing),
    offBy: x.dialFrequency - marker,
    halfSpacing: x.spacing / 2,
    coarse5: nearestMarker(at, 5 * x.spacing),
    coarse10: nearestMarker(at, 10 * x.spacing),
    byCount: counted,
    countAgrees: counted - marker,
  };
}
