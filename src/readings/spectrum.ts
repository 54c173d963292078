import FFT from "fft.js";

export interface Tone {
  readonly hz: number;
  /** peak of the sine, dB re full scale */
  readonly peakDbfs: number;
}
export interface Spectrum {
  readonly binHz: number;
  /** |X| of bins 0 to half the padded length */
  readonly magnitude: Float64Array;
  /** sum and sum of squares of the window */
  readonly windowSum: number;
  readonly windowSquares: number;
  readonly length: number;
}

/**
 * Hann-windowed, zero-padded amplitude spectrum of a stretch of samples, its mean taken off first.
 *
 * @param x samples, full scale 1
 * @param sampleRateHz Hz
 * @param padRatio zero padding, at least this many times the length
 * @returns magnitudes of the padded transform
 * @source textbook; transform by the library fft.js
 */
export function spectrumOf(x: Float64Array, sampleRateHz: number, padRatio = 4): Spectrum {
  const n = x.length;
  let length = 2;
  while (length < n * padRatio) length *= 2;
  const mean = x.reduce((s, v) => s + v, 0) / n;
  const input = new Float64Array(length);
  let windowSum = 0;
  let windowSquares = 0;
  for (let i = 0; i < n; i++) {
    const w = 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / n);
    windowSum += w;
    windowSquares += w * w;
    input[i] = (x[i] - mean) * w;
  }
  const fft = new FFT(length);
  const out = new Float64Array(2 * length);
  fft.realTransform(out, input);
  const magnitude = Float64Array.from({ length: length / 2 }, (_, k) => Math.hypot(out[2 * k], out[2 * k + 1]));
  return { binHz: sampleRateHz / length, magnitude, windowSum, windowSquares, length };
}

/**
 * Strongest tone of a spectrum within a range: parabola through the logarithms of the top three bins; half a bin outside of the range at most.
 *
 * @param s spectrum
 * @param fromHz lower end
 * @param toHz upper end
 * @returns frequency and level of the sine's peak
 * @source parabolic interpolation of a Hann-windowed peak, textbook
 */
export function strongestTone(s: Spectrum, fromHz: number, toHz: number): Tone {
  const first = Math.max(1, Math.ceil(fromHz / s.binHz));
  const last = Math.min(s.magnitude.length - 2, Math.floor(toHz / s.binHz));
  let k = first;
  for (let i = first; i <= last; i++) if (s.magnitude[i] > s.magnitude[k]) k = i;
  const [a, b, c] = [k - 1, k, k + 1].map((i) => Math.log(Math.max(1e-30, s.magnitude[i])));
  // at an end of the range the bin beyond may be the higher one, and the parabola's top lie anywhere
  const shift = a - 2 * b + c < 0 ? Math.max(-0.5, Math.min(0.5, (0.5 * (a - c)) / (a - 2 * b + c))) : 0;
  return { hz: (k + shift) * s.binHz, peakDbfs: (20 / Math.LN10) * (b - 0.25 * (a - c) * shift) + 20 * Math.log10(2 / s.windowSum) };
}

/**
 * Level of what lies within a band, rms, re full scale.
 *
 * @param s spectrum
 * @param centreHz middle of the band
 * @param halfWidthHz half its width
 * @returns dB re full scale rms
 * @source Parseval's theorem
 */
export function bandLevelDbfs(s: Spectrum, centreHz: number, halfWidthHz: number): number {
  let sum = 0;
  for (let k = Math.ceil((centreHz - halfWidthHz) / s.binHz); k <= Math.floor((centreHz + halfWidthHz) / s.binHz); k++)
    sum += s.magnitude[k] ** 2;
  return 10 * Math.log10(Math.max(1e-30, (2 * sum) / (s.length * s.windowSquares)));
}

/**
 * Frequency of a tone frame by frame.
 *
 * @param x samples
 * @param sampleRateHz Hz
 * @param frame length and hop of a frame, s; padding; range searched, Hz
 * @returns one frequency a frame, Hz
 * @source strongestTone on each frame
 */
export function trackTone(
  x: Float64Array,
  sampleRateHz: number,
  frame: { readonly lengthS: number; readonly hopS: number; readonly padRatio: number; readonly fromHz: number; readonly toHz: number },
): Tone[] {
  const length = Math.round(frame.lengthS * sampleRateHz);
  const hop = Math.round(frame.hopS * sampleRateHz);
  const out: Tone[] = [];
  for (let at = 0; at + length <= x.length; at += hop)
    out.push(strongestTone(spectrumOf(x.subarray(at, at + length), sampleRateHz, frame.padRatio), frame.fromHz, frame.toHz));
  return out;
}

/**
 * Peak and rms of samples that come in stretches, dB re full scale.
 *
 * @source definition: decibel of peak and root mean square over full scale
 */
export function levelsDbfs(stretches: Iterable<Float64Array>): { readonly peakDbfs: number; readonly rmsDbfs: number } {
  let peak = 0;
  let sum = 0;
  let count = 0;
  for (const x of stretches) {
    count += x.length;
    for (const v of x) {
      peak = Math.max(peak, Math.abs(v));
      sum += v * v;
    }
  }
  return { peakDbfs: 20 * Math.log10(Math.max(1e-15, peak)), rmsDbfs: 10 * Math.log10(Math.max(1e-30, sum / count)) };
}
