import { inside } from "../../ask/declare";
import type { G, Put } from "./ask";

const noSign = (text: string): string => text.replace(/^-/, "");
const word = { yes: "can", no: "cannot", open: "may or may not" } as const;
/** A coil that leaves more than this lost takes nothing up. Common practice, no source. */
const mostLossDb = 6;
const coilTakesUp = (g: G) => g.verdict((_, y) => y.compensatingLoss > -mostLossDb);

/**
 * The answer in short: what the cable does, and whether slug or coil take it up.
 *
 * @param g what the answer stands on
 * @returns two sentences
 * @source house frame
 */
export function headlineOf(g: G): string {
  const coil = coilTakesUp(g);
  const leaves = `${coil === "yes" ? ", and leaves" : ": it leaves"} a loss of ${noSign(g.about("compensatingLoss"))}`;
  return `With the cable on, the first primary falls by ${noSign(g.about("primaryDetune"))} and the set loses ${noSign(g.about("gainChange"))}. The slug ${word[g.verdict((_, y) => y.slugMargin > 0)]} tune it out; the accessory's own coil ${word[coil]}${leaves}.`;
}

/**
 * What the answer means at the bench; all of it happens at the mixer plate.
 *
 * @param g what the answer stands on
 * @param put takes each finding
 * @source house frame
 */
export function findingsOf(g: G, put: Put): void {
  put(
    "cable-open-connector",
    "act",
    `With the cable on and nothing at its far end the first primary moves by ${g.say("primaryDetune")} and the gain changes by ${g.say("gainChange")}.`,
    {
      do: "Take the cable off at the set when the accessory is not in use, and peak the set to its own short connector, not to the cable.",
      restsOn: ["primaryDetune", "gainChange"],
    },
  );
  aboutSlug(g, put);
  aboutTrimmer(g, put);
  aboutCoil(g, put);
  aboutTrap(g, put);
  aboutLine(g, put);
}
function aboutSlug(g: G, put: Put): void {
  const slug = g.verdict((_, y) => y.slugMargin > 0);
  const change = `The slug would have to change the inductance by ${g.say("slugChange")}`;
  if (slug === "yes") {
    put("cable-slug-can", "act", `${change}, within its range: re-peaked, ${g.say("gainChangeAfterRepeak")} is left.`, {
      do: "Re-peak the first primary only, with the cable on, on a weak steady carrier. Note the slug's position before you turn it.",
      restsOn: ["slugChange", "slugMargin", "gainChangeAfterRepeak"],
    });
    return;
  }
  const no = slug === "no";
  put(
    no ? "cable-slug-cannot" : "cable-slug-open",
    no ? "act" : "check",
    `${change}: ${no ? "beyond its range" : "at the edge of its range, too close to call"}.`,
    {
      do: no
        ? "Do not force the slug. Let a coil in the accessory tune out the cable."
        : "Count the turns left to the stop, and how far the peak shifts per turn, before you rely on the slug; else let a coil in the accessory tune out the cable.",
      restsOn: ["slugChange", "slugMargin"],
      state: "open-live",
    },
  );
}
function aboutTrimmer(g: G, put: Put): void {
  const trimmer = g.verdict((_, y) => y.trimmerMargin > 0);
  if (trimmer === "no") return;
  const can = trimmer === "yes";
  put(
    can ? "cable-trimmer-can" : "cable-trimmer-open",
    can ? "note" : "check",
    `The can's trimmer, opened by ${g.say("effectiveCapacitance")}, ${can ? "can tune it out" : "may tune it out: measure its range"}.`,
    { restsOn: ["trimmerChange", "trimmerMargin"], hazards: inside },
  );
}
function aboutCoil(g: G, put: Put): void {
  put(
    "cable-coil",
    "act",
    `A coil of ${g.say("compensatingInductance")} at the accessory resonates its own cable at the IF and leaves the gain at ${g.say("compensatingLoss")}.`,
    {
      do:
        coilTakesUp(g) === "yes"
          ? "Make the coil adjustable. With the set already peaked to its own connector, tune the coil until the gain is back, then touch up that one primary."
          : "Shorten the cable, or take one of lower capacitance: no coil tunes this one out well enough.",
      restsOn: ["compensatingInductance", "compensatingLoss", "coilParallelResistance"],
      state: "open-live",
    },
  );
}
function aboutTrap(g: G, put: Put): void {
  const trap = g.verdict((x, y) => y.trapFrequency > 0.7 * x.strip.intermediateFrequency);
  if (trap === "no") return;
  put(
    "cable-trap-near",
    trap === "yes" ? "act" : "check",
    `A coil a little off turns cable and series capacitor into a trap at ${g.say("trapFrequency")}, close to the IF.`,
    {
      do: "Use a larger series capacitor, ten times the cable's capacitance or more, so that the trap lies far below the IF.",
      restsOn: ["trapFrequency"],
    },
  );
}
function aboutLine(g: G, put: Put): void {
  const restsOn = ["lumpedError", "lumpedLimit"] as const;
  if (g.verdict((_, y) => y.lumpedError < 0.01) === "yes") {
    put(
      "cable-lumped-enough",
      "note",
      `Taken as a plain capacitor, the cable is right to ${g.say("lumpedError")}; the error reaches 1 % at ${g.say("lumpedLimit")}.`,
      { restsOn },
    );
    return;
  }
  put(
    "cable-lumped-not-enough",
    "check",
    `At this length the cable is a line, not a capacitor: off by ${g.say("lumpedError")}. The gains here use the line; the simple values do not.`,
    { restsOn },
  );
}
