import { bandsChecked, regionsSaid } from "../../standards/bands";
import { orThrow } from "../../units/issue";
import { printExact } from "../../units/print";
import { dialOf } from "../inputs/dial-law";
import type { G, Name, Put } from "./ask";
import { type Band, bandFor } from "./band";
import { extentHz } from "./solve";

const whereItIs = "Which ITU Region the set is used in isn't recorded";
/** A frequency that is exact: an edge, or what was stated. */
const exactly = (hz: number): string => printExact(hz, "frequency");
const percent = (part: number): number => Math.round(part * 1000) / 10;
const article = (mode: string): string => (mode === "AM" || mode === "LSB" ? "an" : "a");
const turning = { "1": "turning up", "-1": "turning down", "0": "from either side" } as const;

/**
 * The settings in a sentence, with the side to come from.
 *
 * @param g the ground: inputs and results
 * @returns the sentence
 * @source house frame
 */
export function headlineOf(g: G): string {
  const x = g.best;
  const band = bandFor(x);
  if (!band) return "These zero beats lie in no band of this licence.";
  if (band === "unstated") return `${whereItIs}, so no band edge is known and none is given.`;
  const between = (low: Name, high: Name): string => {
    const [from, to] = [low, high].map((n) => (g.figures[n].value === null ? undefined : String(Number(g.figures[n].value.toFixed(2)))));
    if (from && to) return `from ${from} to ${to} on the scale`;
    if (from) return `from ${from} on the scale; the upper edge isn't known`;
    if (to) return `up to ${to} on the scale; the lower edge isn't known`;
    return g.figures[low].why?.startsWith("nowhere")
      ? "nowhere that is certain to be clear of both edges"
      : "nowhere that these zero beats can vouch for";
  };
  return `Carrier inside ${exactly(band.lowHz)} to ${exactly(band.highHz)} ${between("carrierLow", "carrierHigh")}, ${percent(x.confidence)} % at each edge; ${article(x.mode)} ${x.mode} signal wholly inside ${between("signalLow", "signalHigh")}. ${x.side === "either" ? "From either side" : `Come to it ${turning[orThrow(dialOf(x)).fit.side]}`}, the main dial as it was for the zero beats.`;
}

/**
 * What the settings rest on, and what they do not say.
 *
 * @param g the ground: inputs and results
 * @param put puts each finding
 * @source house frame
 */
export function findingsOf(g: G, put: Put): void {
  const band = bandFor(g.best);
  if (band === "unstated") aboutRegion(g, put);
  else if (band) {
    aboutRules(g, band, put);
    aboutEdge(g, put, { name: "lower", id: "low", hz: band.lowHz, at: "lowEdgeAt" });
    aboutEdge(g, put, { name: "upper", id: "high", hz: band.highHz, at: "highEdgeAt" });
    aboutBeats(g, put);
  }
}

/** The Region is asked for, never guessed: the line that a set is made for only suggests one. */
function aboutRegion({ best: x }: G, put: Put): void {
  put(
    "edge-region",
    "act",
    `${whereItIs}; ${regionsSaid}.${x.line === "100 to 130 V, 60 Hz" ? " A set made for this line may be in Region 2: is it?" : ""} The edges differ: 40 m ends at ${exactly(7.2e6)} in Regions 1 and 3, at ${exactly(7.3e6)} in Region 2.`,
    {
      do: "Record the place of this job once: its Region, such as ITU Region 2, or the owner's licence.",
      restsOn: ["lowEdgeHz", "highEdgeHz"],
    },
  );
}
function aboutRules({ best: x }: G, band: Band, put: Put): void {
  const restsOn = ["carrierLow", "carrierHigh"] as const;
  put(
    "edge-rules",
    "check",
    `Edges: ${band.said}; table as of ${bandsChecked}. National rules and the class of the licence prevail, and change.`,
    {
      do: "Look up the edges that apply to you today; where they differ, state your own: licence own, with lower and upper edge.",
      restsOn,
    },
  );
  put(
    "edge-transmitter",
    "check",
    "This is where the receiver is tuned. A transmitter tuned to a pleasant note is off by that note, and by as much as the BFO is off its centre.",
    { do: "Zero beat the transmitter with the receiver at these settings, BFO centred.", restsOn },
  );
  const { below, above } = extentHz(x);
  put(
    "edge-signal",
    "note",
    `${article(x.mode) === "an" ? "An" : "A"} ${x.mode} signal reaches ${exactly(below)} below its carrier and ${exactly(above)} above. ${percent(x.confidence)} % is the chance at each edge by itself, over many dials like this one; the law's and the markers' errors stay with one set, so on an unlucky one it is less.`,
    { restsOn: ["signalLow", "signalHigh"] },
  );
}
interface Edge {
  readonly name: string;
  readonly id: string;
  readonly hz: number;
  readonly at: Name;
}
function aboutEdge(g: G, put: Put, { name, id, hz, at }: Edge): void {
  const on = orThrow(dialOf(g.best)).fit.points.filter((p) => Math.abs(p.frequencyHz - hz) < 1);
  if (on.length > 0)
    put(
      `edge-marker-${id}`,
      "note",
      `There is a marker on the ${name} edge itself, read at ${on.map((p) => p.reading).join(" and ")}: it is used. Zero beating it just before sending tells where the edge is just now. It is the edge itself: keep the guard from it, and never send on it.`,
      { restsOn: [at] },
    );
  else if (g.figures[at].value === null)
    put(
      `edge-beyond-${id}`,
      "act",
      `The law of these zero beats does not reach ${exactly(hz)}, so nothing is said about the ${name} edge.`,
      { do: `Zero beat a marker at ${exactly(hz)} or beyond, from the usual side.`, restsOn: [at] },
    );
}
function aboutBeats(g: G, put: Put): void {
  const { fit, odd } = orThrow(dialOf(g.best));
  const restsOn = ["carrierLow", "carrierHigh"] as const;
  if (fit.leans)
    put(
      "edge-few",
      "check",
      `${fit.points.length} zero beats don't tell how the dial bends, so the settings rest in part on what such dials usually do, and keep far from the edges.`,
      { do: "The sheet on the dial says which zero beats would narrow it most.", restsOn },
    );
  if (odd.length > 0)
    put(
      "edge-odd",
      "check",
      `${odd.length} zero beat${odd.length > 1 ? "s do" : " does"} not fit and ${odd.length > 1 ? "were" : "was"} left out.`,
      { do: "Look at the sheet on the dial for the likely cause, and mend it first.", restsOn },
    );
}
