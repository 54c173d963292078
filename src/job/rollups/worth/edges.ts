import { resolveInputs, unreadOf } from "../../../ask/resolve";
import { type DialFit, dialSlope, hzAt, reach, readingFor } from "../../../infer/dial/fitted";
import { shareRemoved } from "../../../infer/worth/doubt";
import { zeroBeatShrinking } from "../../../infer/worth/zero-beat";
import type { Asked } from "../../../sheets/band-edge/ask";
import { bandFor } from "../../../sheets/band-edge/band";
import { bandEdge } from "../../../sheets/band-edge/sheet";
import { edges } from "../../../sheets/band-edge/solve";
import { dialOf } from "../../../sheets/inputs/dial-law";
import { printValue } from "../../../units/print";
import { benchOf, type JobView, setPointsOf, subjectLabel } from "../../view";
import type { Choice } from "./choice";
import { takesFor } from "./costs";

/** A beat that is expected to remove less than this of an edge's variance is not told. House rule. */
const leastShare = 0.03;
/** Markers farther from an edge than so many of their spacings are not looked at. House rule. */
const aboutAnEdge = 4;
/** No more than so many markers are weighed. */
const mostMarkers = 24;

interface Edge {
  readonly which: "lower" | "upper";
  readonly hz: number;
  readonly guardHz: number | undefined;
  /** variance of a setting there besides the law's own, Hz^2 */
  readonly besides: number;
}
function edgesOf(fit: DialFit, x: Asked, lowHz: number, highHz: number): readonly Edge[] {
  const e = edges(fit, lowHz, highHz, x);
  const edge = (which: Edge["which"], hz: number, guard: unknown): Edge[] => {
    const at = readingFor(fit, hz);
    if (at === undefined) return [];
    const besides = (dialSlope(fit, at) * fit.readingNoise) ** 2 + (hz * x.markerDoubt) ** 2 + x.driftDoubt ** 2;
    return [{ which, hz, besides, guardHz: typeof guard === "number" ? guard : undefined }];
  };
  return [...edge("lower", lowHz, e.guardLow), ...edge("upper", highHz, e.guardHigh)];
}
/** Spacing of the markers that were beaten, Hz. */
function spacingOf(x: Asked): number {
  const sorted = [...new Set(x.points.map((p) => p.frequency))].sort((a, b) => a - b);
  const steps = sorted.slice(1).map((f, i) => f - sorted[i]);
  return Math.min(100e3, ...steps.filter((s) => s >= 1000));
}
/** Markers about the edges that the fit speaks of, Hz. */
function markersAbout(fit: DialFit, x: Asked, at: readonly Edge[]): readonly number[] {
  const spacing = spacingOf(x);
  const [from, to] = reach(fit)
    .map((r) => hzAt(fit, r))
    .sort((a, b) => a - b);
  const out = new Set<number>();
  for (const { hz } of at)
    for (let k = -aboutAnEdge; k <= aboutAnEdge; k++) {
      const marker = (Math.round(hz / spacing) + k) * spacing;
      if (marker >= from && marker <= to) out.add(marker);
    }
  return [...out].slice(0, mostMarkers);
}
interface Weighed {
  readonly markerHz: number;
  readonly edges: readonly { readonly edge: Edge; readonly share: number; readonly guardAfterHz: number | undefined }[];
  readonly sum: number;
}
/** The marker whose beat is expected to tell most of both edges. */
function bestBeat(fit: DialFit, x: Asked, at: readonly Edge[]): Weighed | undefined {
  let best: Weighed | undefined;
  for (const markerHz of markersAbout(fit, x, at)) {
    const left = zeroBeatShrinking(
      fit,
      at.map((e) => e.hz),
      markerHz,
      x.zeroBeat,
    );
    if (!left) continue;
    const weighed = at.map((edge, i) => {
      const whole = { before: left[i].before + edge.besides, after: left[i].after + edge.besides };
      const guardAfterHz = edge.guardHz === undefined ? undefined : edge.guardHz * Math.sqrt(whole.after / whole.before);
      return { edge, share: shareRemoved(whole), guardAfterHz };
    });
    const sum = weighed.reduce((s, w) => s + w.share, 0);
    if (!best || sum > best.sum) best = { markerHz, edges: weighed, sum };
  }
  return best && best.sum >= leastShare ? best : undefined;
}

const hz = (v: number): string => printValue(Number(v.toPrecision(2)), "frequency");
function beatChoice(view: JobView, at: string, { markerHz, edges: told }: Weighed): Choice {
  const label = subjectLabel(view.set, at);
  const [most] = [...told].sort((a, b) => b.share - a.share);
  const { edge, guardAfterHz } = most;
  return {
    id: `beat:${at}:${markerHz}`,
    kind: "beat",
    does: `zero beat the marker at ${printValue(markerHz, "frequency")} and read the dial`,
    place: label,
    why:
      edge.guardHz === undefined || guardAfterHz === undefined
        ? `no setting is certain at the ${edge.which} edge yet: one more beat helps most there`
        : `settings must keep ${hz(edge.guardHz)} from the ${edge.which} edge now, about ${hz(guardAfterHz)} after it`,
    how: "set warm, marker on, zero beat it from the usual side, read the scale",
    removes: told.map((t) => ({ of: `${t.edge.which} edge of ${label}`, share: t.share })),
    wants: "panel",
    warm: true,
    hazards: ["none"],
    takes: takesFor(view, "reading", "panel"),
    about: "33g",
    with: `zero-beat JOB READING "${markerHz / 1e6} MHz" --band ${at.replace(/^bands\.|:.*$/g, "")}`,
  };
}
const regionChoice = (view: JobView, labels: readonly string[]): Choice => ({
  id: "state:place.region",
  kind: "state",
  does: "state the ITU Region that the set is used in, or the licence",
  place: "",
  why: `no edge of ${labels.join(", ")} is known until it is stated`,
  removes: labels.map((l) => ({ of: `edges of ${l}`, share: 1 })),
  wants: "desk",
  warm: false,
  hazards: ["none"],
  takes: takesFor(view, "reading", "desk"),
  about: "33g",
  with: 'set JOB "place.region=ITU Region 1"',
});

/**
 * For each band with zero beats the marker whose beat is expected to tell most of its edges.
 *
 * @param view the job
 * @returns choices
 * @source infer/worth; guards by sheets/band-edge
 */
export function edgeChoices(view: JobView): readonly Choice[] {
  const unstated: string[] = [];
  const beats = view.set.bands.flatMap((b): Choice[] => {
    const [point] = setPointsOf(view, b.id);
    if (point === undefined) return [];
    const at = point === "" ? `bands.${b.id}` : `bands.${b.id}:${point}`;
    const inputs = resolveInputs(bandEdge, benchOf(view, at));
    if (!inputs.ok || inputs.value.missing.length > 0 || unreadOf(bandEdge, inputs.value).length > 0) return [];
    const x = inputs.value.plain as Asked;
    const law = dialOf(x);
    const band = law.ok ? bandFor(x) : undefined;
    if (band === "unstated") unstated.push(b.label);
    if (!law.ok || !band || band === "unstated" || !(band.highHz > band.lowHz)) return [];
    const best = bestBeat(law.value.fit, x, edgesOf(law.value.fit, x, band.lowHz, band.highHz));
    return best ? [beatChoice(view, at, best)] : [];
  });
  return [...(unstated.length > 0 ? [regionChoice(view, unstated)] : []), ...beats];
}
