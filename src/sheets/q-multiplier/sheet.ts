import { frequencyAxis, roundSpanHz } from "../../ask/axes";
import { chassisInput } from "../../ask/chassis";
import { sheet } from "../../ask/contract";
import type { QuantityInput } from "../../ask/inputs";
import { stored } from "../../ask/stored";
import { joint } from "../../set/addresses/plate-joint";
import { exact, tolerance } from "../../units/quantity";
import { cableCapacitancePerLengthInput, stripInput } from "../inputs/strip-and-cable";
import { type G, multiplierFindings, multiplierHeadline } from "./findings";
import { fillMultiplier, regenerationSteps, solveMultiplier } from "./solve";
import theory from "./theory.md";

const here =
  (name: string): QuantityInput["from"] =>
  (b) =>
    b.quantity(`${b.at}.${name}`);
const db = (meaning: string) => ({ dimension: "decibel", meaning }) as const;
const hz = (meaning: string) => ({ dimension: "frequency", meaning }) as const;
const ratio = (meaning: string) => ({ dimension: "ratio", meaning }) as const;
const part = (meaning: string) => ({ dimension: "fraction", meaning }) as const;
const curve = (meaning: string) => ({ x: "frequency", y: "decibel", holds: "power", meaning }) as const;

export const qMultiplier = sheet({
  id: "q-multiplier",
  version: 3,
  title: "A Q multiplier on this strip",
  question: "What does a Q multiplier gain on this set, on AM, SSB and CW?",
  subject: "fitting",
  fitting: "q-multiplier",
  joins: true,
  works: "open-dead",
  steps: ["31b", "33b"],
  inputs: {
    chassis: chassisInput,
    strip: stripInput,
    cableType: stored(joint.cableType),
    function: {
      kind: "choice",
      options: ["peak", "reject"],
      meaning: "what the accessory is switched to",
      howMeasured: "chosen",
      assumed: "peak",
    },
    nullCircuit: {
      kind: "choice",
      options: ["shunt", "inverse-feedback", "subtraction"],
      meaning: "how the accessory makes a null",
      howMeasured: "its schematic",
      from: (b) => b.choice(`${b.at}.nullCircuit`),
      assumed: "inverse-feedback",
    },
    tankCapacitance: {
      kind: "quantity",
      dimension: "capacitance",
      positive: true,
      meaning: "tank capacitor",
      howMeasured: "its marking, or a bridge",
      from: here("tankCapacitance"),
      assumed: { value: 1.5e-9, spread: tolerance(75e-12), source: "assumed" },
    },
    tankQ: {
      kind: "quantity",
      dimension: "ratio",
      positive: true,
      meaning: "Q of the tank without feedback",
      howMeasured: "Q meter, or the -3 dB width with regeneration off",
      from: here("tankQ"),
      assumed: { value: 130, spread: tolerance(20), source: "good shielded coil, assumed" },
    },
    couplingCapacitance: stored(joint.couplingCapacitance),
    cableLength: stored(joint.cableLength),
    cableCapacitancePerLength: cableCapacitancePerLengthInput,
    coilQ: {
      kind: "quantity",
      dimension: "ratio",
      positive: true,
      meaning: "Q of the coil that tunes out the cable",
      howMeasured: "Q meter",
      from: here("coilQ"),
      assumed: { value: 70, spread: tolerance(15), source: "small shielded slug coil, assumed" },
    },
    regeneration: {
      kind: "quantity",
      dimension: "fraction",
      min: 0,
      max: 2,
      meaning: "setting: part of the oscillation point",
      howMeasured: "multiplied width against the width without feedback",
      from: here("regeneration"),
      assumed: { value: 0.9, spread: exact, source: "a usual CW setting" },
    },
    tuningOffset: {
      kind: "quantity",
      dimension: "frequency",
      min: -20_000,
      max: 20_000,
      meaning: "tuning of the accessory, off the IF",
      howMeasured: "0 once it is centred",
      assumed: { value: 0, spread: exact, source: "centred" },
    },
    tuningRange: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      max: 20_000,
      meaning: "how far the accessory tunes to each side",
      howMeasured: "generator and detector, or beat note",
      from: here("tuningRange"),
      assumed: { value: 3000, spread: tolerance(500), source: "assumed" },
    },
    dividerRatio: {
      kind: "quantity",
      dimension: "ratio",
      positive: true,
      max: 0.99,
      meaning: "feedback divider C1/(C1 + C2)",
      howMeasured: "schematic",
      from: here("dividerRatio"),
      assumed: { value: 0.5, spread: tolerance(0.03), source: "assumed" },
    },
    transconductance: {
      kind: "quantity",
      dimension: "conductance",
      positive: true,
      meaning: "transconductance of the accessory's tube",
      howMeasured: "tube tester",
      from: here("transconductance"),
      assumed: { value: 1.6e-3, spread: tolerance(0.3e-3), source: "12AX7 class triode, from memory" },
    },
    amplificationFactor: {
      kind: "quantity",
      dimension: "ratio",
      positive: true,
      meaning: "amplification factor of the accessory's tube",
      howMeasured: "data book",
      from: here("amplificationFactor"),
      assumed: { value: 100, spread: tolerance(15), source: "12AX7 class triode, from memory" },
    },
    lineChange: {
      kind: "quantity",
      dimension: "fraction",
      min: 0,
      max: 0.3,
      meaning: "rise of the line that the setting must survive",
      howMeasured: "log the line for some days",
      assumed: { value: 0.05, spread: exact, source: "common practice, no source" },
    },
    gmLineExponent: {
      kind: "quantity",
      dimension: "ratio",
      min: 0,
      max: 3,
      meaning: "how the tube's transconductance follows the line: gm goes as line to this power",
      howMeasured: "regeneration at the oscillation point, at two line voltages",
      assumed: { value: 1, spread: tolerance(0.5), source: "assumed" },
    },
    audioFloor: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      max: 10_000,
      meaning: "AM audio that must be left",
      howMeasured: "chosen",
      assumed: { value: 1500, spread: exact, source: "readable speech, common practice, no source" },
    },
    audioLow: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      meaning: "audio filter, low end, for SSB and CW",
      howMeasured: "audio sweep",
      from: (b) => b.quantity("audio.low"),
      keptAt: "audio.low",
      assumed: { value: 300, spread: tolerance(50), source: "usual speech band" },
    },
    audioHigh: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      meaning: "audio filter, high end, for SSB and CW",
      howMeasured: "audio sweep",
      from: (b) => b.quantity("audio.high"),
      keptAt: "audio.high",
      assumed: { value: 2700, spread: tolerance(200), source: "usual speech band" },
    },
    cwPitch: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      max: 3000,
      meaning: "CW pitch",
      howMeasured: "chosen",
      assumed: { value: 800, spread: exact, source: "common practice, no source" },
    },
    nullCoupling: {
      kind: "quantity",
      dimension: "capacitance",
      positive: true,
      meaning: "shunt null: small capacitor from the plate",
      howMeasured: "schematic",
      from: here("nullCoupling"),
      assumed: { value: 5e-12, spread: tolerance(1e-12), source: "assumed" },
    },
    nullLoopGain: {
      kind: "quantity",
      dimension: "ratio",
      positive: true,
      meaning: "inverse-feedback null: loop gain at the null",
      howMeasured: "depth of the null",
      from: here("nullLoopGain"),
      assumed: { value: 31, spread: tolerance(10), source: "assumed" },
    },
    nullBalanceError: {
      kind: "quantity",
      dimension: "fraction",
      positive: true,
      max: 0.9,
      meaning: "subtraction null: error of the balance",
      howMeasured: "depth of the null",
      from: here("nullBalanceError"),
      assumed: { value: 0.03, spread: tolerance(0.02), source: "assumed" },
    },
  },
  aliases: { ifFrequency: "strip.intermediateFrequency", primaryCapacitance: "strip.can1.primaryCapacitance" },
  first: ["strip", "tankQ", "regeneration", "coilQ", "cableLength"],
  results: {
    width6dBBefore: { ...hz("width at -6 dB without the accessory"), gives: "strip.width6dB" },
    audioBefore: { ...hz("AM audio without the accessory, to half its power (-3 dB)"), gives: "strip.audioAm" },
    rejectionBefore: { ...db("rejection 5 kHz off without the accessory, worse side"), gives: "strip.rejection5kHz" },
    multipliedQ: ratio("Q of tank and plate together"),
    peakFrequency: hz("frequency of the peak"),
    width6dB: hz("width at -6 dB"),
    width60dB: hz("width at -60 dB, model without strays"),
    gainChange: db("gain at the IF, against without"),
    gainAtPeak: db("gain at the peak, against without"),
    audioBandwidthAm: hz("AM audio, to half its power (-3 dB)"),
    noiseImprovementAm: db("less noise on AM, at this setting"),
    noiseImprovementSsb: db("less noise on SSB, at this setting, after the audio filter"),
    noiseImprovementCw: db("less noise on CW, at this setting, after the audio filter"),
    rejection5kHz: db("rejection 5 kHz off, worse side"),
    amSetting: part("regeneration that keeps the AM audio asked for"),
    amNoiseGainUsable: db("less noise on AM with the audio kept"),
    amRejectionGainUsable: db("more rejection 5 kHz off on AM with the audio kept"),
    criticalConductance: { dimension: "conductance", meaning: "feedback conductance at which the tank oscillates" },
    seriesResistance: { dimension: "resistance", meaning: "series resistance that gives this setting of regeneration" },
    reachesOscillation: ratio("most feedback the tube gives, over what oscillates"),
    regenerationMargin: part("rise of feedback to oscillation, at the IF"),
    oscillationAcrossTuning: part("rise of feedback to oscillation, at the worst end of the tuning"),
    survivingRegeneration: part("highest setting that survives tuning and line change"),
    nullFrequency: hz("where the null is deepest"),
    nullDepth: db("depth of the null"),
    nullWidth: hz("width where the null takes 3 dB"),
  },
  key: ["noiseImprovementCw", "amNoiseGainUsable", "survivingRegeneration", "nullDepth"],
  curves: { before: curve("response without the accessory"), after: curve("response with the accessory") },
  prepare: (best, points) => {
    const y = solveMultiplier(best);
    const wide = typeof y.width6dBBefore === "number" ? y.width6dBBefore : 10_000;
    const span = roundSpanHz(1.2 * wide);
    const axes = {
      before: frequencyAxis(best.strip.intermediateFrequency, span, points),
      after: frequencyAxis(best.strip.intermediateFrequency, span, points),
    };
    return {
      axes,
      solve: (x, into) => {
        const y = solveMultiplier(x);
        fillMultiplier(x, axes.before, into);
        return y;
      },
    };
  },
  tables: (best) =>
    best.function === "reject"
      ? []
      : [
          {
            id: "regeneration",
            title: "From no regeneration to just under oscillation (best values)",
            columns: [
              { name: "setting", dimension: "fraction" },
              { name: "Q", dimension: "ratio" },
              { name: "-6 dB", dimension: "frequency" },
              { name: "AM audio", dimension: "frequency" },
              { name: "gain", dimension: "decibel" },
              { name: "5 kHz off", dimension: "decibel" },
              { name: "noise AM", dimension: "decibel" },
              { name: "SSB", dimension: "decibel" },
              { name: "CW", dimension: "decibel" },
            ],
            rows: regenerationSteps(best),
          },
        ],
  headline: (g) => multiplierHeadline(g as unknown as G),
  findings: (g) => multiplierFindings(g as unknown as G) as never,
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
      yFrom: -60,
      floor: { y: -50, label: "below this: model without strays" },
    },
  ],
  theory,
});
