import { notReached, orNone } from "../../ask/axes";
import { type StripModel, StripResponse } from "../../physics/if-strip";
import { amAudioBandwidthHz, crossingHz, noiseBandwidthHz, peakOf, rejectionDb, widthHz } from "../../physics/passband";

const r = new StripResponse();
const hints = [0];

/**
 * What a strip passes. Widths are between the outermost crossings at exactly 3, 6, 20 and 60 dB below the peak.
 *
 * @param strip plain strip, SI
 * @returns results in Hz, dB and ratios
 * @source exact nodal solution, src/physics/if-strip.ts; definitions in src/physics/passband.ts
 */
export function solveResponse(strip: StripModel) {
  const f = strip.intermediateFrequency;
  hints[0] = f;
  r.load(strip);
  const peak = peakOf(r, hints);
  const low6 = crossingHz(r, peak, 6, -1);
  const high6 = crossingHz(r, peak, 6, 1);
  const width6dB = high6 - low6;
  const width60dB = widthHz(r, peak, 60);
  const centre = (low6 + high6) / 2;
  return {
    centre: orNone(centre, notReached.none),
    peakFrequency: peak.hz,
    width3dB: orNone(widthHz(r, peak, 3), notReached.none),
    width6dB: orNone(width6dB, notReached.none),
    width20dB: orNone(widthHz(r, peak, 20), notReached.none),
    width60dB: orNone(width60dB, notReached.none),
    shapeFactor: orNone(width60dB / width6dB, notReached.none),
    gain: 10 * Math.log10(r.at(f)),
    audioBandwidthAm: orNone(amAudioBandwidthHz(r, Number.isFinite(centre) ? centre : f), "above 30 kHz"),
    noiseBandwidth: noiseBandwidthHz(r, peak),
    adjacentRejection5kHz: rejectionDb(r, Number.isFinite(centre) ? centre : f, 5000, peak.power),
    offCentre: centre - f,
  };
}

/** Fills |H|^2 relative to its own peak. */
export function fillResponse(strip: StripModel, axis: Float64Array, into: Float64Array): void {
  hints[0] = strip.intermediateFrequency;
  r.load(strip);
  const top = peakOf(r, hints).power;
  r.fill(axis, into);
  for (let i = 0; i < into.length; i++) into[i] /= top;
}
