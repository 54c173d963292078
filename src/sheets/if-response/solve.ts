import { notReached, orNone } from "../../ask/axes";
import { amAudioBandwidthHz } from "../../physics/am-audio";
import { StripResponse } from "../../physics/if-strip";
import type { StripModel } from "../../physics/if-strip-numbers";
import { noiseBandwidthHz } from "../../physics/noise-band";
import { type Peak, peakOf, rejectionDb, Skirts } from "../../physics/passband";

/**
 * What a strip passes. Widths are between the outermost crossings at exactly 3, 6, 20 and 60 dB below the peak. It holds what draw after draw
 * works with.
 *
 * @returns `solve`: results of a strip in Hz, dB and ratios; `fill`: |H|^2 of the strip solved last, relative to its own peak
 * @source exact nodal solution, src/physics/if-strip.ts; definitions in src/physics/passband.ts
 */
export function responseSolver() {
  const r = new StripResponse();
  const skirts = new Skirts();
  let peak: Peak = { hz: 0, power: 1 };
  const solve = (strip: StripModel) => {
    const f = strip.intermediateFrequency;
    r.load(strip);
    peak = peakOf(r, [f]);
    skirts.of(r, peak);
    const low6 = skirts.crossingHz(6, -1);
    const high6 = skirts.crossingHz(6, 1);
    const width6dB = high6 - low6;
    const width60dB = skirts.widthHz(60);
    const centre = (low6 + high6) / 2;
    const middle = Number.isFinite(centre) ? centre : f;
    return {
      centre: orNone(centre, notReached.none),
      peakFrequency: peak.hz,
      width3dB: orNone(skirts.widthHz(3), notReached.none),
      width6dB: orNone(width6dB, notReached.none),
      width20dB: orNone(skirts.widthHz(20), notReached.none),
      width60dB: orNone(width60dB, notReached.none),
      shapeFactor: orNone(width60dB / width6dB, notReached.none),
      gain: 10 * Math.log10(r.at(f)),
      audioBandwidthAm: orNone(amAudioBandwidthHz(r, middle), "above 30 kHz"),
      noiseBandwidth: noiseBandwidthHz(r, peak),
      adjacentRejection5kHz: rejectionDb(r, middle, 5000, peak.power),
      offCentre: centre - f,
    };
  };
  const fill = (axis: Float64Array, into: Float64Array): void => {
    r.fill(axis, into);
    for (let i = 0; i < into.length; i++) into[i] /= peak.power;
  };
  return { solve, fill };
}
