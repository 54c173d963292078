import { ebur128_integrated_mono } from "ebur128-wasm/ebur128_wasm.js";

/**
 * How loud a sound is to the ear.
 *
 * @param x samples of one channel, full scale 1; a second or more
 * @param sampleRateHz Hz
 * @returns integrated loudness, LUFS; minus infinity of silence
 * @source ITU-R BS.1770 with its gates, by the library ebur128-wasm
 */
export const loudness = (x: Float64Array, sampleRateHz: number): number => ebur128_integrated_mono(sampleRateHz, Float32Array.from(x));

/**
 * Gains that make sounds equally loud, as loud as can be without any of them clipping.
 *
 * @param sounds each of one channel
 * @param sampleRateHz Hz
 * @returns a factor for each
 * @source see `loudness`
 */
export function equalGains(sounds: readonly Float64Array[], sampleRateHz: number): number[] {
  const wantedLufs = -20;
  const gains = sounds.map((x) => {
    const l = loudness(x, sampleRateHz);
    return Number.isFinite(l) ? 10 ** ((wantedLufs - l) / 20) : 1;
  });
  const top = Math.max(...sounds.map((x, i) => gains[i] * x.reduce((m, v) => Math.max(m, Math.abs(v)), 0)));
  const down = Math.min(1, 0.97 / top);
  return gains.map((g) => g * down);
}
/**
 * Sounds made equally loud, as loud as can be without any of them clipping.
 *
 * @param sounds each of one channel
 * @param sampleRateHz Hz
 * @returns the same, each with its own gain
 * @source see `loudness`
 */
export function equallyLoud(sounds: readonly Float64Array[], sampleRateHz: number): Float64Array[] {
  const gains = equalGains(sounds, sampleRateHz);
  return sounds.map((x, i) => x.map((v) => v * gains[i]));
}
