import type { GroundOn } from "../../ask/contract";
import { inside } from "../../ask/declare";
import type { Finding } from "../../ask/findings";
import { printValue } from "../../units/print";
import type { AlignInputs, AlignNames } from "./solve";

/** What a slug's feel means. Source: lessons and handbooks on alignment (read); common practice. */
const feelings: Readonly<Record<string, readonly [severity: Finding["severity"], says: string, todo: string]>> = {
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
    "A slug that passes through both windings shows two peaks: the outer one, with the slug nearer its own end, is meant.",
    "Turn the slug out until its outermost peak, and leave it there.",
  ],
};

/** What the readings mean, and what is done at the set. */
export function findingsOf(g: GroundOn<AlignInputs, AlignNames>): Finding[] {
  const x = g.best;
  const out: Finding[] = [];
  const put = (id: string, severity: Finding["severity"], says: string, todo: string | undefined, restsOn: readonly AlignNames[]): void => {
    out.push({ id: `if-align-${id}`, severity, says, ...(todo ? { do: todo } : {}), restsOn, hazards: todo ? inside : ["none"] });
  };
  put(
    "first",
    "note",
    "Leave the IF alone until every other cause of poor reception is ruled out: a set that was aligned before needs a slight touch, no more.",
    undefined,
    ["centreToUse"],
  );
  put(
    "tools",
    "check",
    "This is done with the set on: plates and windings of the cans are at B+, and a generator and a meter hang on it.",
    `Insulated alignment tool, one hand, never work alone. Generator through a capacitor rated ${g.rating.says}; its ground to a chassis that is proved isolated. Clamp the AVC with the set off and discharged. Mark each slot with a pencil first, and never force a slug at its stop.`,
    ["centreToUse"],
  );
  const hanging = x.strip.cans.findIndex((c) => c.addedCapacitance > 0);
  if (hanging >= 0)
    put(
      "hanging",
      "act",
      `A cable hangs on can ${hanging + 1} and is not tuned out yet: its primary is far off the IF, and no slug brings it back.`,
      "Tune the accessory's coil for the cable first (the sheet on a cable on the mixer plate), record that, and only then touch this can.",
      ["lostByOneKhz"],
    );
  const feeling = feelings[x.feel];
  if (feeling) put(`feel-${x.feel.replace(/ /g, "-")}`, feeling[0], feeling[1], feeling[2], ["lostByOneKhz"]);
  if (x.filterCentre > 0) {
    const off = Math.abs(x.filterCentre - x.strip.intermediateFrequency);
    const by = printValue(off, "frequency", 50);
    if (off > 100)
      put(
        "centre",
        "act",
        `The filter's own centre is ${printValue(x.filterCentre, "frequency", 50)}, ${by} off the IF on the service sheet: align the cans to the filter, which can't be moved. Every dial mark then receives ${by} ${x.filterCentre > x.strip.intermediateFrequency === (x.oscillator === "above") ? "low" : "high"} until the oscillator follows.`,
        `Align the cans to the filter. Then ${x.filterCentre > x.strip.intermediateFrequency === (x.oscillator === "above") ? "raise" : "lower"} the oscillator by ${by} on each band (it runs ${x.oscillator}), set the BFO by as much, and look at the bandspread again. The sheet on tracking says whether the trimmers can follow.`,
        ["centreToUse", "dialShift"],
      );
  } else if (x.narrowest !== "none")
    put(
      "measure-centre",
      "check",
      "The sharp filter's own centre is not measured: it may be off the service sheet's value by a kilohertz or more, and the cans belong on it.",
      "Generator at the mixer grid, by counter: for a crystal where the output peaks at sharp, for a ceramic filter the mean of its -6 dB points.",
      ["centreToUse"],
    );
  if (x.humpSpacing > 0 && x.humpFrom === "one can alone") {
    if (x.humpDifference > 2)
      put(
        "unequal",
        "act",
        `The humps differ by ${printValue(x.humpDifference, "decibel", 0.1)}: this can is mistuned, or its windings are very unlike; its coupling can't be told from the curve before that is mended.`,
        `Resistor of ${g.about("loading")} across one winding, peak the other; swap; take it off and look again.`,
        ["pairA"],
      );
    else
      put(
        "humps",
        "check",
        `Two like humps with ${printValue(x.humpValley, "decibel", 0.1)} between them: coupled ${g.about("pairA")} times critical with Q ${g.about("pairQ")}, so it was made this way and isn't faulty. Where the windings are a little off each other less coupling gives the same curve.`,
        `Don't simply peak it: that would tilt the curve. ${g.about("loading")} across one winding brings it under critical; peak the other; swap; take it off.`,
        ["pairA", "pairQ", "loading"],
      );
  }
  const over = g.verdict((_, y) => y.mostOver > 1.1);
  if (over !== "no" && !(x.humpSpacing > 0))
    put(
      `over-${over}`,
      "check",
      `A can of this strip is ${over === "yes" ? "" : "perhaps "}overcoupled (${g.say("mostOver")} times critical): peaked for most output it tilts.`,
      "Use the resistors of the table, or sweep it.",
      ["mostOver"],
    );
  const rate = g.figures.sweepRate.value ?? 0;
  put(
    "sweep",
    "note",
    `Sweep ${g.about("sweepWidth")} wide, no faster than ${printValue(rate, "frequency", rate / 20)} in a second${rate < 3.6e6 ? ": a sweep at line frequency is too fast for it and rings" : "; a sweep of 30 kHz at line frequency is slow enough"}. If the pass band shrinks as the gain goes up, the strip is near oscillation.`,
    undefined,
    ["sweepWidth", "sweepRate"],
  );
  return out;
}
