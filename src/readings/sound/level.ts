import { topOf } from "./peaks";

/** Time that one figure rests on: short, so that the hand hears itself; long enough to leave speech beside a carrier's beat out. */
export const levelS = 0.045;

/**
 * Level of a sound over the last few hundredths of a second: of the whole, or of a tone alone.
 *
 * @source Hann's window, textbook; a tone's top by topOf, so that it need not be tuned to
 */
export class LevelMeter {
  private readonly window: Float64Array;
  private readonly held: Float64Array;
  private readonly sum: number;
  private readonly squares: number;
  private at = 0;

  /** @param rateHz samples a second */
  constructor(private readonly rateHz: number) {
    const n = Math.max(16, Math.round(levelS * rateHz));
    this.window = Float64Array.from({ length: n }, (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * (i + 0.5)) / n));
    this.sum = n / 2;
    this.squares = (3 * n) / 8;
    this.held = new Float64Array(n);
  }
  push(x: Float64Array): void {
    for (const v of x) {
      this.held[this.at] = v;
      this.at = this.at + 1 === this.held.length ? 0 : this.at + 1;
    }
  }
  /** rms of all that is held, dB re full scale */
  get wholeDbfs(): number {
    const { held, window, at } = this;
    const n = held.length;
    let [sum, squares] = [0, 0];
    for (let i = 0; i < n; i++) sum += window[i] * held[(at + i) % n];
    const mean = sum / this.sum;
    for (let i = 0; i < n; i++) squares += (window[i] * (held[(at + i) % n] - mean)) ** 2;
    return 10 * Math.log10(Math.max(1e-20, squares / this.squares));
  }
  /** rms of a tone, dB re full scale; it need be known to within a bin only, 22 Hz */
  toneDbfs(hz: number): number {
    const bin = this.rateHz / this.held.length;
    const [below, middle, above] = [hz - bin, hz, hz + bin].map((f) => this.power(f));
    const side = Math.max(below, above);
    const { power } = side > middle ? topOf(middle, side, 0) : topOf(below, middle, above);
    return 10 * Math.log10(Math.max(1e-20, (2 * power) / (this.sum * this.sum)));
  }
  /** |X|^2 at a frequency. */
  private power(hz: number): number {
    const { held, window, at } = this;
    const n = held.length;
    const turn = (2 * Math.PI * hz) / this.rateHz;
    const [stepC, stepS] = [Math.cos(turn), Math.sin(turn)];
    let [c, s, re, im] = [1, 0, 0, 0];
    for (let i = 0, j = at; i < n; i++, j = j + 1 === n ? 0 : j + 1) {
      const v = window[i] * held[j];
      re += v * c;
      im += v * s;
      const next = c * stepC - s * stepS;
      s = s * stepC + c * stepS;
      c = next;
    }
    return re * re + im * im;
  }
}
