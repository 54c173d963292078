import { areApart } from "../numerics/apart";
import type { StripResponse } from "./if-strip";

const twoPi = 2 * Math.PI;

/** Circuits that make a null of a tank: which one an accessory uses must come from its schematic. */
export type NullCircuit = "shunt" | "inverse-feedback" | "subtraction";

export interface NullModel {
  readonly circuit: NullCircuit;
  readonly tankCapacitance: number;
  readonly tankQ: number;
  /** part of the tank's own loss that regeneration takes away, below 1 */
  readonly regeneration: number;
  /** shunt: the small capacitor from plate to tank, F */
  readonly couplingCapacitance: number;
  /** inverse feedback: loop gain D at the null; subtraction: 1 - a is the balance error */
  readonly loopGain: number;
  readonly balanceError: number;
}

/**
 * A null circuit on the strip.
 *
 *     shunt               Y = 1 / (1/(j w Cc) + 1/Yt), tank tuned so that both together are series resonant at the null
 *     inverse feedback    Y = g / (1 + j x), g = D / |Zdp| at the null: depth 1 + D, width about (1 + D) tank bandwidths
 *     subtraction         H (1 - a T), T = 1 / (1 + j x), a = 1 - balance error
 *
 * with x = Q (f/f0 - f0/f) and Q = Q0 / (1 - regeneration).
 *
 * @source derived; no published value found: a second implementation's depths and widths (q-multiplier.crosscheck.test.ts) and the depth
 *   law 20 log(1 + D) as a limiting case stand in
 */
export class NullLoad {
  private m!: NullModel;
  private hz = 0;
  private inverseL = 0;
  private g = 0;
  private q = 0;
  private gm = 0;
  re = 0;
  im = 0;

  load(m: NullModel, nullHz: number, plate: StripResponse): this {
    this.m = m;
    this.hz = nullHz;
    this.q = m.tankQ / (1 - m.regeneration);
    const w = twoPi * nullHz;
    const tankHz = nullHz * Math.sqrt((m.tankCapacitance + m.couplingCapacitance) / m.tankCapacitance);
    this.inverseL = w * w * (m.tankCapacitance + m.couplingCapacitance);
    this.g = ((twoPi * tankHz * m.tankCapacitance) / m.tankQ) * (1 - m.regeneration);
    plate.plateAt(nullHz);
    this.gm = m.loopGain / Math.hypot(plate.plateRe, plate.plateIm);
    return this;
  }

  /** |H|^2 of the strip with the null circuit on it. */
  at(hz: number, strip: StripResponse): number {
    const m = this.m;
    if (m.circuit === "shunt") {
      const w = twoPi * hz;
      const b = w * m.couplingCapacitance;
      const re = this.g;
      const im = w * m.tankCapacitance - this.inverseL / w;
      const dIm = im + b;
      const size = re * re + dIm * dIm;
      return strip.at(hz, (-b * im * re + b * re * dIm) / size, (b * re * re + b * im * dIm) / size);
    }
    const x = this.q * (hz / this.hz - this.hz / hz);
    const size = 1 + x * x;
    if (m.circuit === "inverse-feedback") return strip.at(hz, this.gm / size, (-this.gm * x) / size);
    const a = 1 - m.balanceError;
    const re = 1 - a / size;
    const im = (a * x) / size;
    return strip.at(hz) * (re * re + im * im);
  }
}

/** What a null takes away, against the strip without it: where, how deep, how wide at 3 dB. */
export interface NullFigures {
  readonly hz: number;
  readonly depthDb: number;
  readonly widthHz: number;
}

/**
 * Deepest point of a null within 8 kHz of its tuning, and its width where it takes 3 dB, against the strip without it.
 *
 * @param load the null circuit, loaded
 * @param strip the strip
 * @param nullHz where it is tuned, Hz
 * @returns frequency, depth in dB, width in Hz (NaN where 3 dB are not reached within 20 kHz)
 * @source definition
 */
export function nullFigures(load: NullLoad, strip: StripResponse, nullHz: number): NullFigures {
  const ratio = (hz: number): number => {
    const on = load.at(hz, strip);
    return on / strip.at(hz);
  };
  let best = nullHz;
  let least = ratio(nullHz);
  for (let d = 0.5; d < 8000; d *= 1.07) {
    for (let side = -1; side <= 1; side += 2) {
      const p = ratio(nullHz + side * d);
      if (p < least) {
        least = p;
        best = nullHz + side * d;
      }
    }
  }
  let a = best - Math.max(1, Math.abs(best - nullHz) * 0.1);
  let b = best + Math.max(1, Math.abs(best - nullHz) * 0.1);
  while (areApart(a, b, 0.01)) {
    const x1 = a + (b - a) / 3;
    const x2 = b - (b - a) / 3;
    if (ratio(x1) < ratio(x2)) b = x2;
    else a = x1;
  }
  const hz = (a + b) / 2;
  return { hz, depthDb: -10 * Math.log10(ratio(hz)), widthHz: edge(ratio, hz, 1) - edge(ratio, hz, -1) };
}

function edge(ratio: (hz: number) => number, fromHz: number, side: number): number {
  let inside = 0;
  if (ratio(fromHz) > 0.5) return Number.NaN;
  for (let d = 2; d < 20_000; d *= 1.05) {
    if (ratio(fromHz + side * d) > 0.5012) {
      let outside = d;
      while (areApart(inside, outside, 0.05)) {
        const mid = (outside + inside) / 2;
        if (ratio(fromHz + side * mid) > 0.5012) outside = mid;
        else inside = mid;
      }
      return fromHz + (side * (inside + outside)) / 2;
    }
    inside = d;
  }
  return Number.NaN;
}
