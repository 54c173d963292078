import { median } from "../../numerics/order";
import type { Frame } from "./frames";

/** A line of a frame's spectrum. */
export interface Peak {
  readonly bin: number;
  readonly hz: number;
  /** |X|^2 at its top, between the bins */
  readonly power: number;
  /** phase at the middle of the frame, rad */
  readonly phase: number;
  /** its power over the mean noise power of a bin beside it */
  readonly snr: number;
}
/** Bins to each side that the line of a steady tone takes, and as far as noise is looked at beside it. */
const lineBins = 3;
const besideBins = 37;

/**
 * Mean noise power of a bin beside a line: the median of the bins to both sides, so that other lines there count for little.
 *
 * @param clear bins to each side that are the line's own
 * @source power of noise in a bin is exponentially distributed: its median is ln 2 of its mean
 */
export function noiseBeside(power: Float64Array, bin: number, clear = lineBins): number {
  const beside: number[] = [];
  for (let d = clear + 1; d <= clear + besideBins; d++) {
    if (bin - d > 1) beside.push(power[bin - d]);
    if (bin + d < power.length) beside.push(power[bin + d]);
  }
  return beside.length > 0 ? median(beside) / Math.LN2 : 0;
}

/**
 * Where a line lies among three neighbouring bins, the middle one no less than the others, and its power at its top.
 *
 * @returns bins that it lies off the middle one, -0.5 to 0.5, and |X|^2 there
 * @source a tone d bins off a bin shows there sinc(d)/(1 - d^2) of itself through Hann's window, and (2 a - 1)/(1 + a) is d where a is the larger neighbour
 * over the bin, textbook
 */
export function topOf(below: number, middle: number, above: number): { readonly off: number; readonly power: number } {
  const a = Math.sqrt(Math.max(below, above) / Math.max(1e-60, middle));
  const off = Math.max(0, Math.min(0.5, (2 * a - 1) / (1 + a)));
  const seen = off < 1e-6 ? 1 : Math.sin(Math.PI * off) / (Math.PI * off) / (1 - off * off);
  return { off: above > below ? off : -off, power: middle / (seen * seen) };
}
/**
 * The line at a bin that is no less than its neighbours.
 *
 * @source topOf; the phase of a line at the middle of a frame with a symmetric window is that of its tone
 */
export function peakAt({ power, complex, binHz }: Frame, bin: number): Peak {
  const { off, power: top } = topOf(power[bin - 1] ?? 0, power[bin], power[bin + 1] ?? 0);
  return {
    bin,
    hz: (bin + off) * binHz,
    power: top,
    phase: Math.atan2(complex[2 * bin + 1], complex[2 * bin]) + Math.PI * bin,
    snr: top / Math.max(1e-30, noiseBeside(power, bin)),
  };
}

/**
 * The strongest bin of a range, by a weight where one is given; at least 2.
 *
 * @source definition
 */
export function strongestBin(power: Float64Array, from: number, to: number, weight?: (bin: number) => number): number {
  let best = Math.max(2, from);
  let most = -1;
  for (let k = best; k <= Math.min(power.length - 2, to); k++) {
    const v = weight ? power[k] * weight(k) : power[k];
    if (v <= most) continue;
    most = v;
    best = k;
  }
  return best;
}
