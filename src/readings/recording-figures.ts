import { median } from "../numerics/order";
import type { Dimension } from "../units/dimensions";
import type { Heard } from "./recording";
import { bandLevelDbfs, type Spectrum, strongestTone, type Tone, trackTone } from "./spectrum";
import type { Recording } from "./wav";

/** One figure of a recording; `from` and `to` where it is a range that it ran over, not a doubt. */
export interface RecordingFigure {
  readonly name: string;
  readonly dimension: Dimension;
  readonly value: number;
  /** standard uncertainty; 0 where it says nothing */
  readonly u: number;
  readonly ran?: { readonly from: number; readonly to: number };
}
/** A line stands above noise where it is so many times the median beside it: white noise does it once in a hundred million bins. */
const standsAt = 5.2;
const mostTones = 4;
/** A tone is followed by stretches of so many samples at most. */
const longestSamples = 2 ** 17;

/** Median magnitude of the bins beside a frequency, its own line left out. */
function floorAt(s: Spectrum, hz: number, halfWidthHz: number): number {
  const at = (f: number): number => Math.min(s.magnitude.length - 1, Math.max(1, Math.round(f / s.binHz)));
  const beside: number[] = [];
  for (let k = at(hz - 5 * halfWidthHz); k <= at(hz + 5 * halfWidthHz); k++)
    if (Math.abs(k * s.binHz - hz) > halfWidthHz) beside.push(s.magnitude[k]);
  return beside.length > 0 ? median(beside) : 0;
}
/** Whether a line stands above the noise beside it within a few hertz. */
function stands(s: Spectrum, hz: number, halfWidthHz: number): boolean {
  let most = 0;
  for (let k = Math.ceil((hz - halfWidthHz) / s.binHz); k <= Math.floor((hz + halfWidthHz) / s.binHz); k++)
    most = Math.max(most, s.magnitude[k] ?? 0);
  return most > standsAt * floorAt(s, hz, halfWidthHz);
}

/**
 * What a recording says: levels, its strongest tones, hum where it stands above the noise, and hum that rides on the strongest tone.
 *
 * A tone that wanders is given with the range that it ran over, followed by stretches; one that stands is known to the scatter of those stretches.
 *
 * @param r the recording
 * @param heard its levels and spectrum
 * @returns figures in the order to print them
 * @source definitions; lines told from noise by the median beside them, rate checked in recording-figures.test.ts
 */
export function recordingFigures(r: Recording, heard: Heard): RecordingFigure[] {
  const { sampleRateHz } = r;
  const s = heard.spectrum;
  const db = (name: string, value: number): RecordingFigure => ({ name, dimension: "decibel", value: Math.round(value * 100) / 100, u: 0 });
  const out = [db("peak, re full scale", heard.peakDbfs), db("rms, re full scale", heard.rmsDbfs)];
  // half as wide again as the line of so short a recording
  const halfWidthHz = Math.max(2, (6 * sampleRateHz) / heard.spanSamples);
  const tones = tonesOf(s, sampleRateHz, halfWidthHz);
  tones.forEach((tone, k) => {
    const name = k === 0 ? "strongest tone" : `tone ${k + 1}`;
    out.push({ name, dimension: "frequency", ...followed(r, heard.channel, tone) });
    out.push(db(k === 0 ? "its level, peak, re full scale" : `level of tone ${k + 1}, peak, re full scale`, tone.peakDbfs));
  });
  const within = (hz: number): boolean => hz > halfWidthHz && hz + 5 * halfWidthHz < sampleRateHz / 2;
  for (const hz of [50, 60, 100, 120, 150, 180])
    if (within(hz) && stands(s, hz, 2)) out.push(db(`hum at ${hz} Hz, rms, re full scale`, bandLevelDbfs(s, hz, 2)));
  const carrier = tones[0];
  if (carrier && carrier.hz > 250)
    for (const hz of [50, 60, 100, 120]) {
      const sides = [carrier.hz - hz, carrier.hz + hz];
      if (!sides.every((f) => within(f) && stands(s, f, 2))) continue;
      const side = sides.map((f) => strongestTone(s, f - 2, f + 2).peakDbfs);
      out.push(db(`hum on the tone, ${hz} Hz to each side, relative to the tone`, (side[0] + side[1]) / 2 - carrier.peakDbfs));
    }
  return out;
}

/** The strongest lines above the noise, strongest first. */
function tonesOf(s: Spectrum, sampleRateHz: number, halfWidthHz: number): Tone[] {
  const rest = { ...s, magnitude: s.magnitude.slice() };
  const out: Tone[] = [];
  while (out.length < mostTones) {
    const tone = strongestTone(rest, 1, sampleRateHz / 2);
    if (!(tone.hz > 0) || !stands(s, tone.hz, halfWidthHz)) break;
    if (out.length > 0 && tone.peakDbfs < out[0].peakDbfs - 40) break;
    out.push(tone);
    for (let k = Math.max(0, Math.ceil((tone.hz - halfWidthHz) / s.binHz)); k <= (tone.hz + halfWidthHz) / s.binHz; k++)
      if (k < rest.magnitude.length) rest.magnitude[k] = 0;
  }
  return out;
}
/** Frequency of a tone by stretches: where it stands their mean and its scatter, where it wanders the range that it ran over. */
function followed(r: Recording, channel: number, tone: Tone): Pick<RecordingFigure, "value" | "u" | "ran"> {
  const { sampleRateHz } = r;
  const wholeS = r.samplesCount / sampleRateHz;
  const lengthS = Math.min(longestSamples / sampleRateHz, Math.max(wholeS / 24, Math.min(wholeS / 4, 20 / Math.max(1, tone.hz))));
  const reachHz = Math.max(3 / lengthS, 2);
  const length = Math.round(lengthS * sampleRateHz);
  const count = Math.min(24, Math.floor(r.samplesCount / length));
  const frame = {
    lengthS,
    hopS: lengthS,
    padRatio: 8,
    fromHz: Math.max(0.5, tone.hz - reachHz),
    toHz: Math.min(sampleRateHz / 2, tone.hz + reachHz),
  };
  // stretches spread evenly over the recording, however long it is
  const hz = Array.from({ length: count }, (_, k) =>
    r.samples(channel, count > 1 ? Math.round((k * (r.samplesCount - length)) / (count - 1)) : 0, length),
  ).flatMap((x) => trackTone(x, sampleRateHz, frame).map((t) => t.hz));
  if (hz.length < 4) return { value: tone.hz, u: 0.1 / wholeS };
  const mean = hz.reduce((t, v) => t + v, 0) / hz.length;
  const spread = Math.sqrt(hz.reduce((t, v) => t + (v - mean) ** 2, 0) / (hz.length - 1));
  const jumps = Math.sqrt(hz.reduce((t, v, i) => t + (i > 0 ? (v - hz[i - 1]) ** 2 : 0), 0) / (2 * (hz.length - 1)));
  // a steady tone scatters alike from stretch to stretch and over all; a wandering one comes back to its neighbour
  const wanders = spread > 1.5 * jumps && spread > 2e-3 / lengthS;
  const u = Math.max(spread / Math.sqrt(hz.length), 1e-3 / wholeS);
  return wanders ? { value: tone.hz, u: 0, ran: { from: Math.min(...hz), to: Math.max(...hz) } } : { value: tone.hz, u };
}
