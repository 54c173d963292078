import { chassisInput } from "../../ask/chassis";
import { declare, type GroundOf, type InputsOf, inside, type PutOf } from "../../ask/declare";
import { stored } from "../../ask/stored";
import { states } from "../../set/addresses/accessory";
import { converter as topic } from "../../set/addresses/converter";

const read = { optional: true, reading: true } as const;
const db = (meaning: string) => ({ dimension: "decibel", meaning, known: 0.1 }) as const;

export const ask = declare({
  id: "converter-setting",
  version: 1,
  title: "Setting a crystal converter",
  question: "How far off is the converter's crystal, how do I trim it and peak the input, and is the gain right for this receiver?",
  found: {
    when: ["fitting", "weak"],
    words: "converter off frequency trim its crystal peak its front end too much gain overloads pad attenuator deaf at the band's end",
  },
  subject: "fitting",
  fitting: "converter",
  joins: true,
  works: "open-live",
  place: inside,
  draws: ["circuit"],
  steps: ["32"],
  inputs: {
    chassis: chassisInput,
    crystal: stored(topic.crystal, { usual: [2.45e7, 0, "an example"] }),
    crystalCounted: stored(topic.crystalCounted, read),
    heard: stored(topic.converterHeard, { none: "no signal heard yet" }),
    readsLow: stored(topic.readsLow),
    heardDoubt: stored(topic.heardDoubt),
    crystalWanted: stored(topic.crystalWanted),
    crystalCut: stored(topic.crystalCut),
    pullMotional: stored(topic.pullMotional),
    pullHolder: stored(topic.pullHolder),
    pullLoad: stored(topic.pullLoad),
    pullTravel: stored(topic.pullTravel),
    wantedLow: stored(topic.wantedLow),
    wantedHigh: stored(topic.wantedHigh),
    inputCircuits: stored(topic.inputCircuits),
    inputQ: stored(topic.inputQ),
    levelAtLow: stored(topic.levelAtLow, read),
    levelAtMiddle: stored(topic.levelAtMiddle, read),
    levelAtHigh: stored(topic.levelAtHigh, read),
    levelWithout: stored(states.levelWithout, read),
    levelWith: stored(states.levelWith, read),
    levelDoubt: stored(states.levelDoubt),
    ownNoise: stored(topic.ownNoise),
    behindNoise: stored(topic.behindNoise),
    airNoise: stored(topic.airNoise),
    padResistance: stored(topic.padResistance),
  },
  first: ["crystalCounted", "readsLow", "levelWithout", "levelWith", "inputQ"],
  results: {
    crystalOff: { dimension: "frequency", meaning: "frequency of the converter's crystal minus its marking", known: 5 },
    crystalError: { dimension: "ppm", meaning: "error of the converter's crystal" },
    pullPerPicofarad: { dimension: "ppm", meaning: "how far one more picofarad pulls the converter's crystal" },
    trimmerChange: { dimension: "capacitance", meaning: "change that the converter's trimmer needs", known: 0.05e-12 },
    lowersBy: { dimension: "frequency", meaning: "most that the trimmer can lower the crystal from its present setting", known: 5 },
    raisesBy: { dimension: "frequency", meaning: "most that the trimmer can raise the crystal from its present setting", known: 5 },
    peakAt: { dimension: "frequency", meaning: "where the input circuits are peaked", known: 5e3 },
    endsLoss: db("loss of the input circuits at the band's ends, peaked in the middle"),
    lowLost: db("loss read at the lower end, relative to the middle"),
    highLost: db("loss read at the upper end, relative to the middle"),
    gain: db("gain of the converter, by generator levels with the converter and without"),
    leastGain: db("gain above which the receiver behind it costs no more than 1 dB against the antenna noise"),
    toTakeOff: db("gain over 20 dB, to be taken off between converter and receiver"),
    padAcross: { dimension: "resistance", meaning: "resistor across each end of a pad that takes off the gain over 20 dB", known: 1 },
    padInSeries: { dimension: "resistance", meaning: "series resistor of a pad that takes off the gain over 20 dB", known: 1 },
  },
  key: ["crystalOff", "endsLoss", "gain"],
  curves: {
    ends: { x: "frequency", y: "decibel", meaning: "what the input circuits take off, peaked in the middle" },
    read: { x: "frequency", y: "decibel", meaning: "extra level needed relative to the middle, as read" },
  },
  figures: [
    {
      id: "ends",
      title: "What the input circuits take off over the band, peaked in the middle",
      xLabel: "frequency",
      yLabel: "down by",
      traces: [
        { label: "input circuits", curve: "ends", stroke: "ink", band: true },
        { label: "as read", curve: "read", stroke: "ink", points: true },
      ],
      marks: [
        { at: "wantedLow", label: "band from" },
        { at: "wantedHigh", label: "to" },
      ],
      yFrom: 0,
    },
  ],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
