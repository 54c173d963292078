import { normalStream } from "../numerics/random";

/** Rate of the noise that is played to measure a response, Hz. */
export const testNoiseRateHz = 48_000;
/** rms, full scale 1: its crests stay below full scale. */
const rms = 0.177;

/**
 * White noise to be played.
 *
 * @param seconds how long
 * @returns samples at `testNoiseRateHz`, 12 dB under a full-scale sine
 * @source normal law; flat by its independent samples
 */
export const testNoise = (seconds: number): Float64Array =>
  normalStream(17, "test noise", seconds * testNoiseRateHz).map((v) => rms * Math.max(-5, Math.min(5, v)));
