import { declare, type GroundOf, type InputsOf, inside, type NamesOf, type PutOf } from "../../ask/declare";
import { atSubject, stored } from "../../ask/stored";
import { bands } from "../../set/addresses/bands";
import { dial } from "../../set/addresses/dial";
import { tracking as topic } from "../../set/addresses/tracking";
import type { Bench } from "../../set/bench";
import { exact, type Quantity } from "../../units/quantity";
import { dialInputs, scaleUnitHz } from "../inputs/dial";

/** A scale that is marked in frequency says both by itself. */
const readFromScale = (bench: Bench) => {
  const points = bench.points(bench.at);
  const unit = scaleUnitHz(points);
  return unit === undefined ? undefined : points.map((p) => ({ dial: p.reading * unit, received: p.frequencyHz, counted: Number.NaN }));
};
/** What one reading of the scale is good for, where that was read and the scale is marked in frequency: of the middle of its marks. */
function noiseOfScale(bench: Bench): Quantity | undefined {
  const points = bench.points(bench.at);
  const unit = scaleUnitHz(points);
  const read = bench.quantity(atSubject(dial.readingNoiseDivisions.address, bench.at));
  if (unit === undefined || !read) return undefined;
  const middleHz = Math.exp(points.reduce((s, p) => s + Math.log(p.frequencyHz), 0) / points.length);
  return { value: (read.value * unit) / middleHz, spread: exact, origin: read.origin, source: `one reading of the scale: ${read.source}` };
}

const off = (meaning: string) => ({ x: "frequency", y: "frequency", meaning }) as const;
/** Readings of a share or a frequency are known to this at best. */
const shareKnown = { dimension: "fraction", known: 1e-3 } as const;
const hzKnown = { dimension: "frequency", known: 10 } as const;

export const ask = declare({
  id: "tracking",
  version: 4,
  title: "Tracking of the oscillator",
  question: "How well can the oscillator track, and which part is off?",
  found: { when: ["off frequency", "weak"], words: "tracking padder trimmer oscillator high end low end dead spot scale ends don't meet" },
  subject: "band",
  joins: false,
  works: "open-live",
  place: inside,
  draws: ["circuit"],
  steps: ["23", "24"],
  inputs: {
    readings: stored(topic.trackingReadings, { from: readFromScale }),
    peaks: stored(topic.trackingPeaks),
    trials: stored(topic.trackingTrials),
    dialDrawnTo: stored(topic.dialDrawnTo),
    oscillator: stored(bands.oscillator),
    padderLayout: stored(topic.padderLayout),
    points: stored(topic.points),
    exactAt: stored(topic.trackingExactAt),
    low: stored(bands.low, { usual: [1.6e6, 0, "an example"] }),
    high: stored(bands.high, { usual: [4.8e6, 0, "an example"] }),
    intermediate: dialInputs.intermediate,
    gangLow: stored(topic.gangLow),
    gangHigh: stored(topic.gangHigh),
    signalQ: stored(bands.signalQ),
    readingNoise: stored(topic.readingNoiseShare, { from: noiseOfScale }),
    peakDoubt: stored(topic.peakDoubt),
    ifMoved: stored(topic.ifMoved),
    slugRange: stored(topic.slugRange),
    trimmerTravel: stored(topic.trimmerTravel),
    coilDoubt: stored(topic.coilDoubt),
    trimmerDoubt: stored(topic.trimmerDoubt),
    padderDoubt: stored(topic.padderDoubt),
    gangDoubt: stored(topic.gangDoubt),
  },
  first: ["low", "high", "gangHigh", "signalQ", "readingNoise"],
  results: {
    worst: { ...hzKnown, meaning: "worst departure of the oscillator from what the signal circuit needs over the band, all parts right" },
    worstLoss: { dimension: "decibel", meaning: "loss in the signal circuit by the worst tracking error, at the worst place", known: 0.1 },
    coil: { dimension: "inductance", meaning: "oscillator coil" },
    trimmer: { dimension: "capacitance", meaning: "oscillator trimmer, strays included" },
    padder: { dimension: "capacitance", meaning: "oscillator padder" },
    signalCoil: { dimension: "inductance", meaning: "signal coil on the same gang" },
    coilOff: { ...shareKnown, meaning: "fractional error of the oscillator coil" },
    trimmerOff: { ...shareKnown, meaning: "fractional error of the oscillator trimmer, the gang's own capacitance uncertain" },
    padderOff: { ...shareKnown, meaning: "fractional error of the oscillator padder" },
    acrossOff: { dimension: "capacitance", known: 0.1e-12, meaning: "too much across the gang in all: trimmer, strays and the gang's own" },
    left: { dimension: "frequency", known: 300, meaning: "worst reading error that coil, trimmer and padder leave unexplained" },
    signalCoilOff: { ...shareKnown, meaning: "fractional error of the signal coil" },
    signalTrimmerOff: {
      ...shareKnown,
      meaning: "fractional error of the signal trimmer, the excess of its gang section included",
    },
    slugBy: { ...shareKnown, meaning: "next adjustment of the slug: change of the coil's inductance" },
    trimmerBy: { dimension: "capacitance", known: 0.1e-12, meaning: "next adjustment of the trimmer, together with the slug's" },
    afterwards: { dimension: "frequency", known: 100, meaning: "worst dial error on the band after the next adjustment" },
    slugTurns: { dimension: "ratio", known: 0.01, meaning: "turns of the slug for the next adjustment, clockwise positive" },
    trimmerTurns: { dimension: "ratio", known: 0.01, meaning: "turns of the trimmer for the next adjustment, clockwise positive" },
    dialShift: { ...hzKnown, meaning: "by how much the moved IF alone shifts what every mark receives" },
    shiftSlug: { ...shareKnown, meaning: "change of the coil that makes up for the moved IF" },
    shiftTrimmer: {
      dimension: "capacitance",
      known: 0.1e-12,
      meaning: "change of the trimmer that makes up for the moved IF, together with the coil's",
    },
    shiftLeft: { ...hzKnown, meaning: "worst error on the band with the moved IF made up for" },
  },
  key: ["worst", "coilOff", "acrossOff"],
  curves: {
    error: off("departure of the oscillator from what the signal circuit needs, all parts right"),
    loss: { x: "frequency", y: "decibel", meaning: "loss in the signal circuit by the tracking error" },
    coilMore: off("frequency received minus the dial's, with 1 % more coil"),
    trimmerMore: off("frequency received minus the dial's, with 5 % more trimmer"),
    padderMore: off("frequency received minus the dial's, with 2 % more padder"),
    read: off("frequency received minus the dial's, as read"),
    straysMore: off("frequency received minus the dial's, with 1 pF more across the gang"),
  },
  figures: [
    {
      id: "error",
      title: "Oscillator minus what the signal circuit needs",
      xLabel: "dial",
      yLabel: "off by",
      traces: [{ label: "all parts right", curve: "error", stroke: "ink" }],
    },
    {
      id: "loss",
      title: "What the tracking error costs in the signal circuit",
      xLabel: "dial",
      yLabel: "lost",
      traces: [{ label: "all parts right", curve: "loss", stroke: "ink", band: true }],
      yFrom: 0,
    },
    {
      id: "effects",
      title: "What a part that is too large does",
      xLabel: "dial",
      yLabel: "received minus dial",
      traces: [
        { label: "coil 1 % more", curve: "coilMore", stroke: "ink" },
        { label: "trimmer 5 % more", curve: "trimmerMore", stroke: "accent" },
        { label: "padder 2 % more", curve: "padderMore", stroke: "faint", dash: true },
        { label: "1 pF more across the gang", curve: "straysMore", stroke: "faint" },
        { label: "as read", curve: "read", stroke: "ink", points: true },
      ],
    },
  ],
});
export type Asked = InputsOf<typeof ask>;
export type Names = NamesOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
