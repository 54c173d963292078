import { declare, type GroundOf, type InputsOf, inside, type PutOf } from "../../ask/declare";
import { stored } from "../../ask/stored";
import { line, supplies } from "../../set/addresses/power";
import { regulator } from "../../set/addresses/regulator";

export const ask = declare({
  id: "regulator",
  version: 2,
  title: "The gas regulator",
  question: "What resistor does the gas regulator need, and does it strike?",
  found: { when: ["off frequency", "dead"], words: "0D3 VR tube glow gas regulator won't strike flickers screen volts drifts" },
  subject: "set",
  joins: false,
  works: "open-dead",
  place: inside,
  draws: ["circuit"],
  steps: ["09", "30"],
  inputs: {
    regulatorType: stored(regulator.regulatorType),
    supply: stored(regulator.supply),
    highLine: stored(line.highRatio),
    lowLine: stored(supplies.lowLine),
    loadLeast: stored(regulator.loadLeast),
    loadMost: stored(regulator.loadMost),
    fitted: stored(regulator.fitted, { optional: true }),
    shunt: stored(regulator.shunt),
  },
  first: ["supply", "loadMost", "loadLeast", "lowLine", "fitted"],
  results: {
    leastOhm: {
      dimension: "resistance",
      meaning: "smallest resistance that keeps the tube within its maximum current, at the highest line with the least load",
      known: 10,
    },
    mostOhm: {
      dimension: "resistance",
      meaning: "largest resistance with which the tube still regulates, at the lowest line with the whole load",
      known: 10,
    },
    strikesOhm: {
      dimension: "resistance",
      meaning: "largest resistance at which the regulator tube strikes with the whole load connected",
      known: 10,
    },
    room: { dimension: "ratio", meaning: "ratio of the largest resistance that regulates to the smallest; under 1 no resistor will do" },
    dark: {
      dimension: "voltage",
      meaning: "volts at the dark tube with the resistor fitted, the load connected, at the lowest line",
      known: 0.1,
    },
    supplyLow: { dimension: "voltage", meaning: "supply at the lowest line", known: 1 },
    supplyHigh: { dimension: "voltage", meaning: "supply at the highest line", known: 1 },
    power: { dimension: "power", meaning: "heat in the smallest resistance at the highest line", known: 0.1 },
  },
  key: ["leastOhm", "mostOhm", "strikesOhm"],
  curves: {},
  figures: [],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
