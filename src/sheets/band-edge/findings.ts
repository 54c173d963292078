import type { Finding } from "../../ask/findings";
import type { Figure } from "../../ask/results";
import { bandOver, bandsChecked, type licences, type regions, regionsSaid } from "../../standards/bands";
import { orThrow } from "../../units/issue";
import { printExact } from "../../units/print";
import { dialOf } from "../inputs/dial";
import { type EdgeInputs, extentHz } from "./solve";

const none: Finding["hazards"] = ["none"];
export type EdgeAsked = EdgeInputs & {
  readonly licence: (typeof licences)[number] | "own" | "by Region";
  readonly region: (typeof regions)[number] | "unstated";
  readonly line: (typeof lines)[number];
  readonly lowEdge: number;
  readonly highEdge: number;
  readonly stations: readonly { reading: number; frequency: number }[];
  readonly stationTolerance: number;
};
/** Kinds of line, by what is stated of the set's own rating. */
export const lines = ["unstated", "100 to 130 V, 60 Hz", "another"] as const;
/** Whose edges count: nobody's while neither a licence nor the Region is stated. */
export const licenceOf = (x: EdgeAsked): (typeof licences)[number] | "own" | undefined =>
  x.licence === "by Region" ? (x.region === "unstated" ? undefined : x.region) : x.licence;
/** The band of the licence that these zero beats are on, or the owner's own edges; `unstated` while nobody has said whose edges count. */
export function bandFor(x: EdgeAsked): { readonly lowHz: number; readonly highHz: number; readonly said: string } | "unstated" | undefined {
  const licence = licenceOf(x);
  if (licence === undefined) return "unstated";
  if (licence === "own") return { lowHz: x.lowEdge, highHz: x.highEdge, said: "edges as the owner stated them" };
  const f = x.points.map((p) => p.frequency);
  const band = bandOver(licence, Math.min(...f), Math.max(...f));
  return band && { lowHz: band.lowHz, highHz: band.highHz, said: `${band.band}, ${licence}: ${band.source}, ${band.flag}` };
}
const whereItIs = "Which ITU Region the set is used in isn't recorded";

type Names = "carrierLow" | "carrierHigh" | "signalLow" | "signalHigh" | "lowEdgeAt" | "highEdgeAt";
interface G {
  readonly best: EdgeAsked;
  readonly figures: Readonly<Record<Names, Figure>>;
}
/** A frequency that is exact: an edge, or what was stated. */
const exactly = (hz: number): string => printExact(hz, "frequency");
const percent = (part: number): number => Math.round(part * 1000) / 10;
const article = (mode: string): string => (mode === "AM" || mode === "LSB" ? "an" : "a");
const turning = { "1": "turning up", "-1": "turning down", "0": "from either side" } as const;

/** The settings in a sentence, with the side to come from. */
export function edgeHeadline(g: G): string {
  const x = g.best;
  const band = bandFor(x);
  if (!band) return "These zero beats lie in no band of this licence.";
  if (band === "unstated") return `${whereItIs}, so no band edge is known and none is given.`;
  const between = (low: Names, high: Names): string => {
    const [from, to] = [low, high].map((n) => (g.figures[n].value === null ? undefined : String(Number(g.figures[n].value.toFixed(2)))));
    if (from && to) return `from ${from} to ${to} on the scale`;
    if (from) return `from ${from} on the scale; the upper edge isn't known`;
    if (to) return `up to ${to} on the scale; the lower edge isn't known`;
    return g.figures[low].why?.startsWith("nowhere")
      ? "nowhere that is surely clear of both edges"
      : "nowhere that these zero beats can vouch for";
  };
  return `Carrier inside ${exactly(band.lowHz)} to ${exactly(band.highHz)} ${between("carrierLow", "carrierHigh")}, ${percent(x.confidence)} % at each edge; ${article(x.mode)} ${x.mode} signal wholly inside ${between("signalLow", "signalHigh")}. ${x.side === "either" ? "From either side" : `Come to it ${turning[orThrow(dialOf(x)).fit.side]}`}, the main dial as it was for the zero beats.`;
}

/** The Region is asked for, never guessed: the line that a set is made for only suggests one. */
const regionFinding = (x: EdgeAsked): Finding => ({
  id: "edge-region",
  severity: "act",
  says: `${whereItIs}; ${regionsSaid}.${x.line === "100 to 130 V, 60 Hz" ? " A set made for this line may be in Region 2: is it?" : ""} The edges differ: 40 m ends at ${exactly(7.2e6)} in Regions 1 and 3, at ${exactly(7.3e6)} in Region 2.`,
  do: "Record the Region once for this job (place.region, such as ITU Region 2), or the owner's licence (place.licence).",
  restsOn: ["lowEdgeHz", "highEdgeHz"],
  hazards: none,
});

/** What the settings rest on, and what they do not say. */
export function edgeFindings(g: G): Finding[] {
  const x = g.best;
  const { fit, odd } = orThrow(dialOf(x));
  const band = bandFor(x);
  const out: Finding[] = [];
  if (!band) return [];
  if (band === "unstated") return [regionFinding(x)];
  const { below, above } = extentHz(x);
  out.push({
    id: "edge-rules",
    severity: "check",
    says: `Edges: ${band.said}; table as of ${bandsChecked}. National rules and the class of the licence prevail, and change.`,
    do: "Look up the edges that apply to you today; where they differ, state your own: licence own, with lower and upper edge.",
    restsOn: ["carrierLow", "carrierHigh"],
    hazards: none,
  });
  out.push({
    id: "edge-transmitter",
    severity: "check",
    says: "This is where the receiver is. A transmitter tuned to a pleasant note is off by that note, and by as much as the BFO is off its centre.",
    do: "Zero beat the transmitter with the receiver at these settings, BFO centred.",
    restsOn: ["carrierLow", "carrierHigh"],
    hazards: none,
  });
  out.push({
    id: "edge-signal",
    severity: "note",
    says: `${article(x.mode) === "an" ? "An" : "A"} ${x.mode} signal reaches ${exactly(below)} below its carrier and ${exactly(above)} above. ${percent(x.confidence)} % is the chance at each edge by itself, over many dials like this one; the law's and the markers' errors stay with one set, so on an unlucky one it is less.`,
    restsOn: ["signalLow", "signalHigh"],
    hazards: none,
  });
  for (const [name, hz, at] of [
    ["low", band.lowHz, "lowEdgeAt"],
    ["high", band.highHz, "highEdgeAt"],
  ] as const) {
    const on = fit.points.filter((p) => Math.abs(p.frequencyHz - hz) < 1);
    if (on.length > 0)
      out.push({
        id: `edge-marker-${name}`,
        severity: "note",
        says: `There is a marker on the ${name === "low" ? "lower" : "upper"} edge itself, read at ${on.map((p) => p.reading).join(" and ")}: it is used. Zero beating it just before sending tells where the edge is just now. It is the edge itself: keep the guard from it, and never send on it.`,
        restsOn: [at],
        hazards: none,
      });
    else if (g.figures[at].value === null)
      out.push({
        id: `edge-beyond-${name}`,
        severity: "act",
        says: `The law of these zero beats does not reach ${exactly(hz)}, so nothing is said about the ${name === "low" ? "lower" : "upper"} edge.`,
        do: `Zero beat a marker at ${exactly(hz)} or beyond, from the usual side.`,
        restsOn: [at],
        hazards: none,
      });
  }
  if (fit.leans)
    out.push({
      id: "edge-few",
      severity: "check",
      says: `${fit.points.length} zero beats don't tell how the dial bends, so the settings rest in part on what such dials usually do, and keep far from the edges.`,
      do: "See on the sheet of the dial which zero beats would narrow it most.",
      restsOn: ["carrierLow", "carrierHigh"],
      hazards: none,
    });
  if (odd.length > 0)
    out.push({
      id: "edge-odd",
      severity: "check",
      says: `${odd.length} zero beat${odd.length > 1 ? "s do" : " does"} not fit and ${odd.length > 1 ? "were" : "was"} left out.`,
      do: "Look at the sheet on the dial for the likely cause, and mend it first.",
      restsOn: ["carrierLow", "carrierHigh"],
      hazards: none,
    });
  return out;
}
