import { bad, good, type Read } from "../units/issue";
import { HealthWatch } from "./sound/health";
import { levelsDbfs, type Spectrum, spectrumOf } from "./spectrum";
import type { Recording } from "./wav";

/** What is told of a recording as a whole, however long it is. */
export interface Heard {
  /** the one that was listened to */
  readonly channel: number;
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
/** The channel with the most sound in it. */
function louder(r: Recording): number {
  const powers = Array.from({ length: r.channelsCount }, (_, c) => levelsDbfs(stretchesOf(r, c)).rmsDbfs);
  return powers.indexOf(Math.max(...powers));
}
/** What is wrong with it as a recording, in words. */
function oddOf(r: Recording, channel: number): readonly string[] {
  const watch = new HealthWatch({ sampleRateHz: r.sampleRateHz, channelsCount: r.channelsCount, step: 0 }, () => channel);
  for (let from = 0; from < r.samplesCount; from += stretchSamples)
    watch.push(Array.from({ length: r.channelsCount }, (_, c) => r.samples(c, from, stretchSamples)));
  const { silent, peakDbfs, warnings } = watch.health;
  return silent
    ? [
        `there is no sound in it, at most ${peakDbfs.toFixed(0)} dB re full scale: is the lead in the right socket, the input chosen and not muted?`,
      ]
    : warnings;
}

/**
 * Levels and spectrum of one channel, and how well it was recorded: levels over every sample; the spectrum of the whole where it is short, else the mean power of stretches
 * spread evenly over it, so that memory and time have an end.
 *
 * @param r recording
 * @param name its file, for the error
 * @param wanted which channel; the louder one where not said
 * @returns levels, dB re full scale, and spectrum; an issue where it is too short to tell
 * @source mean of modified periodograms (Welch 1967, from memory); spectrumOf
 */
export function hearRecording(r: Recording, name: string, wanted?: number): Read<Heard> {
  const { samplesCount, sampleRateHz } = r;
  if (samplesCount < shortestS * sampleRateHz)
    return bad(name, "too-short", `${samplesCount} samples at ${sampleRateHz} Hz`, `at least ${shortestS} s of sound`);
  const channel = wanted ?? louder(r);
  const levels = levelsDbfs(stretchesOf(r, channel));
  const odd = [...r.warnings, ...oddOf(r, channel)];
  if (samplesCount <= wholeSamples)
    return good({
      channel,
      ...levels,
      spectrum: spectrumOf(r.samples(channel, 0, samplesCount), sampleRateHz),
      spanSamples: samplesCount,
      warnings: odd,
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
    channel,
    ...levels,
    spectrum: { ...first, magnitude: power.map((p) => Math.sqrt(p / count)) },
    spanSamples: stretchSamples,
    warnings: [...odd, said],
  });
}
