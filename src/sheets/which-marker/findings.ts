import { timeStations } from "../../standards/time-stations";
import { printExact } from "../../units/print";
import type { Asked, G, Put } from "./ask";

/** Whether every place that the dial's error allows lies clearly to one side of the nearest marker. */
function fitsNone(g: G): boolean {
  const rest = (x: Asked, marker: number): number => x.dialFrequency - x.dialError - marker;
  return (
    g.verdict((x, y) => rest(x, y.marker) > 0.05 * x.spacing) === "yes" ||
    g.verdict((x, y) => rest(x, y.marker) < -0.05 * x.spacing) === "yes"
  );
}
/** Whether a marker is the same one wherever in its doubt the dial is. */
const isSure = (g: G, name: "marker" | "coarse5" | "coarse10") => g.verdict((_, y) => y[name] === g.figures[name].value) === "yes";

/**
 * The marker in a sentence; or that the dial can't tell it.
 *
 * @param g the ground: inputs and results
 * @returns the sentence
 * @source house frame
 */
export function headlineOf(g: G): string {
  if (fitsNone(g))
    return `No marker lies where the dial can be: the nearest, at ${g.about("marker")}, is further off than the dial's error allows.`;
  return isSure(g, "marker")
    ? `It is the marker at ${g.about("marker")}; the dial is off by ${g.about("offBy")}.`
    : `The dial alone can't tell: it may be any marker from ${g.say("marker")}.`;
}

/**
 * Whether it is certain, what would make it so, and whether a count agrees.
 *
 * @param g the ground: inputs and results
 * @param put puts each finding
 * @source house frame
 */
export function findingsOf(g: G, put: Put): void {
  if (fitsNone(g))
    put(
      "which-none",
      "act",
      `The nearest marker is ${g.say("offBy")} from the dial's reading, which is more than the dial's stated error.`,
      {
        do: "Check the spacing of the markers and the error of the dial: one of the two is not as stated. Until then count from a station that is known.",
        restsOn: ["marker", "offBy"],
      },
    );
  else if (isSure(g, "marker"))
    put("which-sure", "note", `The dial is better than half the spacing (${g.say("halfSpacing")}), so it is certain.`, {
      restsOn: ["marker", "halfSpacing"],
    });
  else
    put("which-ambiguous", "act", `The dial may be off by more than half the spacing (${g.say("halfSpacing")}).`, {
      do: settledBy(g),
      restsOn: ["marker", "coarse5", "coarse10"],
    });
  if (g.verdict((_, y) => y.countAgrees === 0) === "no")
    put("which-count-disagrees", "check", `Counted from the anchor it is ${g.say("byCount")}, which the dial does not allow.`, {
      do: "Count again, more slowly, or check the anchor.",
      restsOn: ["byCount", "countAgrees"],
    });
}
/** What tells the markers apart where the dial can't: coarser ones, or a station that is known. */
function settledBy(g: G): string {
  const coarse = (["coarse5", "coarse10"] as const).find((name) => isSure(g, name));
  if (coarse)
    return `Switch to markers ${coarse === "coarse5" ? 5 : 10} times as far apart: the one next to here is ${g.say(coarse)}, for certain. Then switch back and count from it.`;
  const [known] = timeStations
    .flatMap((s) => s.hz.map((hz) => ({ id: s.id, hz })))
    .sort((a, b) => Math.abs(a.hz - g.best.dialFrequency) - Math.abs(b.hz - g.best.dialFrequency));
  return `Even markers ten times as far apart leave it open. Find ${known.id} on ${printExact(known.hz, "frequency")} and count markers from there.`;
}
