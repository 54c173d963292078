import { declare, type GroundOf, type InputsOf, inside, type PutOf } from "../../ask/declare";
import { stored } from "../../ask/stored";
import { crystal } from "../../set/addresses/crystal";
import { supplies } from "../../set/addresses/power";
import type { Bench } from "../../set/bench";
import { type Quantity, tolerance } from "../../units/quantity";
import { recordedIf } from "../inputs/dial";

/** A crystal that nobody measured lies near the IF. */
function nearTheIf(bench: Bench): Quantity | undefined {
  const ifHz = bench.strip()?.intermediateFrequency.value;
  return ifHz === undefined
    ? undefined
    : {
        value: ifHz,
        spread: tolerance(0.003 * ifHz),
        origin: "assumed",
        source: "near the IF on the service sheet, not measured",
      };
}

export const ask = declare({
  id: "phasing",
  version: 1,
  title: "Crystal filter and phasing",
  question: "Where are the single-crystal filter's notch and peak, and where is its phasing neutral?",
  found: { when: ["noisy", "fitting"], words: "crystal filter notch phasing heterodyne whistle rejection" },
  subject: "set",
  joins: false,
  works: "open-live",
  place: inside,
  draws: ["circuit"],
  steps: ["18", "21"],
  inputs: {
    intermediate: stored(supplies.intermediate, { over: recordedIf(supplies.intermediate) }),
    crystalSeries: stored(crystal.crystalSeries, { from: nearTheIf }),
    crystalMotional: stored(crystal.crystalMotional),
    crystalQ: stored(crystal.crystalQ),
    crystalHolder: stored(crystal.crystalHolder),
    phasing: stored(crystal.phasing),
    phasingLow: stored(crystal.phasingLow),
    phasingHigh: stored(crystal.phasingHigh),
    crystalAround: stored(crystal.crystalAround),
  },
  observed: ["crystalSeries"],
  readAt: inside,
  beforehand: ["phasing-avc-volts"],
  first: ["crystalSeries", "crystalHolder", "phasing", "crystalAround", "crystalMotional"],
  results: {
    neutral: { dimension: "capacitance", meaning: "phasing capacitance that balances the holder: no notch, both sides alike" },
    notchAt: { dimension: "frequency", meaning: "frequency of the notch, at this phasing" },
    notchOff: { dimension: "frequency", meaning: "notch off the crystal's own resonance, at this phasing" },
    notchDepth: { dimension: "decibel", meaning: "depth of the notch below the peak, at this phasing" },
    peakAt: { dimension: "frequency", meaning: "frequency of the peak, at this phasing" },
    peakOff: { dimension: "frequency", meaning: "peak off the IF, at this phasing" },
    width: { dimension: "frequency", meaning: "width at -3 dB, phasing neutral" },
    ringing: { dimension: "time", meaning: "time in which a note dies away to 1/e" },
    reachBelow: { dimension: "frequency", meaning: "nearest notch below the crystal's resonance, phasing at maximum" },
    reachAbove: { dimension: "frequency", meaning: "nearest notch above the crystal's resonance, phasing at minimum" },
  },
  key: ["neutral", "notchAt", "peakOff"],
  curves: {
    asItStands: { x: "frequency", y: "decibel", holds: "power", meaning: "response at this phasing" },
    balanced: { x: "frequency", y: "decibel", holds: "power", meaning: "response with the phasing neutral" },
  },
  figures: [
    {
      id: "response",
      title: "The crystal filter, at this phasing and at neutral",
      xLabel: "frequency",
      yLabel: "relative to the neutral peak",
      traces: [
        { label: "at this phasing", curve: "asItStands", stroke: "accent", band: true },
        { label: "neutral", curve: "balanced", stroke: "ink" },
      ],
      marks: [
        { at: "notchAt", label: "notch" },
        { at: "crystalSeries", label: "crystal", known: true },
      ],
      yFrom: -80,
    },
  ],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
