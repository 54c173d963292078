import { frequencyAxis, roundSpanHz } from "../../ask/axes";
import { chassisInput } from "../../ask/chassis";
import { sheet } from "../../ask/contract";
import { exact, tolerance } from "../../units/quantity";
import {
  cableCapacitancePerLengthInput,
  cableLengthInput,
  cableTypeInput,
  couplingCapacitanceInput,
  slugRangeInput,
  stripInput,
  trimmerRangeInput,
  velocityInput,
} from "../inputs/strip-and-cable";
import { cableFindings, cableHeadline } from "./findings";
import { fillStates, solveCable, widthForAxisHz } from "./solve";
import theory from "./theory.md";

const curve = (meaning: string) => ({ x: "frequency", y: "decibel", holds: "power", meaning }) as const;

export const cableLoad = sheet({
  id: "cable-load",
  version: 2,
  title: "A cable on the mixer plate",
  question: "What does a cable on the mixer plate do, and can it be tuned out?",
  subject: "fitting",
  joins: true,
  works: "open-dead",
  steps: ["31a", "20"],
  inputs: {
    chassis: chassisInput,
    strip: stripInput,
    cableType: cableTypeInput,
    cableLength: cableLengthInput,
    cableCapacitancePerLength: cableCapacitancePerLengthInput,
    velocityFactor: velocityInput,
    couplingCapacitance: couplingCapacitanceInput,
    slugRange: slugRangeInput,
    trimmerRange: trimmerRangeInput,
    coilQ: {
      kind: "quantity",
      dimension: "ratio",
      positive: true,
      meaning: "Q of the coil that tunes out the cable",
      howMeasured: "Q meter",
      from: (b) => b.quantity(`${b.at}.coilQ`),
      assumed: { value: 70, spread: tolerance(15), source: "small shielded slug coil, assumed" },
    },
    coilError: {
      kind: "quantity",
      dimension: "fraction",
      min: -0.5,
      max: 1,
      meaning: "error of the coil's inductance",
      howMeasured: "0 once it is tuned for most gain",
      assumed: { value: 0, spread: exact, source: "tuned" },
    },
  },
  aliases: { ifFrequency: "strip.intermediateFrequency", primaryCapacitance: "strip.can1.primaryCapacitance" },
  first: ["cableLength", "cableCapacitancePerLength", "couplingCapacitance", "slugRange", "coilQ"],
  results: {
    cableCapacitance: { dimension: "capacitance", meaning: "the cable's capacitance" },
    effectiveCapacitance: { dimension: "capacitance", meaning: "what the plate sees of the cable's capacitance" },
    primaryDetune: { dimension: "frequency", meaning: "shift of the first primary" },
    gainChange: { dimension: "decibel", meaning: "gain at the IF, cable on, nothing re-peaked" },
    slugChange: { dimension: "fraction", meaning: "change of L that the slug must make" },
    slugMargin: { dimension: "fraction", meaning: "slug range left over (negative: out of range)" },
    trimmerChange: { dimension: "capacitance", meaning: "change that a trimmer must make" },
    trimmerMargin: { dimension: "capacitance", meaning: "trimmer range left over (negative: out of range)" },
    gainChangeAfterRepeak: { dimension: "decibel", meaning: "gain at the IF after re-peaking the primary" },
    compensatingInductance: { dimension: "inductance", meaning: "coil that resonates the cable at the IF" },
    compensatingLoss: { dimension: "decibel", meaning: "gain at the IF with the coil, nothing re-peaked" },
    coilParallelResistance: { dimension: "resistance", meaning: "resistance that the coil's loss puts across the plate" },
    trapFrequency: { dimension: "frequency", meaning: "series resonance of coil residue and series capacitor" },
    lumpedError: { dimension: "fraction", meaning: "error of taking the cable as a plain capacitor" },
    lumpedLimit: { dimension: "length", meaning: "cable length at which taking the cable as a capacitor is 1 % off" },
  },
  key: ["primaryDetune", "gainChange", "slugMargin"],
  curves: {
    before: curve("response without the cable"),
    cable: curve("response, cable on, nothing re-peaked"),
    repeaked: curve("response, cable on, first primary re-peaked"),
    compensated: curve("response, cable on, its coil tuned"),
  },
  prepare: (best, points) => {
    const span = roundSpanHz(1.5 * widthForAxisHz(best.strip));
    const axis = () => frequencyAxis(best.strip.intermediateFrequency, span, points);
    const axes = { before: axis(), cable: axis(), repeaked: axis(), compensated: axis() };
    return {
      axes,
      solve: (x, into) => {
        const y = solveCable(x);
        fillStates(x, axes.before, into);
        return y;
      },
    };
  },
  headline: (g) => cableHeadline(g as never),
  findings: (g) => cableFindings(g as never) as never,
  figures: [
    {
      id: "cable",
      title: "The strip with a cable on its first plate",
      xLabel: "frequency",
      yLabel: "relative to the peak before",
      traces: [
        { label: "without", curve: "before", stroke: "faint" },
        { label: "cable on", curve: "cable", stroke: "accent", band: true },
        { label: "re-peaked", curve: "repeaked", stroke: "ink", dash: true },
        { label: "coil tuned", curve: "compensated", stroke: "ink" },
      ],
      yFrom: -60,
      floor: { y: -50, label: "below this: model without strays" },
    },
  ],
  theory,
});
