import { declare, type GroundOf, type InputsOf, inside, type PutOf } from "../../ask/declare";
import { stored } from "../../ask/stored";
import { sensitivity } from "../../set/addresses/sensitivity";
import type { Bench } from "../../set/bench";
import { tubeNoiseOf } from "../../standards/tube-noise";

/** The tube of a stage as the set has it, where its noise is in the table. */
const tubeAt =
  (stage: RegExp, use: "amplifier" | "mixer", otherwise?: string) =>
  (b: Bench): string | undefined => {
    const all = b.tubes();
    const t = all.find((u) => stage.test(u.stage));
    if (!t) return all.length > 0 ? otherwise : undefined;
    return tubeNoiseOf(t.type, use)?.type;
  };

export const ask = declare({
  id: "sensitivity",
  version: 1,
  title: "Sensitivity, and what limits it",
  question: "How sensitive is this receiver, by a definition that holds, and what limits it: its own noise or the band's?",
  found: { when: ["weak", "noisy", "proving"], words: "sensitivity noise deaf microvolts signal to noise antenna noise figure" },
  subject: "set",
  joins: false,
  works: "panel",
  place: inside,
  draws: ["circuit"],
  steps: ["33a", "32"],
  inputs: {
    statedRatio: stored(sensitivity.statedRatio),
    statedMode: stored(sensitivity.statedMode),
    levelIs: stored(sensitivity.levelIs),
    place: stored(sensitivity.place),
    before: stored(sensitivity.before),
    rfTube: stored(sensitivity.rfTube, { from: tubeAt(/^rf/, "amplifier", "none") }),
    mixerTube: stored(sensitivity.mixerTube, { from: tubeAt(/^mixer/, "mixer") }),
    level: stored(sensitivity.level),
    ratioDb: stored(sensitivity.ratioDb),
    modulationDepth: stored(sensitivity.modulationDepth),
    noiseBandwidth: stored(sensitivity.noiseBandwidth),
    sourceResistance: stored(sensitivity.sourceResistance),
    listenAt: stored(sensitivity.listenAt),
    worldOff: stored(sensitivity.worldOff),
    rfNoise: stored(sensitivity.rfNoise),
    rfGain: stored(sensitivity.rfGain),
    mixerNoise: stored(sensitivity.mixerNoise),
    tankResistance: stored(sensitivity.tankResistance),
    stageResistance: stored(sensitivity.stageResistance),
    inputLoss: stored(sensitivity.inputLoss),
    aheadNoise: stored(sensitivity.aheadNoise),
    aheadGain: stored(sensitivity.aheadGain),
  },
  first: ["listenAt", "level", "ratioDb", "inputLoss", "rfGain"],
  results: {
    receiverNoise: {
      dimension: "decibel",
      meaning: "noise figure of the receiver: from the measured level, or else from its tubes",
      known: 0.3,
    },
    predictedNoise: { dimension: "decibel", meaning: "noise figure expected of its tubes and circuits", known: 0.3 },
    levelAsked: { dimension: "voltage", meaning: "level that the receiver alone needs, by the definition", known: 1e-8 },
    levelDbm: { dimension: "dbm", meaning: "level that the receiver alone needs, as power into it", known: 0.3 },
    worldNoise: { dimension: "decibel", meaning: "external (band) noise above thermal noise", known: 0.5 },
    lossNow: { dimension: "decibel", meaning: "signal-to-noise ratio lost to the set's own noise, against a noiseless set", known: 0.05 },
    lossWithout: {
      dimension: "decibel",
      meaning: "signal-to-noise ratio lost to the set's own noise, without what is ahead of the receiver",
      known: 0.05,
    },
    noiseForOneDb: { dimension: "decibel", meaning: "noise figure that would cost 1 dB at the frequency to listen on", known: 0.5 },
    gainForOneDb: {
      dimension: "decibel",
      meaning: "gain ahead of the set that brings its loss to 1 dB; under 0 dB a pad would do",
      known: 0.5,
    },
    gainEnough: {
      dimension: "decibel",
      meaning: "gain ahead of the set beyond which not another 0.1 dB is gained: more gain only overloads the set",
      known: 0.5,
    },
  },
  key: ["lossNow", "receiverNoise", "worldNoise", "levelAsked"],
  curves: {
    world: { x: "frequency", y: "decibel", meaning: "external (band) noise against frequency" },
    set: { x: "frequency", y: "decibel", meaning: "the set's noise figure" },
  },
  figures: [
    {
      id: "noise",
      title: "External noise and the set's own",
      xLabel: "frequency",
      yLabel: "over thermal noise",
      traces: [
        { label: "external noise", curve: "world", stroke: "accent", band: true },
        { label: "the set's noise figure", curve: "set", stroke: "ink", band: true },
      ],
      marks: [{ at: "listenAt", label: "asked about" }],
      yFrom: 0,
    },
  ],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
