import FFT from "fft.js";

/** One frame's spectrum, good until the next frame. */
export interface Frame {
  /** sample, counted from the first, at the middle of the frame */
  readonly centre: number;
  readonly binHz: number;
  /** |X|^2 of each bin */
  readonly power: Float64Array;
  /** X, real and imaginary parts in turn */
  readonly complex: Float64Array;
}
/**
 * Spectra of frames of a stream, Hann's window.
 *
 * @source textbook; transform by the library fft.js
 */
export class Frames {
  readonly length: number;
  readonly binHz: number;
  /** sum of the window, and of its squares */
  readonly windowSum: number;
  readonly windowSquares: number;
  private readonly window: Float64Array;
  private readonly held: Float64Array;
  private readonly input: Float64Array;
  private readonly complex: Float64Array;
  private readonly power: Float64Array;
  private readonly fft: FFT;
  private filled = 0;
  private first = 0;

  /**
   * @param rateHz samples a second
   * @param length samples of a frame, a power of two
   * @param hop samples from one frame to the next, `length` at most
   */
  constructor(
    rateHz: number,
    length: number,
    readonly hop: number,
  ) {
    this.length = length;
    this.binHz = rateHz / length;
    this.window = Float64Array.from({ length }, (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / length));
    this.windowSum = length / 2;
    this.windowSquares = (3 * length) / 8;
    this.held = new Float64Array(length);
    this.input = new Float64Array(length);
    this.complex = new Float64Array(2 * length);
    this.power = new Float64Array(length / 2);
    this.fft = new FFT(length);
  }
  /** How alike the noise of two frames in a row is, 0 to 1. Source: autocorrelation of the window at one hop. */
  get alike(): number {
    let sum = 0;
    for (let i = 0; i + this.hop < this.length; i++) sum += this.window[i] * this.window[i + this.hop];
    return sum / this.windowSquares;
  }
  push(x: Float64Array, each: (frame: Frame) => void): void {
    for (let at = 0; at < x.length; ) {
      const take = Math.min(x.length - at, this.length - this.filled);
      this.held.set(x.subarray(at, at + take), this.filled);
      this.filled += take;
      at += take;
      if (this.filled < this.length) return;
      each(this.spectrum());
      this.held.copyWithin(0, this.hop);
      this.filled -= this.hop;
      this.first += this.hop;
    }
  }
  private spectrum(): Frame {
    const { held, input, window } = this;
    let mean = 0;
    for (let i = 0; i < held.length; i++) mean += held[i];
    mean /= held.length;
    for (let i = 0; i < held.length; i++) input[i] = (held[i] - mean) * window[i];
    const { complex, power } = this;
    this.fft.realTransform(complex, input);
    for (let k = 0; k < power.length; k++) power[k] = complex[2 * k] ** 2 + complex[2 * k + 1] ** 2;
    return { centre: this.first + this.length / 2, binHz: this.binHz, power, complex };
  }
}

/** The least power of two that is no less. */
export const powerOfTwo = (n: number): number => 2 ** Math.ceil(Math.log2(Math.max(2, n)));
