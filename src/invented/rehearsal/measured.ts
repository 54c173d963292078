import { throughBins } from "../../numerics/minimum-phase";
import { normalStream } from "../../numerics/random";
import { type Beside, rehearsalRateHz } from "./scene";
import { type Detector, heard } from "./through";

/** Measured on what is heard, not worked out: tones and noise are sent through the same strip and detector as the scene. */
const bare = { kind: "am", pitchHz: 0, avc: undefined, audio: undefined } as const;
const length = 16_384;
const settle = 8192;
const tau = 2 * Math.PI;

/** Peak of one tone in a sound, of a whole number of its periods. */
function toneIn(x: Float64Array, hz: number): number {
  let re = 0;
  let im = 0;
  for (let i = settle; i < settle + length; i++) {
    re += x[i] * Math.cos((tau * hz * i) / rehearsalRateHz);
    im += x[i] * Math.sin((tau * hz * i) / rehearsalRateHz);
  }
  return (2 * Math.hypot(re, im)) / length;
}
const onBin = (hz: number): number => (Math.max(1, Math.round((hz * length) / rehearsalRateHz)) * rehearsalRateHz) / length;
const carrierWith = (more: (i: number) => readonly [re: number, im: number]): Float64Array => {
  const z = new Float64Array(2 * (settle + length));
  for (let i = 0; i < z.length / 2; i++) {
    const [re, im] = more(i);
    z[2 * i] = 1 + re;
    z[2 * i + 1] = im;
  }
  return z;
};

/**
 * Pitch at which AM audio is 3 dB down, as heard: many small tones at once on one carrier.
 *
 * @param passes the strip, as bins
 * @returns Hz; undefined above 8 kHz
 * @source definition of half power
 */
export function heardBandwidthHz(passes: Float64Array): number | undefined {
  const pitches = [...new Set(Array.from({ length: 90 }, (_, k) => onBin(15 * 1.073 ** k)))].filter((f) => f <= 8000);
  const depth = 0.1 / pitches.length;
  const z = carrierWith((i) => [pitches.reduce((s, f, k) => s + depth * Math.cos((tau * f * i) / rehearsalRateHz + k * k), 0), 0]);
  const x = heard(z, passes, bare);
  const levels = pitches.map((f) => 20 * Math.log10(toneIn(x, f)));
  const at = levels.findIndex((l) => l < levels[0] - 3.0103);
  if (at < 1) return undefined;
  const part = (levels[at - 1] - (levels[0] - 3.0103)) / (levels[at - 1] - levels[at]);
  return pitches[at - 1] + part * (pitches[at] - pitches[at - 1]);
}

/**
 * How far down a whistle is that a plain carrier makes beside the wanted one: its tone against the one that it would make of 100 % modulation.
 *
 * @param passes the strip, as bins
 * @param offHz distance of the carrier
 * @returns dB, positive, for equal carriers
 * @source definition, at a level so small that the detector adds nothing
 */
export function whistleDownDb(passes: Float64Array, offHz: number): number {
  const hz = onBin(Math.abs(offHz)) * Math.sign(offHz);
  const small = 0.01;
  const x = heard(
    carrierWith((i) => [small * Math.cos((tau * hz * i) / rehearsalRateHz), small * Math.sin((tau * hz * i) / rehearsalRateHz)]),
    passes,
    bare,
  );
  let carrier = 0;
  for (let i = settle; i < settle + length; i++) carrier += x[i] / length;
  return 20 * Math.log10((small * carrier) / toneIn(x, Math.abs(hz)));
}

/**
 * Noise that comes through, as a bandwidth.
 *
 * @param passes the strip, as bins
 * @param seed of the noise
 * @returns Hz: power of white noise through it over that of 1 Hz at its peak; good to 2 %
 * @source definition of noise bandwidth
 */
export function heardNoiseHz(passes: Float64Array, seed = 3): number {
  const z = normalStream(seed, "white", 2 * 120_000);
  const y = throughBins(z, passes);
  let [inPower, outPower] = [0, 0];
  for (let i = 2 * settle; i < z.length; i++) {
    inPower += z[i] * z[i];
    outPower += y[i] * y[i];
  }
  let top = 0;
  for (let k = 0; k < passes.length; k += 2) top = Math.max(top, passes[k] ** 2 + passes[k + 1] ** 2);
  return ((outPower / inPower) * rehearsalRateHz) / top;
}

/** Power of what is heard beside its mean, with the ends of a usual audio amplifier. */
function soundPower(z: Float64Array, passes: Float64Array, audio: Detector["audio"]): number {
  const x = heard(z, passes, { ...bare, audio }).subarray(settle);
  const mean = x.reduce((a, b) => a + b, 0) / x.length;
  return x.reduce((a, b) => a + (b - mean) ** 2, 0) / x.length;
}
const usualAudio = { lowHz: 50, highHz: 5000 };
/** One depth and pitch for stations that are compared. */
const depth = 0.3;
const pitchHz = 400;

/**
 * How far another AM station's sound is under the wanted one's: both with 30 % of 400 Hz, one on at a time, the wanted carrier always on; the whistle between
 * the carriers is of it.
 *
 * @param passes the strip, as bins
 * @param beside where it is, and how strong
 * @param audio ends of the audio amplifier; none where all of it is heard
 * @returns dB, positive where it is the weaker one
 * @source definition
 */
export function neighbourDownDb(passes: Float64Array, { offHz, levelDb }: Beside, audio: Detector["audio"]): number {
  const hz = onBin(Math.abs(offHz)) * Math.sign(offHz);
  const gain = 10 ** (levelDb / 20);
  const tone = (i: number): number => depth * Math.cos((tau * onBin(pitchHz) * i) / rehearsalRateHz);
  const angle = (i: number): number => (tau * hz * i) / rehearsalRateHz;
  const wanted = carrierWith((i) => [tone(i), 0]);
  const other = carrierWith((i) => [gain * (1 + tone(i)) * Math.cos(angle(i)), gain * (1 + tone(i)) * Math.sin(angle(i))]);
  return 10 * Math.log10(soundPower(wanted, passes, audio) / soundPower(other, passes, audio));
}

/**
 * (S+N)/N of an AM station, as heard: 30 % modulation at 400 Hz, on and off, the same noise with both.
 *
 * @param passes the strip, as bins
 * @param noiseDb noise in 6 kHz, dB under the carrier
 * @returns dB
 * @source definition
 */
export function signalToNoiseDb(passes: Float64Array, noiseDb: number): number {
  const sigma = 10 ** (-noiseDb / 20) * Math.sqrt(rehearsalRateHz / 6000 / 2);
  const noise = normalStream(5, "band", 2 * (settle + length));
  const power = (of: number): number =>
    soundPower(
      carrierWith((i) => [of * Math.cos((tau * pitchHz * i) / rehearsalRateHz) + sigma * noise[2 * i], sigma * noise[2 * i + 1]]),
      passes,
      usualAudio,
    );
  return 10 * Math.log10(power(depth) / power(0));
}
