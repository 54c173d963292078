import type { Part } from "../../ask/findings";
import { ratedFor } from "../../ask/rating";
import { nearestPreferred, nextPreferred } from "../../standards/preferred";
import { rectifierByType, siliconInverseV } from "../../standards/rectifiers";
import { printValue } from "../../units/print";
import { inverseV, nodes } from "../inputs/supply-law";
import { asCharted, chartDoubtV } from "../inputs/supply-learnt";
import type { Asked, G, Put } from "./ask";
import { measuredFindings } from "./measured";

/**
 * B+ to expect at the three nodes, and the most that it can reach.
 *
 * @param g inputs and figures
 * @returns the sentence
 * @source solveSupply
 */
export function bPlusHeadline(g: G): string {
  const choke = g.best.filterInput === "choke";
  const first = choke ? "" : `${g.about("bPlusFirst")} ${nodes.first.at}, `;
  return `B+ should be ${first}${g.about("bPlusSecond")} ${nodes.second.at}${choke ? ", where the first filter capacitor is," : ""} and ${g.about("bPlusThird")} ${nodes.third.at}, at a line of ${printValue(g.best.lineVoltage, "voltage", 1)}. With nothing drawn it reaches ${g.about("noLoad")} at the highest line.`;
}

/** Where a resistor that restores the volts goes. */
const leadOf = (x: Asked): string => (x.arrangement === "bridge" ? "in the AC lead of the bridge" : "in each plate lead");

/**
 * What the supply's figures mean. Every step is at B+ or the line, so each carries its cautions.
 *
 * @param g inputs, figures and verdicts
 * @param put takes each finding
 * @source rectifiers.ts, electrolytics' ratings; the steps: common practice, no source
 */
export function findingsOf(g: G, put: Put): void {
  aboutChart(g, put);
  measuredFindings(g, put);
  aboutRating(g, put);
  aboutRectifier(g, put);
  aboutChoke(g, put);
  aboutSilicon(g, put);
}
/** A chart whose B+ this supply doesn't give, even at what its values may be. */
function aboutChart(g: G, put: Put): void {
  const { chartFirst, chartLine } = g.best;
  const charted = chartFirst === undefined ? undefined : asCharted(g.best);
  if (chartFirst === undefined || !charted || Math.abs(charted.volts - chartFirst) < mostApart * chartDoubtV(g.best, chartFirst)) return;
  put(
    "b-plus-chart-apart",
    "check",
    `The service chart gives ${printValue(chartFirst, "voltage", 3)} ${nodes.first.at} at a line of ${printValue(chartLine, "voltage", 3)}; this supply as described would give ${printValue(charted.volts, "voltage", 3)}. Winding, rectifier, load or the chart's line is not as described.`,
    {
      do: "Compare winding volts, rectifier type and load currents with the service sheet, and the chart's line with what is printed on it.",
      state: "desk",
      hazards: ["none"],
    },
  );
}
/** So many of its doubts apart a chart is of another supply. House rule. */
const mostApart = 2.5;
function aboutRating(g: G, put: Put): void {
  const x = g.best;
  const over = g.verdict((i, y) => y.noLoad > i.capacitorRating);
  if (over !== "no")
    put(
      `b-plus-rating-${over}`,
      over === "yes" ? "act" : "check",
      `With nothing drawn B+ reaches ${g.say("noLoad")} at the highest line, over the ${printValue(x.capacitorRating, "voltage")} of the filter capacitors${over === "open" ? ", perhaps" : ""}. It happens whenever the rectifier is warm before the other tubes, or a tube is pulled.`,
      {
        do: `Fit filter capacitors rated ${printValue(nextRating(g), "voltage")} or more, or go back to a rectifier that warms up slowly.`,
        restsOn: ["noLoad"],
      },
    );
}
/** The rectifier against what it is good for: in reverse, at the peak, and before its first capacitor. */
function aboutRectifier(g: G, put: Put): void {
  const x = g.best;
  const row = rectifierByType(x.rectifierType);
  const inverseLimit = x.rectifierType === "silicon" ? siliconInverseV : row?.inverseV;
  if (inverseLimit !== undefined) {
    const passed = g.verdict((_, y) => y.inverse > inverseLimit * (x.rectifierType === "silicon" ? 1 / 1.2 : x.highLine));
    if (passed !== "no")
      put(
        `b-plus-inverse-${passed}`,
        passed === "yes" ? "act" : "check",
        `Each diode must hold ${g.say("inverse")} in reverse at the highest line; ${x.rectifierType === "silicon" ? "one" : `a ${x.rectifierType}`} is good for ${printValue(inverseLimit, "voltage")}${x.rectifierType === "silicon" ? ", without the 20 % margin that transients need" : ""}.`,
        {
          do:
            x.rectifierType === "silicon"
              ? "Fit two 1000 V diodes in series for each one, or diodes of a higher class."
              : "Fit a rectifier of higher inverse voltage, or look for a wrong winding or tap.",
          restsOn: ["inverse"],
        },
      );
  }
  if (row?.peakA !== undefined) {
    const peak = row.peakA;
    const passed = g.verdict((_, y) => y.rectifierPeak > peak);
    if (passed !== "no")
      put(
        `b-plus-peak-${passed}`,
        passed === "yes" ? "act" : "check",
        `The rectifier's peak current is ${g.say("rectifierPeak")}; a ${row.type} is good for ${printValue(peak, "current")} (${row.seen}).`,
        { do: "Use a smaller first capacitor, or add resistance at each plate; look for what draws too much.", restsOn: ["rectifierPeak"] },
      );
  }
  if (row?.firstF !== undefined && x.filterInput === "capacitor" && x.firstCapacitance > 1.02 * row.firstF)
    put(
      "b-plus-first-too-large",
      "act",
      `The first filter capacitor is ${printValue(x.firstCapacitance, "capacitance")}; a ${row.type} takes at most ${printValue(row.firstF, "capacitance")}. Its peak current and the inrush rise with it.`,
      {
        do: "Go back to the value of the service sheet at the first capacitor. More capacitance belongs after the choke.",
        restsOn: ["rectifierPeak"],
      },
    );
}
function aboutChoke(g: G, put: Put): void {
  if (g.best.filterInput === "choke") {
    const enough = g.verdict((i, y) => i.firstChoke >= y.criticalChoke);
    if (enough !== "yes")
      put(
        "b-plus-choke-below-critical",
        "check",
        `The choke is below or near its critical value, ${g.say("criticalChoke")} at this load: B+ soars as the load falls.`,
        {
          do: "Fit a bleeder that keeps the current up, or a larger choke; prove the capacitors' rating with the load off.",
          restsOn: ["criticalChoke", "noLoad"],
        },
      );
  }
}
function aboutSilicon(g: G, put: Put): void {
  const x = g.best;
  const restore = (g.figures.restoringPerPlate.value ?? 0) > 1;
  if (x.rectifierType === "silicon")
    put(
      "b-plus-silicon-in",
      "act",
      `Silicon is fitted where the set was made for a ${x.originalRectifier}: B+ is ${g.say("siliconRise")} higher than with the tube, and the whole crest comes at once, before any tube draws current.`,
      {
        do: restore
          ? `Put ${printValue(preferredOhm(g), "resistance")} (${g.about("restoringPower")} of heat: use a part rated for at least twice that) ${leadOf(x)}, or ${g.about("restoringDc")} after the first filter capacitor (which then stays at ${g.about("siliconKept")}); and prove every capacitor's rating against ${g.about("noLoad")}.`
          : "Prove every capacitor's rating against the volts with nothing drawn.",
        restsOn: ["siliconRise", "restoringPerPlate", "restoringDc", "restoringPower", "noLoad"],
        hazards: ["b-plus", "line", "stored-charge", "heat"],
        state: "open-dead",
      },
    );
  else
    put(
      "b-plus-silicon-would",
      "note",
      `Silicon in place of this tube would raise B+ by ${g.say("siliconRise")}, more than the tube's rated drop, since the drop acts at the peak current. To restore it: ${g.say("restoringPerPlate")} ${leadOf(x)}, or ${g.say("restoringDc")} after the first filter capacitor, which then stays at ${g.about("siliconKept")}.`,
      { restsOn: ["siliconRise", "restoringPerPlate", "restoringDc"], hazards: ["b-plus", "line", "stored-charge"] },
    );
}

const nextRating = (g: G): number => ratedFor(g.figures.noLoad.high ?? g.figures.noLoad.value ?? 0);
const preferredOhm = (g: G): number => nearestPreferred(Math.max(1, g.figures.restoringPerPlate.value ?? 1), 12);
const nextWatts = (w: number): number => [0.5, 1, 2, 3, 5, 7, 10, 15, 25, 50].find((r) => r >= 2 * w) ?? 100;

/**
 * What the supply takes to buy.
 *
 * @param g inputs, figures and verdicts
 * @returns parts
 * @source preferred values and ratings; diodes in series: common practice, no source
 */
export function partsOf(g: G): Part[] {
  const x = g.best;
  const out: Part[] = [];
  if (x.rectifierType === "silicon" && (g.figures.restoringPerPlate.value ?? 0) > 1) {
    out.push({
      part: x.arrangement === "bridge" ? "resistor in the AC lead of the bridge" : "resistor in each plate lead of the rectifier",
      was: "",
      value: printValue(preferredOhm(g), "resistance"),
      rating: `${nextWatts(g.figures.restoringPower.value ?? 1)} W`,
      kind: "wire-wound, flameproof",
      quantity: x.arrangement === "full-wave" ? 2 : 1,
      why: `brings B+ back to what the ${x.originalRectifier} gave`,
      fills: { kind: "series-resistor" },
    });
    if (inverseV(x, x.highLine) > siliconInverseV / 1.2)
      out.push({
        part: "rectifier diode, two in series for each",
        was: "",
        value: "1000 V, 1 A or more",
        rating: `${printValue(inverseV(x, x.highLine), "voltage", 1)} in reverse`,
        kind: "silicon",
        quantity: x.arrangement === "half-wave" ? 2 : x.arrangement === "bridge" ? 8 : 4,
        why: "one alone has no margin at the highest line",
        fills: { kind: "rectifier", word: "in series" },
      });
  }
  if (g.verdict((i, y) => y.noLoad > i.capacitorRating) === "yes")
    out.push({
      part: "first filter capacitor",
      was: `${printValue(x.firstCapacitance, "capacitance", 0, "old")} ${printValue(x.capacitorRating, "voltage")}`,
      value: printValue(nextPreferred(x.firstCapacitance * 0.9, 6), "capacitance"),
      rating: printValue(nextRating(g), "voltage"),
      seesBPlusRatedV: nextRating(g),
      kind: "electrolytic, 105 °C, or film",
      quantity: 1,
      why: "no-load B+ at the highest line passes its rating",
      fills: { kind: "first-filter-capacitor" },
    });
  return out;
}
