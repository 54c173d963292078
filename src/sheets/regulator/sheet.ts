import { sheet } from "../../ask/contract";
import type { NoValue } from "../../ask/results";
import { darkV, regulatorWindow } from "../../physics/gas-regulator";
import { gasRegulators } from "../../standards/rectifiers";
import { printValue } from "../../units/print";
import { exact, tolerance } from "../../units/quantity";
import { highLineInput, ofSupply, readAtSupply } from "../inputs/supply";
import { type G, headlineOf, type RegulatorInputs, regulatorFindings, regulatorParts, tubeOf } from "./findings";
import theory from "./theory.md";

const or = (v: number | undefined, none: string): number | NoValue => v ?? { none };

export const regulator = sheet({
  id: "regulator",
  version: 2,
  title: "The gas regulator",
  question: "What resistor does the gas regulator need, and does it strike?",
  subject: "set",
  joins: false,
  works: "open-dead",
  steps: ["09", "30"],
  inputs: {
    regulatorType: {
      kind: "choice",
      options: gasRegulators.map((g) => g.type),
      meaning: "gas tube",
      howMeasured: "its marking",
      from: (b) => b.choice("supplies.regulatorType"),
      assumed: "0A2",
      keptAt: "supplies.regulatorType",
    },
    supply: ofSupply("regulatorSupply", {
      dimension: "voltage",
      positive: true,
      max: 1000,
      meaning: "B+ that feeds the regulator, at the rated line",
      howMeasured: "the sheet on B+; read from clips put on with the set off and discharged",
      assumed: [250, tolerance(10), "usual for a set of this class"],
    }),
    highLine: highLineInput,
    lowLine: ofSupply("lowLine", {
      dimension: "ratio",
      positive: true,
      max: 1,
      meaning: "lowest line voltage over the rated one",
      howMeasured: "log the line for some days",
      assumed: [0.92, tolerance(0.02), "common practice, no source"],
    }),
    loadLeast: ofSupply("regulatedLeast", {
      dimension: "current",
      min: 0,
      max: 0.2,
      meaning: "smallest current of the load",
      howMeasured: "tube manual; 0 where the tubes may be cold or cut off",
      assumed: [0, exact, "cold tubes draw nothing"],
    }),
    loadMost: ofSupply("regulatedMost", {
      dimension: "current",
      positive: true,
      max: 0.2,
      meaning: "largest current of the load",
      howMeasured: "tube manual; volts over a known resistor",
      assumed: [0.01, tolerance(0.002), "an oscillator and a mixer's screen"],
    }),
    fitted: readAtSupply("regulatorResistor", {
      dimension: "resistance",
      min: 0,
      max: 1e6,
      meaning: "resistor that is fitted",
      howMeasured: "ohmmeter, set unplugged, discharged",
    }),
    shunt: ofSupply("regulatorShunt", {
      dimension: "capacitance",
      min: 0,
      max: 1e-3,
      meaning: "capacitor across the tube; 0 for none",
      howMeasured: "its marking",
      assumed: [0, exact, "none assumed"],
    }),
  },
  first: ["supply", "loadMost", "loadLeast", "lowLine", "fitted"],
  results: {
    leastOhm: {
      dimension: "resistance",
      meaning: "smallest resistance: at the highest line with the least load the tube carries its maximum",
      known: 10,
    },
    mostOhm: {
      dimension: "resistance",
      meaning: "largest resistance: at the lowest line with the whole load the tube still regulates",
      known: 10,
    },
    strikesOhm: {
      dimension: "resistance",
      meaning: "largest resistance at which the regulator tube strikes with the whole load connected",
      known: 10,
    },
    room: { dimension: "ratio", meaning: "largest resistance that keeps regulation over the smallest; under 1 no resistor will do" },
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
  prepare: (best) => ({
    axes: {},
    ...(best.loadLeast > best.loadMost
      ? {
          issues: [
            {
              path: "loadLeast",
              code: "crossed",
              read: printValue(best.loadLeast, "current"),
              expected: `no more than loadMost, ${printValue(best.loadMost, "current")}`,
            },
          ],
        }
      : {}),
    solve: (plain) => {
      const x = plain as unknown as RegulatorInputs;
      const tube = tubeOf(x);
      const [low, high] = [x.supply * x.lowLine, x.supply * x.highLine];
      const w = regulatorWindow(tube, { lowV: low, highV: high }, { leastA: x.loadLeast, mostA: x.loadMost });
      const never = `the supply never reaches the tube's ${tube.operatingV} V`;
      return {
        leastOhm: or(w.leastOhm, never),
        mostOhm: or(w.mostOhm, `the supply at the lowest line is under the tube's ${tube.operatingV} V`),
        strikesOhm: or(w.strikesOhm, `the supply at the lowest line does not reach the ${tube.startV} V that strike it`),
        room: w.leastOhm === undefined || w.mostOhm === undefined ? 0 : w.mostOhm / w.leastOhm,
        dark: x.fitted === undefined ? { none: "the resistor is not recorded" } : darkV(low, x.fitted, tube.operatingV, x.loadMost),
        supplyLow: low,
        supplyHigh: high,
        power: or(w.power, never),
      };
    },
  }),
  headline: (ground) => headlineOf(ground as unknown as G),
  findings: (ground) => regulatorFindings(ground as unknown as G) as never,
  parts: (ground) => regulatorParts(ground as unknown as G),
  figures: [],
  theory,
});
