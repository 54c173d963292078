import FFT from "fft.js";

/** A response of complex baseband: bin k is k/n of the sample rate, those of the upper half lie below the centre. Real and imaginary parts by turns. */
export type Bins = Float64Array;

/**
 * The causal response with given magnitudes that lets everything through as early as can be.
 *
 * @param magnitude of each bin, n values, n a power of two; all above 0
 * @returns complex bins, 2 n values, with those magnitudes
 * @source cepstrum folded onto times from 0 on (textbook); circuits of coupled coils have no zeros on the right, so it is their own phase; transform
 *   by the library fft.js
 */
export function minimumPhase(magnitude: Float64Array): Bins {
  const n = magnitude.length;
  const fft = new FFT(n);
  const log = new Float64Array(2 * n);
  for (let k = 0; k < n; k++) log[2 * k] = Math.log(magnitude[k]);
  const cepstrum = new Float64Array(2 * n);
  fft.inverseTransform(cepstrum, log);
  for (let t = 1; t < n; t++) {
    const times = t < n / 2 ? 2 : t === n / 2 ? 1 : 0;
    cepstrum[2 * t] *= times;
    cepstrum[2 * t + 1] *= times;
  }
  const out = new Float64Array(2 * n);
  fft.transform(out, cepstrum);
  for (let k = 0; k < n; k++) {
    const size = Math.exp(out[2 * k]);
    const angle = out[2 * k + 1];
    out[2 * k] = size * Math.cos(angle);
    out[2 * k + 1] = size * Math.sin(angle);
  }
  return out;
}

/**
 * How a response rings.
 *
 * @param bins the response
 * @param count taps wanted, as many as the bins at most
 * @returns its first complex taps, faded out over the last eighth
 * @source inverse transform; library fft.js
 */
export function firstTaps(bins: Bins, count: number): Float64Array {
  const whole = new Float64Array(bins.length);
  new FFT(bins.length / 2).inverseTransform(whole, bins);
  const fade = count / 8;
  return whole.subarray(0, 2 * count).map((v, i) => v * Math.min(1, (count - (i >> 1)) / fade));
}

/**
 * A long complex sound through a response.
 *
 * @param z real and imaginary parts by turns
 * @param bins the response
 * @returns the same length; what comes before its beginning is silence
 * @source convolution by one long transform; library fft.js
 */
export function throughBins(z: Float64Array, bins: Bins): Float64Array {
  const taps = bins.length / 2;
  const short = new FFT(taps);
  const impulse = new Float64Array(2 * taps);
  short.inverseTransform(impulse, bins);
  let n = 2 * taps;
  while (n < z.length / 2 + taps) n *= 2;
  const fft = new FFT(n);
  const spectrumOf = (x: Float64Array): Float64Array => {
    const padded = new Float64Array(2 * n);
    padded.set(x);
    const out = new Float64Array(2 * n);
    fft.transform(out, padded);
    return out;
  };
  const [a, h] = [spectrumOf(z), spectrumOf(impulse)];
  for (let i = 0; i < a.length; i += 2) {
    const re = a[i] * h[i] - a[i + 1] * h[i + 1];
    a[i + 1] = a[i] * h[i + 1] + a[i + 1] * h[i];
    a[i] = re;
  }
  const out = new Float64Array(2 * n);
  fft.inverseTransform(out, a);
  return out.slice(0, z.length);
}
