import { chassisInput } from "../../ask/chassis";
import { declare, type GroundOf, type InputsOf, inside, type PutOf } from "../../ask/declare";
import { stored } from "../../ask/stored";
import { joint } from "../../set/addresses/plate-joint";
import { adjusters } from "../../set/addresses/whole";
import { cableCapacitancePerLengthInput, stripAliases, stripInput, velocityInput } from "../inputs/strip-and-cable";

const curve = (meaning: string) => ({ x: "frequency", y: "decibel", holds: "power", meaning }) as const;

export const ask = declare({
  id: "cable-load",
  version: 2,
  title: "A cable on the mixer plate",
  question: "What does a cable on the mixer plate do, and can it be tuned out?",
  found: { when: ["fitting", "weak"], words: "coax cable q multiplier lead detunes mixer plate lost gain weak after fitting can't peak" },
  subject: "fitting",
  joins: true,
  works: "open-dead",
  place: inside,
  draws: ["circuit"],
  steps: ["31a", "20"],
  inputs: {
    chassis: chassisInput,
    strip: stripInput,
    cableType: stored(joint.cableType),
    cableLength: stored(joint.cableLength),
    cableCapacitancePerLength: cableCapacitancePerLengthInput,
    velocityFactor: velocityInput,
    couplingCapacitance: stored(joint.couplingCapacitance),
    slugRange: stored(adjusters.slugRange),
    trimmerRange: stored(adjusters.trimmerRange),
    coilQ: stored(joint.coilQ),
    coilError: stored(joint.coilError),
  },
  aliases: stripAliases,
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
    byLength: { x: "length", y: "frequency", meaning: "shift of the first primary against the length of the cable" },
  },
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
      overSweep: "as found",
    },
    {
      id: "length",
      title: "How far a longer or shorter cable pulls the first primary",
      xLabel: "length of the cable",
      yLabel: "first primary off by",
      traces: [{ label: "first primary", curve: "byLength", stroke: "ink", band: true }],
      marks: [{ at: "cableLength", label: "this cable" }],
    },
  ],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
