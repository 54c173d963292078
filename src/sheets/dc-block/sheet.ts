import { chassisInput } from "../../ask/chassis";
import { sheet } from "../../ask/contract";
import { tolerance } from "../../units/quantity";
import {
  cableCapacitancePerLengthInput,
  cableLengthInput,
  cableTypeInput,
  couplingCapacitanceInput,
  stripInput,
} from "../inputs/strip-and-cable";
import { blockFindings, blockHeadline } from "./findings";
import { solveBlock } from "./solve";
import theory from "./theory.md";

export const dcBlock = sheet({
  id: "dc-block",
  version: 2,
  title: "Keeping B+ off a connector",
  question: "What capacitor keeps B+ off a connector on this plate?",
  subject: "fitting",
  joins: true,
  works: "open-dead",
  steps: ["31a", "35"],
  inputs: {
    chassis: chassisInput,
    strip: stripInput,
    cableType: cableTypeInput,
    cableLength: cableLengthInput,
    cableCapacitancePerLength: cableCapacitancePerLengthInput,
    couplingCapacitance: couplingCapacitanceInput,
    secondaryVoltage: {
      kind: "quantity",
      dimension: "voltage",
      positive: true,
      max: 1500,
      meaning: "rms volts at the rectifier, one half of the winding (or the line itself in a transformerless set), at the nominal line",
      howMeasured:
        "service sheet, or the transformer's marking; the line's own nominal voltage in a transformerless set. Measured only by somebody trained for it: the points are at line or full winding voltage while the set is on",
      from: (b) => b.quantity("supplies.secondaryVoltage"),
      keptAt: "supplies.secondaryVoltage",
      assumed: { value: 300, spread: tolerance(30), source: "assumed: usual for a set of this class" },
    },
    highLine: {
      kind: "quantity",
      dimension: "ratio",
      positive: true,
      max: 1.5,
      meaning: "highest line voltage over the nominal one; one reading of the line tells nothing of this",
      howMeasured: "log the line for some days",
      from: (b) => b.quantity("line.highRatio"),
      keptAt: "line.highRatio",
      assumed: { value: 127 / 117, spread: tolerance(0.02), source: "127 V on a set made for 117 V, common practice, no source" },
    },
    ratingMargin: {
      kind: "quantity",
      dimension: "ratio",
      positive: true,
      min: 1,
      meaning: "margin of the voltage rating over no-load B+ at high line",
      howMeasured: "chosen",
      assumed: { value: 1.5, spread: { shape: "exact" }, source: "common practice, no source" },
    },
    reactanceShare: {
      kind: "quantity",
      dimension: "fraction",
      positive: true,
      max: 1,
      meaning: "largest reactance allowed, as a share of the plate's impedance",
      howMeasured: "chosen",
      assumed: { value: 0.05, spread: { shape: "exact" }, source: "common practice, no source" },
    },
    trapRatio: {
      kind: "quantity",
      dimension: "fraction",
      positive: true,
      max: 0.9,
      meaning: "highest series-resonance trap allowed, as a share of the IF",
      howMeasured: "chosen",
      assumed: { value: 0.3, spread: { shape: "exact" }, source: "common practice, no source: far below the pass band" },
    },
    bleederResistance: {
      kind: "quantity",
      dimension: "resistance",
      positive: true,
      meaning: "bleeder from the cable side to the chassis",
      howMeasured: "ohmmeter, set off and discharged",
      from: (b) => b.quantity(`${b.at}.bleederResistance`),
      assumed: { value: 1e6, spread: tolerance(50e3), source: "1 to 2.2 Mohm, common practice, no source" },
    },
    leakResistance: {
      kind: "quantity",
      dimension: "resistance",
      positive: true,
      meaning: "leakage of a leaky capacitor, to see what it would do",
      howMeasured: "leakage tester at working voltage",
      assumed: { value: 100e6, spread: tolerance(50e6), source: "an old paper capacitor, common practice, no source" },
    },
    soundResistance: {
      kind: "quantity",
      dimension: "resistance",
      positive: true,
      meaning: "insulation of a sound capacitor",
      howMeasured: "data sheet",
      assumed: { value: 50e9, spread: tolerance(20e9), source: "film or C0G ceramic data sheets, from memory" },
    },
    bPlusSourceResistance: {
      kind: "quantity",
      dimension: "resistance",
      positive: true,
      meaning: "resistance between the supply and the plate",
      howMeasured: "ohmmeter, set off and discharged",
      from: (b) => b.quantity("supplies.plateFeedResistance"),
      keptAt: "supplies.plateFeedResistance",
      assumed: { value: 2200, spread: tolerance(1000), source: "usual decoupling resistor and winding, assumed" },
    },
  },
  aliases: { ifFrequency: "strip.intermediateFrequency", primaryCapacitance: "strip.can1.primaryCapacitance" },
  first: ["secondaryVoltage", "highLine", "cableLength", "cableCapacitancePerLength", "bleederResistance"],
  results: {
    noLoadBPlus: { dimension: "voltage", meaning: "B+ with no load at the highest line", gives: "supply.noLoad" },
    requiredRating: { dimension: "voltage", meaning: "rating asked for, margin included" },
    preferredRating: { dimension: "voltage", meaning: "next rated voltage" },
    plateImpedance: { dimension: "resistance", meaning: "impedance of the plate at the IF" },
    smallestCapacitance: { dimension: "capacitance", meaning: "smallest sensible value" },
    largestCapacitance: { dimension: "capacitance", meaning: "largest that a touchable part may hold at this voltage" },
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
  prepare: (_, points) => {
    const connector = Float64Array.from({ length: points }, (__, i) => 10 ** (4 + (7 * i) / (points - 1)));
    return {
      axes: { connector },
      solve: (x, into) => {
        const y = solveBlock(x);
        for (let i = 0; i < connector.length; i++)
          into.connector[i] = (y.noLoadBPlus * x.bleederResistance) / (x.bleederResistance + connector[i] + x.bPlusSourceResistance);
        return y;
      },
    };
  },
  headline: (g) => blockHeadline(g as never),
  findings: (g) => blockFindings(g as never) as never,
  figures: [
    {
      id: "connector",
      title: "What a leak does to the connector",
      xLabel: "leakage of the capacitor",
      yLabel: "volts at the connector",
      traces: [{ label: "with this bleeder", curve: "connector", stroke: "ink", band: true }],
    },
  ],
  theory,
});
