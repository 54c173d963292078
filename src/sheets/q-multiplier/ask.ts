import { chassisInput } from "../../ask/chassis";
import { declare, type GroundOf, type InputsOf, inside, type PutOf } from "../../ask/declare";
import { stored } from "../../ask/stored";
import { joint } from "../../set/addresses/plate-joint";
import { multiplier } from "../../set/addresses/q-multiplier";
import { audio } from "../../set/addresses/whole";
import { cableCapacitancePerLengthInput, stripAliases, stripInput } from "../inputs/strip-and-cable";

const db = (meaning: string) => ({ dimension: "decibel", meaning }) as const;
const hz = (meaning: string) => ({ dimension: "frequency", meaning }) as const;
const ratio = (meaning: string) => ({ dimension: "ratio", meaning }) as const;
const part = (meaning: string) => ({ dimension: "fraction", meaning }) as const;
const curve = (meaning: string) => ({ x: "frequency", y: "decibel", holds: "power", meaning }) as const;

export const ask = declare({
  id: "q-multiplier",
  version: 3,
  title: "A Q multiplier on this strip",
  question: "What does a Q multiplier gain on this set, on AM, SSB and CW?",
  found: { when: ["fitting", "noisy"], words: "q multiplier peak null selectivity oscillates heterodyne narrow" },
  subject: "fitting",
  fitting: "q-multiplier",
  joins: true,
  works: "open-dead",
  place: inside,
  draws: ["circuit"],
  steps: ["31b", "33b"],
  inputs: {
    chassis: chassisInput,
    strip: stripInput,
    cableType: stored(joint.cableType),
    function: stored(multiplier.function),
    nullCircuit: stored(multiplier.nullCircuit),
    tankCapacitance: stored(multiplier.tankCapacitance),
    tankQ: stored(multiplier.tankQ),
    couplingCapacitance: stored(joint.couplingCapacitance),
    cableLength: stored(joint.cableLength),
    cableCapacitancePerLength: cableCapacitancePerLengthInput,
    coilQ: stored(joint.coilQ),
    regeneration: stored(multiplier.regeneration),
    tuningOffset: stored(multiplier.tuningOffset),
    tuningRange: stored(multiplier.tuningRange),
    dividerRatio: stored(multiplier.dividerRatio),
    transconductance: stored(multiplier.transconductance),
    amplificationFactor: stored(multiplier.amplificationFactor),
    lineChange: stored(multiplier.lineChange),
    gmLineExponent: stored(multiplier.gmLineExponent),
    audioFloor: stored(multiplier.audioFloor),
    audioLow: stored(audio.low, { usual: [300, 50, "usual speech band"] }),
    audioHigh: stored(audio.high),
    cwPitch: stored(multiplier.cwPitch),
    nullCoupling: stored(multiplier.nullCoupling),
    nullLoopGain: stored(multiplier.nullLoopGain),
    nullBalanceError: stored(multiplier.nullBalanceError),
  },
  aliases: stripAliases,
  first: ["strip", "tankQ", "regeneration", "coilQ", "cableLength"],
  results: {
    width6dBBefore: { ...hz("width at -6 dB without the accessory"), gives: "strip.width6dB" },
    audioBefore: { ...hz("AM audio without the accessory, to half its power (-3 dB)"), gives: "strip.audioAm" },
    rejectionBefore: { ...db("rejection 5 kHz off without the accessory, worse side"), gives: "strip.rejection5kHz" },
    multipliedQ: ratio("Q of tank and plate together"),
    peakFrequency: hz("frequency of the peak"),
    width6dB: hz("width at -6 dB"),
    width60dB: hz("width at -60 dB, model without strays"),
    gainChange: db("change of gain at the IF with the accessory"),
    gainAtPeak: db("change of gain at the peak with the accessory"),
    audioBandwidthAm: hz("AM audio, to half its power (-3 dB)"),
    noiseImprovementAm: db("noise reduction on AM at this setting"),
    noiseImprovementSsb: db("noise reduction on SSB at this setting, after the audio filter"),
    noiseImprovementCw: db("noise reduction on CW at this setting, after the audio filter"),
    rejection5kHz: db("rejection 5 kHz off, worse side"),
    amSetting: part("regeneration that keeps the AM audio asked for"),
    amNoiseGainUsable: db("noise reduction on AM with the audio kept"),
    amRejectionGainUsable: db("more rejection 5 kHz off on AM with the audio kept"),
    criticalConductance: { dimension: "conductance", meaning: "feedback conductance at which the tank oscillates" },
    seriesResistance: { dimension: "resistance", meaning: "series resistance that gives this setting of regeneration" },
    reachesOscillation: ratio("most feedback the tube gives, as a multiple of what makes it oscillate"),
    regenerationMargin: part("how much more feedback makes the tank oscillate, at the IF"),
    oscillationAcrossTuning: part("how much more feedback makes the tank oscillate, at the worst end of the tuning"),
    survivingRegeneration: part("highest setting that survives tuning and line change"),
    nullFrequency: hz("where the null is deepest"),
    nullDepth: db("depth of the null"),
    nullWidth: hz("width over which the null takes off 3 dB or more"),
  },
  key: ["noiseImprovementCw", "amNoiseGainUsable", "survivingRegeneration", "nullDepth"],
  curves: { before: curve("response without the accessory"), after: curve("response with the accessory") },
  figures: [
    {
      id: "multiplier",
      title: "The strip without and with the accessory",
      xLabel: "frequency",
      yLabel: "relative to its own peak",
      traces: [
        { label: "without", curve: "before", stroke: "faint" },
        { label: "with it", curve: "after", stroke: "ink", band: true },
      ],
      marks: [
        { at: "peakFrequency", label: "its peak" },
        { at: "nullFrequency", label: "its null" },
      ],
      yFrom: -60,
      floor: { y: -50, label: "below this: model without strays" },
      overSweep: "last",
    },
  ],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
/** Plain inputs that the solution sees. */
export type MultiplierInputs = Omit<Asked, "chassis" | "cableType">;
