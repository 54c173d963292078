import { chassisInput } from "../../ask/chassis";
import { declare, type GroundOf, type InputsOf, inside, type PutOf } from "../../ask/declare";
import { stored } from "../../ask/stored";
import { joint } from "../../set/addresses/plate-joint";
import { line, supplies } from "../../set/addresses/power";
import { cableCapacitancePerLengthInput, stripAliases, stripInput } from "../inputs/strip-and-cable";

export const ask = declare({
  id: "dc-block",
  version: 2,
  title: "Keeping B+ off a connector",
  question: "What capacitor keeps B+ off a connector on this plate?",
  found: { when: ["fitting"], words: "blocking capacitor series capacitor connector shock at jack accessory plate b+ on connector" },
  subject: "fitting",
  joins: true,
  works: "open-dead",
  place: inside,
  draws: ["circuit"],
  steps: ["31a", "35"],
  inputs: {
    chassis: chassisInput,
    strip: stripInput,
    cableType: stored(joint.cableType),
    cableLength: stored(joint.cableLength),
    cableCapacitancePerLength: cableCapacitancePerLengthInput,
    couplingCapacitance: stored(joint.couplingCapacitance),
    secondaryVoltage: stored(supplies.secondaryVoltage, { usual: [300, 30, "assumed: usual for a set of this class"] }),
    highLine: stored(line.highRatio),
    ratingMargin: stored(joint.ratingMargin),
    reactanceShare: stored(joint.reactanceShare),
    trapRatio: stored(joint.trapRatio),
    bleederResistance: stored(joint.bleederResistance),
    leakResistance: stored(joint.leakResistance),
    soundResistance: stored(joint.soundResistance),
    bPlusSourceResistance: stored(supplies.plateFeedResistance),
  },
  aliases: stripAliases,
  first: ["secondaryVoltage", "highLine", "cableLength", "cableCapacitancePerLength", "bleederResistance"],
  results: {
    noLoadBPlus: { dimension: "voltage", meaning: "B+ with no load at the highest line", gives: "supply.noLoad" },
    requiredRating: { dimension: "voltage", meaning: "rating asked for, margin included" },
    preferredRating: { dimension: "voltage", meaning: "next rated voltage" },
    plateImpedance: { dimension: "resistance", meaning: "impedance of the plate at the IF" },
    smallestCapacitance: { dimension: "capacitance", meaning: "smallest sensible value" },
    largestCapacitance: { dimension: "capacitance", meaning: "largest capacitance that a touchable part may have at this voltage" },
    preferredCapacitance: { dimension: "capacitance", meaning: "next preferred value (E6)" },
    fittedTrap: {
      dimension: "frequency",
      meaning: "series resonance of the cable's residue with the series capacitor that the other sheets use",
    },
    seriesReactance: { dimension: "resistance", meaning: "reactance of the series capacitor at the IF" },
    trapFrequency: { dimension: "frequency", meaning: "series resonance with a residue that resonates the cable at the IF" },
    connectorSound: { dimension: "voltage", meaning: "volts at the connector, capacitor sound" },
    connectorLeaky: { dimension: "voltage", meaning: "volts at the connector, capacitor leaky as stated" },
    connectorShorted: { dimension: "voltage", meaning: "volts at the connector, capacitor shorted" },
    bleederPowerShorted: { dimension: "power", meaning: "power in the bleeder, capacitor shorted" },
    storedEnergy: { dimension: "energy", meaning: "energy that the series capacitor holds" },
    storedCharge: { dimension: "charge", meaning: "charge that the series capacitor holds" },
    pairEach: { dimension: "capacitance", meaning: "each of two in series (E6), each rated for the whole voltage" },
  },
  key: ["noLoadBPlus", "smallestCapacitance", "connectorLeaky"],
  curves: {
    connector: { x: "resistance", y: "voltage", meaning: "volts at the connector against the capacitor's leakage" },
  },
  figures: [
    {
      id: "connector",
      title: "What a leak does to the connector",
      xLabel: "leakage of the capacitor",
      yLabel: "volts at the connector",
      traces: [{ label: "with this bleeder", curve: "connector", stroke: "ink", band: true }],
      marks: [
        { at: "leakResistance", label: "a leaky one" },
        { at: "soundResistance", label: "a sound one" },
      ],
    },
  ],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
