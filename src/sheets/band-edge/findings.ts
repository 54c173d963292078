import { bandOver, bandsChecked, type licences } from "../../standards/bands";
import { orThrow } from "../../units/issue";
import { printValue } from "../../units/print";
import type { Figure, Finding } from "../contract";
import { mhz } from "../dial-figures";
import { dialOf } from "../dial-inputs";
import { type EdgeInputs, extentHz } from "./solve";

const none: Finding["hazards"] = ["none"];
export type EdgeAsked = EdgeInputs & {
  readonly licence: (typeof licences)[number] | "own";
  readonly lowEdge: number;
  readonly highEdge: number;
  readonly stations: readonly { reading: number; frequency: number }[];
  readonly stationTolerance: number;
};
/** The band of the licence that these zero beats are on, or the owner's own edges. */
export function bandFor(x: EdgeAsked): { readonly lowHz: number; readonly highHz: number; readonly said: string } | undefined {
  if (x.licence === "own") return { lowHz: x.lowEdge, highHz: x.highEdge, said: "edges as the owner stated them" };
  const f = x.points.map((p) => p.frequency);
  const band = bandOver(x.licence, Math.min(...f), Math.max(...f));
  return band && { lowHz: band.lowHz, highHz: band.highHz, said: `${band.band}, ${x.licence}: ${band.source}, ${band.flag}` };
}

type Names = "carrierLow" | "carrierHigh" | "signalLow" | "signalHigh" | "lowEdgeAt" | "highEdgeAt";
interface G {
  readonly best: EdgeAsked;
  readonly figures: Readonly<Record<Names, Figure>>;
}
const percent = (part: number): number => Math.round(part * 1000) / 10;
const article = (mode: string): string => (mode === "AM" || mode === "LSB" ? "an" : "a");
const turning = { "1": "turning up", "-1": "turning down", "0": "from either side" } as const;

/** The settings in a sentence, with the side to come from. */
export function edgeHeadline(g: G): string {
  const x = g.best;
  const band = bandFor(x);
  if (!band) return "These zero beats lie on no band of this licence.";
  const between = (low: Names, high: Names): string => {
    const [from, to] = [low, high].map((n) => (g.figures[n].value === null ? undefined : String(Number(g.figures[n].value.toFixed(2)))));
    if (from && to) return `from ${from} to ${to} on the scale`;
    if (from) return `from ${from} on the scale; the upper edge can't be told`;
    if (to) return `up to ${to} on the scale; the lower edge can't be told`;
    return g.figures[low].why?.startsWith("nowhere")
      ? "nowhere that is surely clear of both edges"
      : "nowhere that these zero beats can tell";
  };
  return `Carrier inside ${mhz(band.lowHz)} to ${mhz(band.highHz)} ${between("carrierLow", "carrierHigh")}, ${percent(x.confidence)} % at each edge; ${article(x.mode)} ${x.mode} signal wholly inside ${between("signalLow", "signalHigh")}. ${x.side === "either" ? "From either side" : `Come to it ${turning[orThrow(dialOf(x)).fit.side]}`}, the main dial as it was for the zero beats.`;
}

/** What the settings rest on, and what they do not say. */
export function edgeFindings(g: G): Finding[] {
  const x = g.best;
  const { fit, odd } = orThrow(dialOf(x));
  const band = bandFor(x);
  const out: Finding[] = [];
  if (!band) return [];
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
    says: `${article(x.mode) === "an" ? "An" : "A"} ${x.mode} signal reaches ${printValue(below, "frequency")} below its carrier and ${printValue(above, "frequency")} above. ${percent(x.confidence)} % is the chance at each edge by itself, over many dials like this one; the law's and the markers' errors stay with one set, so on an unlucky one it is less.`,
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
        says: `No zero beat lies near or beyond ${mhz(hz)}, so nothing is said of the ${name === "low" ? "lower" : "upper"} edge.`,
        do: `Zero beat a marker at ${mhz(hz)} or beyond, from the usual side.`,
        restsOn: [at],
        hazards: none,
      });
  }
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
