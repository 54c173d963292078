import { declare, type GroundOf, type InputsOf, inside, type PutOf } from "../../ask/declare";
import { stored } from "../../ask/stored";
import { drift } from "../../set/addresses/drift";
import type { Row } from "../../set/columns";

const example: Row[] = Array.from({ length: 31 }, (_, i) => ({
  time: i * 180,
  frequency: Math.round(7.1e6 + 600 * Math.exp(-i / 2) + 1500 * Math.exp(-i / 10) + 4 * Math.sin(i * 2.4)),
  temperature: Number.NaN,
  line: Number.NaN,
  room: Number.NaN,
}));

export const ask = declare({
  id: "drift",
  version: 3,
  title: "Warm-up drift",
  question: "When is the set warm enough to use, what makes it drift, and which capacitor would stop it?",
  found: { when: ["off frequency"], words: "drifts warm up wanders creeps temperature compensation NPO" },
  subject: "set",
  joins: false,
  works: "open-dead",
  place: inside,
  draws: ["circuit"],
  steps: ["17", "30"],
  inputs: {
    driftLog: stored(drift.driftLog, { example }),
    oscillatorFrequency: stored(drift.oscillatorFrequency),
    minuteLimit: stored(drift.minuteLimit),
    warmUp: stored(drift.warmUp),
    temperatureRise: stored(drift.temperatureRise),
    gangNow: stored(drift.gangNow),
    fixedCapacitance: stored(drift.fixedCapacitance),
    gangEnd: stored(drift.gangEnd),
    coilCoefficient: stored(drift.coilCoefficient),
    gangCoefficient: stored(drift.gangCoefficient),
    compensator: stored(drift.compensator),
    replacedCoefficient: stored(drift.replacedCoefficient),
  },
  observed: ["driftLog"],
  readAt: inside,
  first: ["minuteLimit", "warmUp", "oscillatorFrequency", "temperatureRise", "fixedCapacitance"],
  results: {
    inLog: { dimension: "frequency", meaning: "drift within the log, first reading to last", known: 10 },
    atEnd: { dimension: "frequency", meaning: "drift per minute at the end of the log" },
    whole: { dimension: "frequency", meaning: "drift from the first reading to the end" },
    left: { dimension: "frequency", meaning: "part of the whole drift still to come after the warm-up" },
    fitAfter: { dimension: "time", meaning: "time after which the set drifts no more than the limit in a minute" },
    slow: { dimension: "time", meaning: "slow time constant", known: 1 },
    fast: { dimension: "time", meaning: "fast time constant", known: 1 },
    byLine: { dimension: "frequency", meaning: "shift for 1 % of line voltage" },
    perKelvin: { dimension: "ppm", meaning: "drift per kelvin, of the oscillator's frequency" },
    needed: {
      dimension: "capacitance",
      meaning: "capacitor of the compensator's coefficient that stops the drift here, in place of an equal part of the old one",
    },
    otherEnd: { dimension: "ppm", meaning: "drift per kelvin left at the second place of the dial, compensated" },
    miss: { dimension: "frequency", meaning: "scatter of the readings about the fit, rms", known: 0.1 },
  },
  key: ["fitAfter", "left", "needed"],
  curves: {
    log: { x: "time", y: "frequency", meaning: "readings, relative to the last" },
    fit: { x: "time", y: "frequency", meaning: "fit, relative to the last reading" },
  },
  figures: [
    {
      id: "log",
      title: "The log and its fit, relative to the last reading",
      xLabel: "since switching on",
      yLabel: "frequency",
      traces: [
        { label: "readings", curve: "log", stroke: "ink", points: true },
        { label: "fit", curve: "fit", stroke: "accent", dash: true },
      ],
    },
  ],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
