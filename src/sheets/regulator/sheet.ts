import { regulatorWindow } from "../../physics/gas-regulator";
import { nearestPreferred } from "../../standards/preferred";
import { gasRegulatorByType, gasRegulators, gasShuntMostF } from "../../standards/rectifiers";
import { printValue } from "../../units/print";
import { exact, tolerance } from "../../units/quantity";
import { type Finding, type GroundOn, type Part, sheet } from "../contract";
import { highLineInput, ofSupply } from "../supply-inputs";
import theory from "./theory.md";

const inside: Finding["hazards"] = ["b-plus", "stored-charge"];
interface Inputs {
  readonly regulatorType: string;
  readonly supply: number;
  readonly highLine: number;
  readonly lowLine: number;
  readonly loadLeast: number;
  readonly loadMost: number;
  readonly fitted: number;
  readonly shunt: number;
}
type Names = "leastOhm" | "mostOhm" | "strikesOhm" | "power" | "supplyLow" | "supplyHigh" | "room";
type G = GroundOn<Inputs, Names>;
const tubeOf = (x: Inputs) => gasRegulatorByType(x.regulatorType) ?? gasRegulators[0];
const windowOf = (x: Inputs) =>
  regulatorWindow(tubeOf(x), { lowV: x.supply * x.lowLine, highV: x.supply * x.highLine }, { leastA: x.loadLeast, mostA: x.loadMost });

export const regulator = sheet({
  id: "regulator",
  version: 1,
  title: "The gas regulator",
  question: "What resistor does the gas regulator want, and does it strike?",
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
      meaning: "B+ that feeds it, at the rated line",
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
      meaning: "least current of what it feeds",
      howMeasured: "tube manual; 0 where the tubes may be cold or cut off",
      assumed: [0, exact, "cold tubes draw nothing"],
    }),
    loadMost: ofSupply("regulatedMost", {
      dimension: "current",
      positive: true,
      max: 0.2,
      meaning: "most current of what it feeds",
      howMeasured: "tube manual; volts over a known resistor",
      assumed: [0.01, tolerance(0.002), "an oscillator and a mixer's screen"],
    }),
    fitted: ofSupply("regulatorResistor", {
      dimension: "resistance",
      min: 0,
      max: 1e6,
      meaning: "resistor that is fitted; 0 for not known",
      howMeasured: "ohmmeter, plug out, discharged",
      assumed: [0, exact, "not measured"],
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
      meaning: "least resistance: at the highest line with the least load the tube carries its most",
      known: 10,
    },
    mostOhm: { dimension: "resistance", meaning: "most resistance: at the lowest line with the whole load it still regulates", known: 10 },
    room: { dimension: "ratio", meaning: "most over least; under 1 there is none" },
    strikesOhm: { dimension: "resistance", meaning: "most that strikes it with the whole load connected", known: 10 },
    supplyLow: { dimension: "voltage", meaning: "supply at the lowest line", known: 1 },
    supplyHigh: { dimension: "voltage", meaning: "supply at the highest line", known: 1 },
    power: { dimension: "power", meaning: "heat in the least resistance at the highest line", known: 0.1 },
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
      const x = plain as unknown as Inputs;
      const w = windowOf(x);
      const low = x.supply * x.lowLine;
      const tube = tubeOf(x);
      const reaches = w.mostOhm > 0;
      return {
        leastOhm: w.leastOhm,
        mostOhm: reaches ? w.mostOhm : { none: `the supply at the lowest line is under the tube's ${tube.operatingV} V` },
        room: reaches ? w.mostOhm / w.leastOhm : 0,
        strikesOhm:
          w.strikesOhm > 0 ? w.strikesOhm : { none: `the supply at the lowest line does not reach the ${tube.startV} V that strike it` },
        supplyLow: low,
        supplyHigh: x.supply * x.highLine,
        power: w.power,
      };
    },
  }),
  headline: (ground) => {
    const g = ground as unknown as G;
    const can = g.verdict((_, y) => y.room >= 1);
    const strikes = g.verdict((_, y) => y.strikesOhm >= y.leastOhm);
    if (can === "no")
      return `No resistor will do: it would have to be over ${g.about("leastOhm")} and under ${g.about("mostOhm")}. This ${g.best.regulatorType} cannot hold that load over that line.`;
    const start =
      strikes === "yes"
        ? "It strikes with the load connected."
        : strikes === "no"
          ? "It strikes only while the load is cold: one that is there at once keeps it dark."
          : "Whether it strikes with the load connected can't be told.";
    return `${can === "open" ? "Perhaps between" : "Between"} ${g.about("leastOhm")} and ${g.about("mostOhm")}. ${start}`;
  },
  findings: (ground) => {
    const g = ground as unknown as G;
    const x = g.best;
    const tube = tubeOf(x);
    const can = g.verdict((_, y) => y.room >= 1);
    const out: Finding[] = [];
    if (can !== "yes")
      out.push({
        id: `regulator-no-window-${can}`,
        severity: can === "no" ? "act" : "check",
        says: `At the highest line it wants over ${g.say("leastOhm")}, at the lowest under ${g.say("mostOhm")}.`,
        do: "Power off, discharged and measured: lighten the load, raise the supply, or use a tube that carries more.",
        restsOn: ["leastOhm", "mostOhm", "room"],
        hazards: inside,
      });
    const strikes = g.verdict((_, y) => y.strikesOhm >= y.leastOhm);
    if (strikes !== "yes")
      out.push({
        id: `regulator-strikes-${strikes}`,
        severity: "check",
        says: `To strike with the whole load connected the resistor must be under ${g.say("strikesOhm")}; ${tube.startV} V are wanted at the tube (${tube.seen}).`,
        do: "See that the load warms up after the supply, or that nothing but the tube hangs on the resistor at first. Look for the glow, at a distance.",
        restsOn: ["strikesOhm", "leastOhm"],
        hazards: inside,
      });
    if (x.fitted > 0 && can !== "no") {
      const inWindow = g.verdict((i, y) => i.fitted >= y.leastOhm && i.fitted <= y.mostOhm);
      out.push({
        id: `regulator-fitted-${inWindow}`,
        severity: inWindow === "yes" ? "note" : inWindow === "no" ? "act" : "check",
        says: `The resistor fitted, ${printValue(x.fitted, "resistance", 0.01 * x.fitted)}, ${inWindow === "yes" ? "is" : inWindow === "no" ? "is not" : "may not be"} in that window.`,
        ...(inWindow === "yes"
          ? {}
          : {
              do: `Power off, discharged and measured: ${printValue(chosenOhm(g), "resistance")} of ${printValue(watts(g), "power")} or more.`,
            }),
        restsOn: ["leastOhm", "mostOhm"],
        hazards: [...inside, "heat"],
      });
    }
    if (x.shunt > gasShuntMostF)
      out.push({
        id: "regulator-shunt",
        severity: "act",
        says: `${printValue(x.shunt, "capacitance")} across the tube makes it oscillate: ${printValue(gasShuntMostF, "capacitance")} is the most.`,
        do: "Power off, discharged and measured: take it away, or put it behind a resistor.",
        restsOn: [],
        hazards: inside,
      });
    return out as never;
  },
  parts: (ground) => {
    const g = ground as unknown as G;
    const x = g.best;
    if (
      !(x.fitted > 0) ||
      g.verdict((i, y) => i.fitted >= y.leastOhm && i.fitted <= y.mostOhm) !== "no" ||
      g.verdict((_, y) => y.room >= 1) === "no"
    )
      return [];
    return [
      {
        part: "series resistor of the gas regulator",
        was: printValue(x.fitted, "resistance"),
        value: printValue(chosenOhm(g), "resistance"),
        rating: printValue(watts(g), "power"),
        kind: "wire-wound",
        quantity: 1,
        why: "the one fitted is outside what the tube takes",
      } satisfies Part,
    ];
  },
  figures: [],
  theory,
});
const chosenOhm = (g: G): number =>
  nearestPreferred(Math.sqrt((g.figures.leastOhm.value ?? 1) * (g.figures.mostOhm.value ?? g.figures.leastOhm.value ?? 1)), 24);
const watts = (g: G): number => [1, 2, 3, 5, 7, 10, 15].find((w) => w >= 2 * (g.figures.power.value ?? 1)) ?? 25;
