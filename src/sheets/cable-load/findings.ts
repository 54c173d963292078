import type { Ground } from "../../ask/contract";
import type { Finding } from "../../ask/findings";
import type { CableInputs, solveCable } from "./solve";

type Y = ReturnType<typeof solveCable>;
type G = Omit<Ground<never, Record<keyof Y, never>>, "verdict"> & {
  verdict: (holds: (x: CableInputs, y: Y) => boolean) => "yes" | "no" | "open";
};
const plate: Finding["hazards"] = ["b-plus", "stored-charge"];

export const cableHeadline = (g: G): string =>
  `With the cable on, the first primary falls by ${noSign(g.about("primaryDetune"))} and the set loses ${noSign(g.about("gainChange"))}. The slug ${word(g.verdict((_, y) => y.slugMargin > 0))} tune it out; the accessory's own coil ${coilWord(g)}.`;

const noSign = (text: string): string => text.replace(/^-/, "");
const word = (v: "yes" | "no" | "open"): string => (v === "yes" ? "can" : v === "no" ? "cannot" : "may or may not");
/** A coil that leaves more than this lost takes nothing up. Common practice, no source. */
const mostLossDb = 6;
const coilTakesUp = (g: G) => g.verdict((_, y) => y.compensatingLoss > -mostLossDb);
const coilWord = (g: G): string => {
  const v = coilTakesUp(g);
  return `${word(v)}${v === "yes" ? ", and leaves" : ": it leaves"} a loss of ${noSign(g.about("compensatingLoss"))}`;
};

/** What the answer means at the bench; all of it happens at the mixer plate. */
export function cableFindings(g: G): Finding[] {
  const out: Finding[] = [];
  const slug = g.verdict((_, y) => y.slugMargin > 0);
  const trimmer = g.verdict((_, y) => y.trimmerMargin > 0);
  out.push({
    id: "cable-open-connector",
    severity: "act",
    says: `With the cable on and nothing at its far end the first primary moves by ${g.say("primaryDetune")} and the gain changes by ${g.say("gainChange")}.`,
    do: "Take the cable off at the set when the accessory is not in use, and peak the set to its own short connector, not to the cable.",
    restsOn: ["primaryDetune", "gainChange"],
    hazards: plate,
  });
  const change = `The slug would have to change the inductance by ${g.say("slugChange")}`;
  if (slug === "yes")
    out.push({
      id: "cable-slug-can",
      severity: "act",
      says: `${change}, within its range: re-peaked, ${g.say("gainChangeAfterRepeak")} is left.`,
      do: "Re-peak the first primary only, with the cable on, on a weak steady carrier. Note where the slug stands before you turn it.",
      restsOn: ["slugChange", "slugMargin", "gainChangeAfterRepeak"],
      hazards: plate,
    });
  else
    out.push({
      id: slug === "no" ? "cable-slug-cannot" : "cable-slug-open",
      state: "open-live",
      severity: slug === "no" ? "act" : "check",
      says: `${change}: ${slug === "no" ? "beyond its range" : "at the edge of its range, too close to call"}.`,
      do:
        slug === "no"
          ? "Do not force the slug. Let a coil in the accessory tune out the cable."
          : "Count the turns left to the stop, and how far the peak shifts per turn, before you rely on the slug; else let a coil in the accessory tune out the cable.",
      restsOn: ["slugChange", "slugMargin"],
      hazards: plate,
    });
  if (trimmer !== "no")
    out.push({
      id: trimmer === "yes" ? "cable-trimmer-can" : "cable-trimmer-open",
      severity: trimmer === "yes" ? "note" : "check",
      says: `The can's trimmer, opened by ${g.say("effectiveCapacitance")}, ${trimmer === "yes" ? "can tune it out" : "may tune it out: measure its range"}.`,
      restsOn: ["trimmerChange", "trimmerMargin"],
      hazards: plate,
    });
  out.push({
    id: "cable-coil",
    state: "open-live",
    severity: "act",
    says: `A coil of ${g.say("compensatingInductance")} at the accessory resonates its own cable at the IF and leaves ${g.say("compensatingLoss")}.`,
    do:
      coilTakesUp(g) === "yes"
        ? "Make the coil adjustable. With the set already peaked to its own connector, tune the coil until the gain is back, then touch up that one primary."
        : "Shorten the cable, or take one of lower capacitance: no coil tunes this one out well enough.",
    restsOn: ["compensatingInductance", "compensatingLoss", "coilParallelResistance"],
    hazards: plate,
  });
  const trap = g.verdict((x, y) => y.trapFrequency > 0.7 * x.strip.intermediateFrequency);
  if (trap !== "no")
    out.push({
      id: "cable-trap-near",
      severity: trap === "yes" ? "act" : "check",
      says: `A coil a little off turns cable and series capacitor into a trap at ${g.say("trapFrequency")}, close to the IF.`,
      do: "Use a larger series capacitor, ten times the cable's capacitance or more, so that the trap lies far below the IF.",
      restsOn: ["trapFrequency"],
      hazards: plate,
    });
  const lumped = g.verdict((_, y) => y.lumpedError < 0.01);
  out.push(
    lumped === "yes"
      ? {
          id: "cable-lumped-enough",
          severity: "note",
          says: `Taken as a plain capacitor, the cable is right to ${g.say("lumpedError")}; the error reaches 1 % at ${g.say("lumpedLimit")}.`,
          restsOn: ["lumpedError", "lumpedLimit"],
          hazards: ["none"],
        }
      : {
          id: "cable-lumped-not-enough",
          severity: "check",
          says: `At this length the cable is a line, not a capacitor: off by ${g.say("lumpedError")}. The gains here use the line; the simple values do not.`,
          restsOn: ["lumpedError", "lumpedLimit"],
          hazards: ["none"],
        },
  );
  return out;
}
