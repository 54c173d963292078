import { sheet } from "../../ask/contract";
import type { Finding } from "../../ask/findings";
import { timeStations } from "../../standards/time-stations";
import { printExact } from "../../units/print";
import { exact, tolerance } from "../../units/quantity";
import { nearestMarker, solveWhich } from "./solve";
import theory from "./theory.md";

type Num = Record<string, number>;

/** Whether every place that the dial's error allows lies clearly to one side of the nearest marker. */
function fitsNone(g: {
  readonly verdict: (
    holds: (x: { dialFrequency: number; dialError: number; spacing: number }, y: object) => boolean,
  ) => "yes" | "no" | "open";
}): boolean {
  const rest = (x: { dialFrequency: number; dialError: number }, y: object): number => x.dialFrequency - x.dialError - (y as Num).marker;
  return g.verdict((x, y) => rest(x, y) > 0.05 * x.spacing) === "yes" || g.verdict((x, y) => rest(x, y) < -0.05 * x.spacing) === "yes";
}

export const whichMarker = sheet({
  id: "which-marker",
  version: 3,
  title: "Which marker is this?",
  question: "Which marker am I hearing?",
  subject: "fitting",
  fitting: "marker-generator",
  joins: false,
  works: "panel",
  steps: ["28", "26", "23"],
  inputs: {
    dialFrequency: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      max: 60e6,
      meaning: "what the dial says at the marker",
      howMeasured: "read the dial at zero beat, coming from the usual side",
      assumed: { value: 7.11e6, spread: exact, source: "an example" },
    },
    dialError: {
      kind: "quantity",
      dimension: "frequency",
      meaning: "how far the dial may be off at its reading (reads high: positive)",
      howMeasured: "a station of known frequency close by",
      assumed: { value: 0, spread: tolerance(35e3), source: "0.5 % of a general-coverage dial, common practice, no source" },
    },
    spacing: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      meaning: "spacing of the markers",
      howMeasured: "the generator's switch",
      assumed: { value: 100e3, spread: exact, source: "the usual marker generator" },
    },
    anchor: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      meaning: "a frequency that is known for sure, from which markers were counted",
      howMeasured: "a standard-frequency station, or a coarser marker",
      assumed: { value: 5e6, spread: exact, source: "a standard-frequency channel" },
    },
    counted: {
      kind: "quantity",
      dimension: "ratio",
      meaning: "markers counted from the known frequency to this one, up positive",
      howMeasured: "tune slowly and count each one",
      assumed: { value: 21, spread: exact, source: "an example" },
    },
  },
  observed: ["dialFrequency"],
  first: ["dialFrequency", "dialError", "spacing", "anchor", "counted"],
  results: {
    marker: { dimension: "frequency", meaning: "the marker; its interval shows which neighbours are in question", exact: true },
    atDial: { dimension: "frequency", meaning: "marker next to the dial's reading", exact: true },
    offBy: { dimension: "frequency", meaning: "error of the dial, if the marker's nearest neighbour is what is heard" },
    halfSpacing: { dimension: "frequency", meaning: "half the spacing of the markers: the dial must be better than this", exact: true },
    coarse5: { dimension: "frequency", meaning: "marker next to the dial's reading with markers five times as far apart", exact: true },
    coarse10: { dimension: "frequency", meaning: "marker next to the dial's reading with markers ten times as far apart", exact: true },
    byCount: { dimension: "frequency", meaning: "marker by counting from the anchor", exact: true },
    countAgrees: { dimension: "frequency", meaning: "marker by count less marker by dial: 0 where both agree", exact: true },
  },
  key: ["marker", "countAgrees"],
  curves: { steps: { x: "frequency", y: "frequency", meaning: "marker next to each frequency, less the frequency" } },
  prepare: (best, points) => {
    const steps = Float64Array.from({ length: points }, (_, i) => best.dialFrequency + best.spacing * (-1.5 + (3 * i) / (points - 1)));
    return {
      axes: { steps },
      solve: (x, into) => {
        for (let i = 0; i < steps.length; i++) into.steps[i] = nearestMarker(steps[i], x.spacing) - steps[i];
        return solveWhich(x);
      },
    };
  },
  headline: (g) => {
    if (fitsNone(g))
      return `No marker lies where the dial can be: the nearest, at ${g.about("marker")}, is further off than the dial's error allows.`;
    const sure = g.verdict((_, y) => (y as Num).marker === g.figures.marker.value);
    return sure === "yes"
      ? `It is the marker at ${g.about("marker")}; the dial is off by ${g.about("offBy")}.`
      : `The dial alone can't tell: it may be any marker from ${g.say("marker")}.`;
  },
  findings: (g) => {
    const out: Finding[] = [];
    const best = (name: "marker" | "coarse5" | "coarse10") => g.verdict((_, y) => (y as Num)[name] === g.figures[name].value) === "yes";
    const known = timeStations
      .flatMap((s) => s.hz.map((hz) => ({ id: s.id, hz })))
      .sort((a, b) => Math.abs(a.hz - g.best.dialFrequency) - Math.abs(b.hz - g.best.dialFrequency))[0];
    if (fitsNone(g))
      out.push({
        id: "which-none",
        severity: "act",
        says: `The nearest marker is ${g.say("offBy")} from the dial's reading, which is more than the dial's stated error.`,
        do: "Check the spacing of the markers and the error of the dial: one of the two is not as stated. Until then count from a station that is known.",
        restsOn: ["marker", "offBy"],
        hazards: ["none"],
      });
    else if (best("marker"))
      out.push({
        id: "which-sure",
        severity: "note",
        says: `The dial is better than half the spacing (${g.say("halfSpacing")}), so it is certain.`,
        restsOn: ["marker", "halfSpacing"],
        hazards: ["none"],
      });
    else {
      const coarse = best("coarse5") ? 5 : best("coarse10") ? 10 : undefined;
      out.push({
        id: "which-ambiguous",
        severity: "act",
        says: `The dial may be off by more than half the spacing (${g.say("halfSpacing")}).`,
        do: coarse
          ? `Switch to markers ${coarse} times as far apart: the one next to here is ${g.say(coarse === 5 ? "coarse5" : "coarse10")}, for certain. Then switch back and count from it.`
          : `Even markers ten times as far apart leave it open. Find ${known.id} on ${printExact(known.hz, "frequency")} and count markers from there.`,
        restsOn: ["marker", "coarse5", "coarse10"],
        hazards: ["none"],
      });
    }
    const agree = g.verdict((_, y) => (y as Num).countAgrees === 0);
    if (agree === "no")
      out.push({
        id: "which-count-disagrees",
        severity: "check",
        says: `Counted from the anchor it is ${g.say("byCount")}, which the dial does not allow.`,
        do: "Count again, more slowly, or check the anchor.",
        restsOn: ["byCount", "countAgrees"],
        hazards: ["none"],
      });
    return out as never;
  },
  figures: [
    {
      id: "steps",
      title: "From here to the next marker",
      xLabel: "where the set may be",
      yLabel: "to the next marker",
      traces: [{ label: "next marker", curve: "steps", stroke: "ink" }],
    },
  ],
  theory,
});
