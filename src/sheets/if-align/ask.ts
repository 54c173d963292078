import { declare, type GroundOf, type InputsOf, inside, type PutOf } from "../../ask/declare";
import { stored } from "../../ask/stored";
import { alignment } from "../../set/addresses/alignment";
import type { Bench } from "../../set/bench";
import { stripAsFittedInput } from "../inputs/strip-and-cable";

/** A filter that the set is described with. */
const describedFilter = (bench: Bench) => (bench.strip()?.filter ? "ceramic or mechanical filter" : undefined);

export const ask = declare({
  id: "if-align",
  version: 1,
  title: "Aligning the IF",
  question: "In what order, how, and to what centre do I align these IF cans?",
  found: { when: ["weak", "off frequency"], words: "align IF peak cans slugs stagger 455 alignment generator" },
  subject: "set",
  joins: false,
  works: "open-live",
  place: inside,
  draws: ["circuit"],
  steps: ["18", "19", "20"],
  inputs: {
    strip: stripAsFittedInput,
    oscillator: stored(alignment.oscillator),
    narrowest: stored(alignment.narrowest, { from: describedFilter }),
    humpFrom: stored(alignment.humpFrom),
    feel: stored(alignment.feel),
    humpSpacing: stored(alignment.humpSpacing),
    humpValley: stored(alignment.humpValley),
    humpDifference: stored(alignment.humpDifference),
    canCapacitance: stored(alignment.canCapacitance),
    filterCentre: stored(alignment.filterCentre),
    crystalWidth: stored(alignment.crystalWidth),
  },
  first: ["humpSpacing", "humpValley", "humpDifference", "filterCentre", "canCapacitance"],
  results: {
    centreToUse: { dimension: "frequency", meaning: "centre to align to", known: 50 },
    dialShift: {
      dimension: "frequency",
      meaning: "how much higher every dial mark receives once the IF is moved and the oscillator left alone",
    },
    mostOver: { dimension: "ratio", meaning: "coupling of the most coupled can as a multiple of critical (k Q)" },
    lostByOneKhz: { dimension: "decibel", meaning: "gain lost by 1 kHz of error in the first primary" },
    pairA: {
      dimension: "ratio",
      meaning: "coupling as a multiple of critical, from the humps: an upper limit where the windings may be tuned apart",
      known: 0.01,
    },
    pairQ: { dimension: "ratio", meaning: "loaded Q, from the humps", known: 1 },
    pairK: { dimension: "ratio", meaning: "coupling k, from the humps", known: 2e-4 },
    pairWidth: { dimension: "frequency", meaning: "width at -6 dB below the humps", known: 100 },
    loading: {
      dimension: "resistance",
      meaning: "resistor across one winding that brings the can with two humps below critical (a quarter of its Q, or less)",
      known: 1000,
    },
    sweepWidth: { dimension: "frequency", meaning: "width of sweep to set: three times the pass band" },
    sweepRate: { dimension: "frequency", meaning: "fastest sweep that the narrowest resonance follows: change of frequency in one second" },
  },
  key: ["centreToUse", "mostOver", "sweepRate"],
  curves: {
    primary: { x: "frequency", y: "decibel", holds: "power", meaning: "output against the first can's primary" },
    secondary: { x: "frequency", y: "decibel", holds: "power", meaning: "output against the first can's secondary" },
  },
  figures: [
    {
      id: "slug",
      title: "What the output does as a winding of the first can is tuned through the IF",
      xLabel: "winding off the IF",
      yLabel: "output",
      traces: [
        { label: "primary", curve: "primary", stroke: "accent", band: true },
        { label: "secondary", curve: "secondary", stroke: "ink" },
      ],
      marks: [
        { at: "strip.can1.primaryOffset", label: "primary now", known: true },
        { at: "strip.can1.secondaryOffset", label: "secondary now", known: true },
      ],
    },
  ],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
