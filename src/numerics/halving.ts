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
  private even = new Float64Array(0);
  private odd = new Float64Array(0);
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
    const count = Math.max(0, Math.floor((n - 2 * reach - 1) / 2) + 1);
    this.room(n, count);
    const { work, even, odd, out } = this;
    work.set(this.kept);
    work.set(x, this.kept.length);
    // the taps but the middle one meet every other sample: apart they lie side by side
    for (let i = 0, j = 0; j < n; i++, j += 2) {
      even[i] = work[j];
      odd[i] = work[j + 1];
    }
    // four at a time, so that a tap is fetched once for all of them; what is beyond the end is written and not given out
    for (let i = 0; i < count; i += 4) {
      const c = i + taps.length - 1;
      let y0 = 0.5 * odd[c];
      let y1 = 0.5 * odd[c + 1];
      let y2 = 0.5 * odd[c + 2];
      let y3 = 0.5 * odd[c + 3];
      for (let k = 0, l = c, h = c + 1; k < taps.length; k++, l--, h++) {
        const t = taps[k];
        y0 += t * (even[l] + even[h]);
        y1 += t * (even[l + 1] + even[h + 1]);
        y2 += t * (even[l + 2] + even[h + 2]);
        y3 += t * (even[l + 3] + even[h + 3]);
      }
      out[i] = y0;
      out[i + 1] = y1;
      out[i + 2] = y2;
      out[i + 3] = y3;
    }
    this.kept = work.slice(2 * count, n);
    return out.subarray(0, count);
  }
  private room(n: number, count: number): void {
    if (this.work.length < n + 2) this.work = new Float64Array(n + 2);
    const half = Math.ceil(n / 2) + 4 + this.taps.length;
    if (this.even.length < half) [this.even, this.odd] = [new Float64Array(half), new Float64Array(half)];
    if (this.out.length < count + 3) this.out = new Float64Array(count + 3);
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
 * @param passHz highest frequency wanted
 * @param leastRateHz it is never halved below this
 * @source Halving
 */
export function halved(rateHz: number, passHz: number, leastRateHz: number): Halved {
  const steps: Halving[] = [];
  let rate = rateHz;
  for (; rate / 2 >= leastRateHz; rate /= 2) steps.push(new Halving(passHz / rate));
  return { rateHz: rate, push: (x) => steps.reduce((y, s) => s.push(y), x) };
}
