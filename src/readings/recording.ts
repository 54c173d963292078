import { bad, good, type Read } from "../units/issue";
import { levelsDbfs, type Spectrum, spectrumOf } from "./spectrum";
import type { Recording } from "./wav";

/** What is told of a recording as a whole, however long it is. */
export interface Heard {
  readonly peakDbfs: number;
  readonly rmsDbfs: number;
  readonly spectrum: Spectrum;
  /** samples that were transformed at once: what its lines are as wide as */
  readonly spanSamples: number;
  readonly warnings: readonly string[];
}
/** Up to so many samples are transformed at once; a longer recording by stretches of so many, spread over it. */
const wholeSamples = 2 ** 18;
const stretchSamples = 2 ** 17;
const mostStretches = 60;
/** A shorter one holds five cycles of the mains at most. */
const shortestS = 0.1;

function* stretchesOf(r: Recording, channel: number): Generator<Float64Array> {
  for (let from = 0; from < r.samplesCount; from += stretchSamples) yield r.samples(channel, from, stretchSamples);
}

/**
 * Levels and spectrum of one channel: levels over every sample; the spectrum of the whole where it is short, else the mean power of stretches
 * spread evenly over it, so that memory and time have an end.
 *
 * @param r recording
 * @param name its file, for the error
 * @param channel which channel
 * @returns levels, dB re full scale, and spectrum; an issue where it is too short to tell
 * @source mean of modified periodograms (Welch 1967, from memory); spectrumOf
 */
export function hearRecording(r: Recording, name: string, channel = 0): Read<Heard> {
  const { samplesCount, sampleRateHz } = r;
  if (samplesCount < shortestS * sampleRateHz)
    return bad(name, "too-short", `${samplesCount} samples at ${sampleRateHz} Hz`, `at least ${shortestS} s of sound`);
  const levels = levelsDbfs(stretchesOf(r, channel));
  if (samplesCount <= wholeSamples)
    return good({
      ...levels,
      spectrum: spectrumOf(r.samples(channel, 0, samplesCount), sampleRateHz),
      spanSamples: samplesCount,
      warnings: r.warnings,
    });
  const count = Math.min(mostStretches, Math.floor(samplesCount / stretchSamples));
  const places = Array.from({ length: count }, (_, k) => Math.round((k * (samplesCount - stretchSamples)) / (count - 1)));
  const first = spectrumOf(r.samples(channel, places[0], stretchSamples), sampleRateHz);
  const power = first.magnitude.map((m) => m * m);
  for (const from of places.slice(1)) {
    const { magnitude } = spectrumOf(r.samples(channel, from, stretchSamples), sampleRateHz);
    for (let k = 0; k < power.length; k++) power[k] += magnitude[k] ** 2;
  }
  const said = `a long recording: tones and hum are the mean of ${count} stretches of ${(stretchSamples / sampleRateHz).toPrecision(2)} s taken all along it; levels are of all of it`;
  return good({
    ...levels,
    spectrum: { ...first, magnitude: power.map((p) => Math.sqrt(p / count)) },
    spanSamples: stretchSamples,
    warnings: [...r.warnings, said],
  });
}
