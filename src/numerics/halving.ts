/** Stop-band and pass-band ripple of a halving, dB. */
const attenuationDb = 90;
/** Kaiser's window for it. Source: Kaiser's empirical formula, beta = 0.1102 (A - 8.7). */
const beta = 0.1102 * (attenuationDb - 8.7);

/** Modified Bessel function of the first kind, order zero. Source: its power series, textbook. */
function besselI0(x: number): number {
  let [sum, term] = [1, 1];
  for (let k = 1; term > 1e-17 * sum; k++) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}
/** Odd taps of one side of a half-band low-pass; the even ones but the middle are zero. */
function halfBand(sideTaps: number): Float64Array {
  const reach = 2 * sideTaps;
  const taps = Float64Array.from({ length: sideTaps }, (_, k) => {
    const n = 2 * k + 1;
    const window = besselI0(beta * Math.sqrt(1 - (n / reach) ** 2)) / besselI0(beta);
    return (window * (k % 2 === 0 ? 1 : -1)) / (Math.PI * n);
  });
  // unity at zero frequency: one half in the middle, one half in the sides
  const sum = 2 * taps.reduce((s, v) => s + v, 0);
  return taps.map((v) => (v * 0.5) / sum);
}

/**
 * Halves a sample rate, stretch by stretch: what lies below the pass band's edge is kept within 0.001 dB, what would fold onto it is 90 dB down.
 *
 * @source half-band filter by Kaiser's window, textbook
 */
export class Halving {
  private readonly taps: Float64Array;
  /** samples that the next output still needs */
  private kept: Float64Array;
  private work = new Float64Array(0);
  private out = new Float64Array(0);

  /**
   * @param passRatio edge of the pass band over the rate that comes in, below 0.25
   */
  constructor(passRatio: number) {
    const length = (attenuationDb - 7.95) / (14.36 * (0.5 - 2 * passRatio)) + 1;
    this.taps = halfBand(Math.ceil((length + 1) / 4));
    this.kept = new Float64Array(2 * this.taps.length - 1);
  }
  /** Half as many samples; good until the next call. */
  push(x: Float64Array): Float64Array {
    const { taps } = this;
    const reach = 2 * taps.length - 1;
    const n = this.kept.length + x.length;
    if (this.work.length < n) this.work = new Float64Array(n);
    const w = this.work;
    w.set(this.kept);
    w.set(x, this.kept.length);
    const count = Math.max(0, Math.floor((n - 2 * reach - 1) / 2) + 1);
    if (this.out.length < count) this.out = new Float64Array(count);
    const { out } = this;
    for (let i = 0, c = reach; i < count; i++, c += 2) {
      let y = 0.5 * w[c];
      for (let k = 0, d = 1; k < taps.length; k++, d += 2) y += taps[k] * (w[c - d] + w[c + d]);
      out[i] = y;
    }
    this.kept = w.slice(2 * count, n);
    return out.subarray(0, count);
  }
}

/** Halvings in a row. */
export interface Halved {
  readonly rateHz: number;
  readonly push: (x: Float64Array) => Float64Array;
}
/**
 * Halves a sample rate for as long as twice the pass band's edge and some room stay below it.
 *
 * @param rateHz rate that comes in
 * @param passHz highest frequency that is wanted
 * @param leastRateHz it is never halved below this
 */
export function halved(rateHz: number, passHz: number, leastRateHz: number): Halved {
  const steps: Halving[] = [];
  let rate = rateHz;
  for (; rate / 2 >= leastRateHz; rate /= 2) steps.push(new Halving(passHz / rate));
  return { rateHz: rate, push: (x) => steps.reduce((y, s) => s.push(y), x) };
}
