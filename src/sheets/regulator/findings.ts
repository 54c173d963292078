import type { GroundOn } from "../../ask/contract";
import { inside } from "../../ask/declare";
import type { Finding, Part } from "../../ask/findings";
import { nearestPreferred } from "../../standards/preferred";
import { type GasRegulator, gasRegulatorByType, gasRegulators, gasShuntMostF } from "../../standards/rectifiers";
import { printValue } from "../../units/print";

export interface RegulatorInputs {
  readonly regulatorType: string;
  readonly supply: number;
  readonly highLine: number;
  readonly lowLine: number;
  readonly loadLeast: number;
  readonly loadMost: number;
  readonly fitted: number | undefined;
  readonly shunt: number;
}
type Names = "leastOhm" | "mostOhm" | "strikesOhm" | "power" | "supplyLow" | "supplyHigh" | "room" | "dark";
export type G = GroundOn<RegulatorInputs, Names>;
export const tubeOf = (x: RegulatorInputs): GasRegulator => gasRegulatorByType(x.regulatorType) ?? gasRegulators[0];

/** Whether any resistor holds the tube in its range, whether some of those strike it with the load on, and how the one fitted does. */
function judged(g: G) {
  const tube = tubeOf(g.best);
  return {
    holds: g.verdict((_, y) => y.room >= 1),
    strikes: g.verdict((_, y) => y.strikesOhm >= y.leastOhm),
    allStrike: g.verdict((_, y) => y.strikesOhm >= y.mostOhm),
    fitted: g.verdict((i, y) => i.fitted !== undefined && i.fitted >= y.leastOhm && i.fitted <= y.mostOhm),
    fittedStrikes: g.verdict((_, y) => y.dark >= tube.startV),
  };
}
/** Why there is no window, in words. */
function noWindow(g: G): string {
  const tube = tubeOf(g.best);
  if (g.figures.leastOhm.value === null)
    return `the supply reaches ${g.about("supplyHigh")} at the most, and the tube holds ${tube.operatingV} V`;
  if (g.figures.mostOhm.value === null)
    return `at the lowest line the supply falls to ${g.about("supplyLow")}, under the tube's ${tube.operatingV} V`;
  return `it would have to be over ${g.about("leastOhm")} at the highest line and under ${g.about("mostOhm")} at the lowest`;
}

export function headlineOf(g: G): string {
  const { holds, strikes, allStrike, fitted, fittedStrikes } = judged(g);
  if (holds === "no") return `No resistor will do: ${noWindow(g)}. This ${g.best.regulatorType} cannot hold that load over that line.`;
  const window = `${holds === "open" ? "Perhaps between" : "Between"} ${g.about("leastOhm")} and ${g.about("mostOhm")}`;
  const start =
    allStrike === "yes"
      ? "It strikes with the load connected."
      : strikes === "yes"
        ? `It strikes with the load connected only up to ${g.about("strikesOhm")}; above that, only while the load is cold.`
        : strikes === "no"
          ? "It strikes only while the load is cold: a load that is there at once keeps it dark."
          : "Whether it strikes with the load connected can't be told.";
  const own =
    g.best.fitted !== undefined && fitted !== "no" && fittedStrikes === "no"
      ? ` The ${ohm(g.best.fitted)} fitted leaves the dark tube ${g.about("dark")} of the ${tubeOf(g.best).startV} V that strike it.`
      : "";
  return `${window}. ${start}${own}`;
}
const ohm = (r: number): string => printValue(r, "resistance", 0.01 * r);

export function regulatorFindings(g: G): Finding[] {
  const x = g.best;
  const tube = tubeOf(x);
  const j = judged(g);
  const out: Finding[] = [];
  if (j.holds !== "yes")
    out.push({
      id: `regulator-no-window-${j.holds}`,
      severity: j.holds === "no" ? "act" : "check",
      says: `${j.holds === "no" ? "No resistor will do" : "Possibly no resistor will do"}: ${noWindow(g)}.`,
      do: "Power off, discharged and measured: lighten the load, raise the supply, or use a tube that carries more current or holds a lower voltage.",
      restsOn: ["leastOhm", "mostOhm", "room"],
      hazards: inside,
    });
  if (j.holds !== "no" && j.allStrike !== "yes")
    out.push({
      id: `regulator-strikes-${j.strikes}`,
      state: "open-live",
      severity: "check",
      says: `To strike with the whole load connected the resistor must be under ${g.say("strikesOhm")}; ${tube.startV} V are wanted at the tube while it is dark (${tube.seen}).`,
      do: "See that the load warms up after the supply, or that nothing but the tube hangs on the resistor at first. Look for the glow, at a distance.",
      restsOn: ["strikesOhm", "leastOhm"],
      hazards: inside,
    });
  if (x.fitted !== undefined && j.holds !== "no") out.push(fittedFinding(g, x.fitted));
  if (x.shunt > gasShuntMostF)
    out.push({
      id: "regulator-shunt",
      severity: "act",
      says: `${printValue(x.shunt, "capacitance")} across the tube makes it oscillate: ${printValue(gasShuntMostF, "capacitance")} is the most.`,
      do: "Power off, discharged and measured: take it away, or put it behind a resistor.",
      restsOn: [],
      hazards: inside,
    });
  return out;
}

function fittedFinding(g: G, fittedOhm: number): Finding {
  const x = g.best;
  const { fitted, fittedStrikes } = judged(g);
  const good = fitted === "yes" && fittedStrikes === "yes";
  const window = fitted === "yes" ? "is in that window" : fitted === "no" ? "is not in that window" : "may not be in that window";
  const start =
    fittedStrikes === "yes"
      ? ""
      : `; with the load connected the dark tube gets ${g.about("dark")} of the ${tubeOf(x).startV} V that strike it${fittedStrikes === "no" ? ": it stays dark" : ""}`;
  return {
    id: `regulator-fitted-${fitted === "yes" && fittedStrikes !== "yes" ? "dark" : fitted}`,
    // a load that is cold at first lets it strike all the same
    severity: good ? "note" : fitted === "no" || (fittedStrikes === "no" && x.loadLeast > 0) ? "act" : "check",
    says: `The resistor fitted, ${ohm(fittedOhm)}, ${window}${start}.`,
    ...(good
      ? {}
      : {
          do: `Power off, discharged and measured: ${printValue(chosenOhm(g), "resistance")} of ${printValue(watts(g), "power")} or more.`,
        }),
    restsOn: ["leastOhm", "mostOhm", "dark"],
    hazards: [...inside, "heat"],
  };
}

export function regulatorParts(g: G): Part[] {
  const x = g.best;
  const { fitted, fittedStrikes, holds, strikes } = judged(g);
  const dark = fittedStrikes === "no" && strikes === "yes";
  if (x.fitted === undefined || holds === "no" || (fitted !== "no" && !dark)) return [];
  return [
    {
      part: "series resistor of the gas regulator",
      was: printValue(x.fitted, "resistance"),
      value: printValue(chosenOhm(g), "resistance"),
      rating: printValue(watts(g), "power"),
      kind: "wire-wound",
      quantity: 1,
      why: fitted === "no" ? "the one fitted is outside what the tube takes" : "with the one fitted the tube does not strike",
    },
  ];
}

/** A preferred value in the middle of the window, as far as it strikes. */
function chosenOhm(g: G): number {
  const least = g.figures.leastOhm.value ?? 1;
  const most = g.figures.mostOhm.value ?? least;
  const strikes = g.figures.strikesOhm.value ?? 0;
  return nearestPreferred(Math.sqrt(least * (strikes > least ? Math.min(most, strikes) : most)), 24);
}
const watts = (g: G): number => [1, 2, 3, 5, 7, 10, 15].find((w) => w >= 2 * (g.figures.power.value ?? 1)) ?? 25;
