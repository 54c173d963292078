import type { Part } from "../../ask/findings";
import { nearestPreferred } from "../../standards/preferred";
import { gasShuntMostF } from "../../standards/rectifiers";
import { printValue } from "../../units/print";
import type { G, Put } from "./ask";
import { tubeOf } from "./solve";

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

/**
 * The window in a sentence, or why there is none.
 *
 * @param g inputs, figures and verdicts
 * @returns the sentence
 * @source regulatorWindow
 */
export function headlineOf(g: G): string {
  const { holds, strikes, allStrike, fitted, fittedStrikes } = judged(g);
  if (holds === "no")
    return `No resistor will do: ${noWindow(g)}. This ${g.best.regulatorType} cannot hold that load over that range of line.`;
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

/**
 * Whether a resistor will do at all, strikes the tube, and how the one that is fitted does.
 *
 * @param g inputs, figures and verdicts
 * @param put takes each finding
 * @source gasRegulators; what to do: common practice, no source
 */
export function findingsOf(g: G, put: Put): void {
  const { best: x } = g;
  const j = judged(g);
  if (j.holds !== "yes")
    put(
      `regulator-no-window-${j.holds}`,
      j.holds === "no" ? "act" : "check",
      `${j.holds === "no" ? "No resistor will do" : "Possibly no resistor will do"}: ${noWindow(g)}.`,
      {
        do: "Power off, discharged and measured: lighten the load, raise the supply, or use a tube that carries more current or holds a lower voltage.",
        restsOn: ["leastOhm", "mostOhm", "room"],
      },
    );
  if (j.holds !== "no" && j.allStrike !== "yes") aboutStriking(g, j.strikes, put);
  if (x.fitted !== undefined && j.holds !== "no") aboutFitted(g, x.fitted, put);
  if (x.shunt > gasShuntMostF)
    put(
      "regulator-shunt",
      "act",
      `${printValue(x.shunt, "capacitance")} across the tube makes it oscillate: ${printValue(gasShuntMostF, "capacitance")} is the most.`,
      { do: "Power off, discharged and measured: take it away, or put it behind a resistor." },
    );
}
function aboutStriking(g: G, strikes: "yes" | "no" | "open", put: Put): void {
  const tube = tubeOf(g.best);
  put(
    `regulator-strikes-${strikes}`,
    "check",
    `To strike with the whole load connected the resistor must be under ${g.say("strikesOhm")}; ${tube.startV} V are needed at the tube while it is dark (${tube.seen}).`,
    {
      do: "Make sure that the load warms up after the supply, or that nothing but the tube hangs on the resistor at first. Look for the glow, at a distance.",
      restsOn: ["strikesOhm", "leastOhm"],
      state: "open-live",
    },
  );
}
function aboutFitted(g: G, fittedOhm: number, put: Put): void {
  const x = g.best;
  const { fitted, fittedStrikes } = judged(g);
  const good = fitted === "yes" && fittedStrikes === "yes";
  const window = fitted === "yes" ? "is in that window" : fitted === "no" ? "is not in that window" : "may not be in that window";
  const start =
    fittedStrikes === "yes"
      ? ""
      : `; with the load connected the dark tube gets ${g.about("dark")} of the ${tubeOf(x).startV} V that strike it${fittedStrikes === "no" ? ": it stays dark" : ""}`;
  const instead = `Power off, discharged and measured: ${printValue(chosenOhm(g), "resistance")} of ${printValue(watts(g), "power")} or more.`;
  put(
    `regulator-fitted-${fitted === "yes" && fittedStrikes !== "yes" ? "dark" : fitted}`,
    // a load that is cold at first lets it strike all the same
    good ? "note" : fitted === "no" || (fittedStrikes === "no" && x.loadLeast > 0) ? "act" : "check",
    `The resistor fitted, ${ohm(fittedOhm)}, ${window}${start}.`,
    {
      ...(good ? {} : { do: instead }),
      restsOn: ["leastOhm", "mostOhm", "dark"],
      hazards: ["b-plus", "stored-charge", "heat"],
    },
  );
}

/**
 * The resistor to buy, where the one that is fitted will not do.
 *
 * @param g inputs, figures and verdicts
 * @returns one part or none
 * @source preferred values; twice the heat: common practice, no source
 */
export function partsOf(g: G): Part[] {
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
