import { declare, type GroundOf, inside, type PutOf } from "../../ask/declare";
import { stored } from "../../ask/stored";
import { alignment } from "../../set/addresses/alignment";
import { history, slugsByHistory } from "../../set/addresses/history";
import type { Bench } from "../../set/bench";
import { stripAsFittedInput } from "../inputs/strip-and-cable";

const width = (level: number) => ({ dimension: "frequency", meaning: `width at -${level} dB` }) as const;

/** The job's own sweeps tell it. */
function sweepReaches60dB(bench: Bench): "no" | "yes" | undefined {
  const told = bench.choice("readings.reach60dB");
  return told === "no" || told === "yes" ? told : undefined;
}

export const ask = declare({
  id: "if-response",
  version: 2,
  title: "What the IF passes",
  question: "What does this IF strip pass?",
  found: { when: ["weak", "proving"], words: "bandwidth selectivity sweep alignment broad sharp double hump nose skirt" },
  subject: "set",
  joins: false,
  works: "open-live",
  place: inside,
  draws: ["circuit"],
  steps: ["20", "33b"],
  inputs: {
    strip: stripAsFittedInput,
    slugsTouched: stored(alignment.slugsTouched, { from: (b) => slugsByHistory(b.choice(history.slugsTurned.address)) }),
    sweepReaches60dB: stored(alignment.sweepReaches60dB, { over: sweepReaches60dB }),
  },
  first: ["strip", "slugsTouched"],
  results: {
    centre: { dimension: "frequency", meaning: "middle of the -6 dB points" },
    peakFrequency: { dimension: "frequency", meaning: "frequency of the peak" },
    width3dB: width(3),
    width6dB: { ...width(6), gives: "strip.width6dB" },
    width20dB: width(20),
    width60dB: { dimension: "frequency", meaning: "width at -60 dB, model without strays" },
    shapeFactor: { dimension: "ratio", meaning: "ratio of the -60 dB width to the -6 dB width, model without strays" },
    gain: { dimension: "decibel", meaning: "voltage gain, mixer grid to detector, at the IF, without AVC" },
    audioBandwidthAm: { dimension: "frequency", meaning: "AM audio, to half its power (-3 dB)", gives: "strip.audioAm" },
    noiseBandwidth: { dimension: "frequency", meaning: "noise bandwidth" },
    adjacentRejection5kHz: { dimension: "decibel", meaning: "rejection 5 kHz off centre, worse side", gives: "strip.rejection5kHz" },
    offCentre: { dimension: "frequency", meaning: "middle of the pass band, off the IF" },
  },
  key: ["width6dB", "audioBandwidthAm", "adjacentRejection5kHz"],
  curves: {
    response: {
      x: "frequency",
      y: "decibel",
      holds: "power",
      meaning: "response relative to its peak; below -50 dB a model without strays",
    },
  },
  figures: [
    {
      id: "response",
      title: "Response of the IF strip",
      xLabel: "frequency",
      yLabel: "relative to the peak",
      traces: [{ label: "this strip", curve: "response", stroke: "ink", band: true }],
      yFrom: -80,
      floor: { y: -50, label: "below this: model without strays" },
      overSweep: "last",
    },
  ],
});
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
