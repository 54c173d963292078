import type { Severity } from "../../ask/findings";
import { printValue } from "../../units/print";
import type { Asked, G, Put } from "./ask";

/** What a slug's feel means. Source: lessons and handbooks on alignment (read); common practice. */
const feelings: Readonly<Record<string, readonly [severity: Severity, says: string, todo: string]>> = {
  "tunes broadly": [
    "act",
    "A winding that tunes broadly has lost its Q: shorted turns, a leak across it, a load that should not be there, or AVC still at work.",
    "Clamp the AVC and try again. Then power off, discharged and measured: lift one end and measure the winding and what is across it; silver mica in the can's foot is a usual leak.",
  ],
  "no peak": [
    "act",
    "A winding without any peak does not resonate near the IF: an open capacitor or winding, a broken slug, or a capacitor of the wrong size.",
    "Power off, discharged and measured: ohms of the winding, then a known small capacitor across it to see which way it is off.",
  ],
  "peak at the stop": [
    "check",
    "A peak at the end of the travel means that the rest of the circuit has changed: more capacitance than it was made for, or less.",
    "Look first for a lead or accessory hung on it, then for a replaced or drifted capacitor, then for a slug set on the wrong one of two peaks: take the outer one.",
  ],
  "two peaks a turn or two apart": [
    "check",
    "A slug that passes through both windings shows two peaks: the outer one, with the slug nearer its own end, is the right one.",
    "Turn the slug out until its outermost peak, and leave it there.",
  ],
};

const hz = (v: number, u = 50): string => printValue(v, "frequency", u);
const hangs = (x: Asked): number => x.strip.cans.findIndex((c) => c.addedCapacitance > 0);
const isOver = (g: G) => g.verdict((_, y) => y.mostOver > 1.1);

/**
 * The answer in short: which centre, and how the cans are set to it.
 *
 * @param g what the answer stands on
 * @returns one sentence
 * @source house frame
 */
export function headlineOf(g: G): string {
  if (hangs(g.best) >= 0) return "Not yet: a cable hangs on a can and must be tuned out by its own coil first.";
  const to = `Align to ${g.about("centreToUse")}, last can first`;
  if ((g.figures.pairA.value ?? 0) > 1.1) return `${to}; the can with two humps is overcoupled and must not simply be peaked.`;
  const over = isOver(g);
  return over === "no"
    ? `${to}: every can here is peaked, secondary and primary in turn.`
    : `${to}: ${over === "yes" ? "at least one can is overcoupled and must not simply be peaked" : "one can may be overcoupled; sweep it before peaking"}.`;
}

/**
 * What the readings mean, and what is done at the set.
 *
 * @param g what the answer stands on
 * @param put takes each finding
 * @source lessons and handbooks on alignment (read); common practice
 */
export function findingsOf(g: G, put: Put): void {
  put(
    "if-align-first",
    "note",
    "Leave the IF alone until every other cause of poor reception is ruled out: a set that was aligned before needs a slight touch, no more.",
    { restsOn: ["centreToUse"] },
  );
  put(
    "if-align-tools",
    "check",
    "This is done with the set on: plates and windings of the cans are at B+, and a generator and a meter hang on it.",
    {
      do: `Insulated alignment tool, one hand, never work alone. Generator through a capacitor rated ${g.rating.says}; its ground to a chassis that is proved isolated. Clamp the AVC with the set off and discharged. Mark each slot with a pencil first, and never force a slug at its stop.`,
      restsOn: ["centreToUse"],
    },
  );
  const hanging = hangs(g.best);
  if (hanging >= 0)
    put(
      "if-align-hanging",
      "act",
      `A cable hangs on can ${hanging + 1} and is not tuned out yet: its primary is far off the IF, and no slug brings it back.`,
      {
        do: "Tune the accessory's coil for the cable first (the sheet on a cable on the mixer plate), record that, and only then touch this can.",
        restsOn: ["lostByOneKhz"],
      },
    );
  const feeling = feelings[g.best.feel];
  if (feeling)
    put(`if-align-feel-${g.best.feel.replace(/ /g, "-")}`, feeling[0], feeling[1], { do: feeling[2], restsOn: ["lostByOneKhz"] });
  aboutCentre(g.best, put);
  aboutHumps(g, put);
  aboutCoupling(g, put);
  aboutSweep(g, put);
}
function aboutCentre(x: Asked, put: Put): void {
  if (x.filterCentre > 0) {
    const by = hz(Math.abs(x.filterCentre - x.strip.intermediateFrequency));
    if (Math.abs(x.filterCentre - x.strip.intermediateFrequency) <= 100) return;
    const raise = x.filterCentre > x.strip.intermediateFrequency === (x.oscillator === "above");
    put(
      "if-align-centre",
      "act",
      `The filter's own centre is ${hz(x.filterCentre)}, ${by} off the IF on the service sheet: align the cans to the filter, which can't be moved. Every dial mark then receives ${by} ${raise ? "low" : "high"} until the oscillator follows.`,
      {
        do: `Align the cans to the filter. Then ${raise ? "raise" : "lower"} the oscillator by ${by} on each band (it runs ${x.oscillator}), move the BFO by the same amount, and look at the bandspread again. The sheet on tracking says whether the trimmers can follow.`,
        restsOn: ["centreToUse", "dialShift"],
      },
    );
  } else if (x.narrowest !== "none")
    put(
      "if-align-measure-centre",
      "check",
      "The sharp filter's own centre is not measured: it may be off the service sheet's value by a kilohertz or more, and the cans belong on it.",
      {
        do: "Generator at the mixer grid, by counter: for a crystal where the output peaks at sharp, for a ceramic filter the mean of its -6 dB points.",
        restsOn: ["centreToUse"],
      },
    );
}
function aboutHumps(g: G, put: Put): void {
  const x = g.best;
  if (!(x.humpSpacing > 0) || x.humpFrom !== "one can alone") return;
  if (x.humpDifference > 2)
    put(
      "if-align-unequal",
      "act",
      `The humps differ by ${printValue(x.humpDifference, "decibel", 0.1)}: this can is mistuned, or its windings are very different; its coupling can't be told from the curve before that is mended.`,
      { do: `Resistor of ${g.about("loading")} across one winding, peak the other; swap; take it off and look again.`, restsOn: ["pairA"] },
    );
  else
    put(
      "if-align-humps",
      "check",
      `Two equal humps with ${printValue(x.humpValley, "decibel", 0.1)} between them: coupled ${g.about("pairA")} times critical with Q ${g.about("pairQ")}, so it was made this way and isn't faulty. If the windings are tuned a little apart, less coupling gives the same curve.`,
      {
        do: `Don't simply peak it: that would tilt the curve. ${g.about("loading")} across one winding brings it under critical; peak the other; swap; take it off.`,
        restsOn: ["pairA", "pairQ", "loading"],
      },
    );
}
function aboutCoupling(g: G, put: Put): void {
  const over = isOver(g);
  if (over === "no" || g.best.humpSpacing > 0) return;
  put(
    `if-align-over-${over}`,
    "check",
    `A can of this strip is ${over === "yes" ? "" : "perhaps "}overcoupled (${g.say("mostOver")} times critical): peaked for maximum output, its curve tilts.`,
    { do: "Use the resistors of the table, or sweep it.", restsOn: ["mostOver"] },
  );
}
function aboutSweep(g: G, put: Put): void {
  const rate = g.figures.sweepRate.value ?? 0;
  put(
    "if-align-sweep",
    "note",
    `Sweep ${g.about("sweepWidth")} wide, no faster than ${hz(rate, rate / 20)} in a second${rate < 3.6e6 ? ": a sweep at line frequency is too fast for it and rings" : "; a sweep of 30 kHz at line frequency is slow enough"}. If the pass band shrinks as the gain goes up, the strip is near oscillation.`,
    { restsOn: ["sweepWidth", "sweepRate"] },
  );
}
