import type { ChoiceInput } from "../../ask/inputs";
import type { Bench } from "../../set/bench";
import { exact, tolerance } from "../../units/quantity";
import {
  arrangementInput,
  highLineInput,
  lineFrequencyInput,
  lineVoltageInput,
  ofSupply,
  originalTypeInput,
  ratedLineInput,
  rectifierCurrentInput,
  rectifierDropInput,
  rectifierTypeInput,
  secondaryInput,
} from "./supply";

const usual = "usual for a set of this class";

/** A figure of the supply; a transformerless set has `without` where nothing is known. */
const fromWinding = (name: string, without: number, own: Parameters<typeof ofSupply>[1]) => {
  const kept = ofSupply(name, own);
  return {
    ...kept,
    from: (b: Bench) =>
      kept.from(b) ??
      (/from the line/.test(b.choice("supplies.rectifier") ?? "")
        ? ({
            value: without,
            spread: exact,
            origin: "assumed",
            source: "usual in a transformerless set, common practice, no source",
          } as const)
        : undefined),
  };
};

/** Everything that B+ follows from, asked for in the same words by each sheet that gives it. */
export const supplyInputs = {
  arrangement: arrangementInput,
  rectifierType: rectifierTypeInput,
  originalRectifier: originalTypeInput,
  rectifierDrop: rectifierDropInput,
  rectifierCurrent: rectifierCurrentInput,
  lineVoltage: lineVoltageInput,
  ratedLine: ratedLineInput,
  lineFrequency: lineFrequencyInput,
  highLine: highLineInput,
  secondaryVoltage: secondaryInput,
  secondaryResistance: fromWinding("secondaryResistance", 30, {
    dimension: "resistance",
    positive: true,
    max: 5000,
    meaning: "DC resistance of the half that one plate sees; in a transformerless set the surge resistor",
    howMeasured: "ohmmeter, set unplugged, discharged",
    assumed: [120, tolerance(40), usual],
  }),
  primaryResistance: fromWinding("primaryResistance", 0, {
    dimension: "resistance",
    min: 0,
    max: 200,
    meaning: "DC resistance of the primary; 0 in a transformerless set",
    howMeasured: "ohmmeter, set unplugged",
    assumed: [5, tolerance(2), usual],
  }),
  addedResistance: ofSupply("addedResistance", {
    dimension: "resistance",
    min: 0,
    max: 5000,
    meaning: "surge resistor in series with each plate",
    howMeasured: "look for it; ohmmeter",
    assumed: [0, exact, "none assumed"],
  }),
  filterInput: {
    kind: "choice",
    options: ["capacitor", "choke"],
    meaning: "what the rectifier meets first",
    howMeasured: "service sheet, or trace it",
    from: (b) => b.choice("supplies.filterInput"),
    assumed: "capacitor",
    keptAt: "supplies.filterInput",
  } as const satisfies ChoiceInput,
  firstCapacitance: fromWinding("firstCapacitance", 4e-5, {
    dimension: "capacitance",
    positive: true,
    max: 2e-3,
    meaning: "first filter capacitor",
    howMeasured: "its marking, then a bridge",
    assumed: [20e-6, tolerance(4e-6), usual],
  }),
  firstChoke: fromWinding("firstChoke", 0, {
    dimension: "inductance",
    min: 0,
    max: 100,
    meaning: "first choke, or speaker field; 0 for a resistor",
    howMeasured: "service sheet",
    assumed: [8, tolerance(2), usual],
  }),
  firstResistance: fromWinding("firstResistance", 200, {
    dimension: "resistance",
    positive: true,
    max: 20e3,
    meaning: "resistance of the first choke, field or resistor",
    howMeasured: "ohmmeter, set unplugged, discharged",
    assumed: [250, tolerance(60), usual],
  }),
  secondCapacitance: fromWinding("secondCapacitance", 4e-5, {
    dimension: "capacitance",
    min: 0,
    max: 2e-3,
    meaning: "second filter capacitor; 0 for none",
    howMeasured: "its marking, then a bridge",
    assumed: [20e-6, tolerance(4e-6), usual],
  }),
  secondChoke: ofSupply("secondChoke", {
    dimension: "inductance",
    min: 0,
    max: 100,
    meaning: "second choke; 0 for a resistor",
    howMeasured: "service sheet",
    assumed: [0, exact, "a resistor assumed"],
  }),
  secondResistance: fromWinding("secondResistance", 1000, {
    dimension: "resistance",
    positive: true,
    max: 100e3,
    meaning: "resistance of the second choke or resistor",
    howMeasured: "ohmmeter, set unplugged, discharged",
    assumed: [1500, tolerance(300), usual],
  }),
  thirdCapacitance: ofSupply("thirdCapacitance", {
    dimension: "capacitance",
    min: 0,
    max: 2e-3,
    meaning: "third filter capacitor; 0 for none",
    howMeasured: "its marking, then a bridge",
    assumed: [10e-6, tolerance(2e-6), usual],
  }),
  plateCurrent: fromWinding("plateCurrent", 0.04, {
    dimension: "current",
    min: 0,
    max: 1,
    meaning: "drawn after the first choke or filter resistor: the output tube",
    howMeasured: "volts over its cathode resistor, by Ohm's law; tube manual",
    assumed: [0.045, tolerance(0.008), usual],
  }),
  restCurrent: fromWinding("restCurrent", 0.014, {
    dimension: "current",
    min: 0,
    max: 1,
    meaning: "drawn after the second choke or filter resistor: all other tubes",
    howMeasured: "volts over the second filter resistor, by Ohm's law, less what the bleeder takes",
    assumed: [0.035, tolerance(0.008), usual],
  }),
  currentsAre: {
    kind: "choice",
    options: ["as-made", "as-it-stands"],
    meaning: "where the two load currents flow: in the set as made on its rated line, or in the set as it stands on today's line",
    howMeasured: "as-it-stands where they were measured today; as-made where they are of the service sheet or the tube manual",
    from: (b) =>
      b.choice("supplies.currentsAre") ??
      (["supplies.plateCurrent", "supplies.restCurrent"].some((p) => b.quantity(p)?.origin === "measured") ? "as-it-stands" : undefined),
    assumed: "as-made",
    keptAt: "supplies.currentsAre",
  } as const satisfies ChoiceInput,
  loadExponent: ofSupply("loadExponent", {
    dimension: "ratio",
    min: 0,
    max: 3,
    meaning: "exponent with which the tubes' current follows B+: 1 as a resistor does, 1.5 a tube without bias resistor, 0 not at all",
    howMeasured: "the currents at two lines",
    assumed: [
      1.2,
      tolerance(0.25),
      "Child's law with a cathode resistor lies between 1 and 1.5, screens through resistors nearer 1; for a whole set common practice, no source",
    ],
  }),
  bleeder: ofSupply("bleeder", {
    dimension: "resistance",
    positive: true,
    meaning: "bleeder and dividers after the second choke or filter resistor",
    howMeasured: "ohmmeter, set unplugged, discharged, reading settled",
    assumed: [50e3, tolerance(20e3), usual],
  }),
  lossRatio: ofSupply("lossRatio", {
    dimension: "ratio",
    positive: true,
    min: 0.3,
    max: 3,
    meaning: "what winding and rectifier really lose over what the law says",
    howMeasured: "a B+ that is known to be sound, against this sheet",
    assumed: [1, tolerance(0.1), "makers' published points lie within 4 % of the law's B+, about a tenth of what is lost"],
  }),
} as const;
