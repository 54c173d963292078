import type { NoValue } from "../../ask/results";
import { StripResponse } from "../../physics/if-strip";
import { crossingHz, peakOf } from "../../physics/passband";
import type { Asked } from "./ask";

/** Second harmonic that still counts as clean. Common practice, no source. */
export const mostDistortion = 0.05;
const clean: NoValue = { none: "a product detector doesn't need it" };
/** Steps in half a turn of the envelope, whose other half is the same. */
const steps = 128;

/**
 * Distortion of an envelope detector by two waves: second harmonic over the fundamental of sqrt(1 + r^2 + 2 r cos), which is r/4 for a small
 * r and the same for r and 1/r.
 *
 * @returns distortion, a fraction, by the ratio of the two waves
 * @source Fourier sums of the envelope by the midpoint rule; its own sums in bfo.test.ts
 */
function envelope(): (ratio: number) => number {
  const once = Float64Array.from({ length: steps }, (_, i) => Math.cos((Math.PI * (i + 0.5)) / steps));
  const twice = Float64Array.from({ length: steps }, (_, i) => Math.cos((2 * Math.PI * (i + 0.5)) / steps));
  return (ratio) => {
    const r = Math.min(ratio, 1 / ratio);
    let first = 0;
    let second = 0;
    for (let i = 0; i < steps; i++) {
      const size = Math.sqrt(1 + r * r + 2 * r * once[i]);
      first += size * once[i];
      second += size * twice[i];
    }
    return Math.abs(second / first);
  };
}

/**
 * Where the BFO goes and whether it is strong enough; it holds what draw after draw works with.
 *
 * Sidebands lie the lowest audio outside the -6 dB points. An oscillator above the signal turns them round: upper comes out below its carrier.
 *
 * @returns from plain inputs in SI and an axis of audio in Hz: results, and |H|^2 of both sidebands over the strip's peak
 * @source exact nodal solution, src/physics/if-strip.ts; definitions in src/physics/passband.ts
 */
export function bfoSolver() {
  const r = new StripResponse();
  const distortion = envelope();
  return (x: Asked, axis: Float64Array, into: { readonly wanted: Float64Array; readonly other: Float64Array }) => {
    r.load(x.strip);
    const peak = peakOf(r, [x.strip.intermediateFrequency]);
    const low = crossingHz(r, peak, 6, -1);
    const high = crossingHz(r, peak, 6, 1);
    const middle = (low + high) / 2;
    const side = x.oscillator === "above" ? -1 : 1;
    const upperAt = side < 0 ? high + x.audioLow : low - x.audioLow;
    const lowerAt = side < 0 ? low - x.audioLow : high + x.audioLow;
    for (let i = 0; i < axis.length; i++) {
      into.wanted[i] = r.at(upperAt + side * axis[i]) / peak.power;
      into.other[i] = r.at(upperAt - side * axis[i]) / peak.power;
    }
    const down = (bfoHz: number, pitch: number): number => 10 * Math.log10(r.at(bfoHz + side * pitch) / r.at(bfoHz - side * pitch));
    const cwOff = -side * x.cwPitch;
    const ratio = x.bfoVolts / x.signalVolts;
    const diode = x.cwDetector === "diode";
    return {
      upperAt,
      lowerAt,
      upperOff: upperAt - middle,
      lowerOff: lowerAt - middle,
      opposite: down(upperAt, 1000),
      cwOff,
      cwOpposite: down(middle + cwOff, x.cwPitch),
      injection: ratio,
      distortion: diode ? distortion(1 / ratio) : clean,
      signalMost: x.bfoVolts * (diode ? 4 * mostDistortion : 0.1),
      rangeSpare: x.bfoRange - Math.max(Math.abs(upperAt - middle), Math.abs(lowerAt - middle)),
    };
  };
}
