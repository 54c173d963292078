import { answers, noneOf } from "../../ask/declare";
import type { NoValue } from "../../ask/results";
import { hzAt, readingFor } from "../../infer/dial/fitted";
import { orThrow } from "../../units/issue";
import { beatsOff, doubtHz, readingsAlong, straightLine } from "../inputs/dial-figures";
import { dialOf } from "../inputs/dial-law";
import { ask, type Name } from "./ask";
import { bandFor } from "./band";
import { drawingOf } from "./drawing";
import { findingsOf, headlineOf } from "./findings";
import { beyondBeats, checkStations, edges, unstatedEdges } from "./solve";
import theory from "./theory.md";

export const bandEdge = answers(ask, {
  theory,
  refuse: (x, bad) => {
    const read = dialOf(x);
    if (!read.ok) return read.issues;
    const band = bandFor(x);
    if (!band) return bad("licence", "no-band", x.licence, "a licence with a band where these zero beats lie, or own edges");
    const unsaid = x.licence === "own" && (["lowEdge", "highEdge"] as const).find((edge) => x[edge] === undefined);
    if (unsaid) return bad(unsaid, "not-said", "", "both of the owner's edges, such as 3.55 MHz");
    return band === "unstated" || band.highHz > band.lowHz
      ? undefined
      : bad("highEdge", "not-above", String(band.highHz), "both edges stated, the upper above the lower");
  },
  prepare: (best, points) => {
    const { fit } = orThrow(dialOf(best));
    const axis = readingsAlong(fit, points);
    const straight = straightLine(fit);
    const beats = beatsOff(fit);
    const bend = axis.map((r) => hzAt(fit, r) - straight(r));
    const doubt = axis.map((r) => doubtHz(fit, r));
    const less = bend.map((off, i) => off - doubt[i]);
    const more = bend.map((off, i) => off + doubt[i]);
    const names = Object.keys(ask.results) as Name[];
    const edgeAt = (hz: number): number | NoValue => readingFor(fit, hz) ?? beyondBeats;
    const known = bandFor(best);
    const places = known && known !== "unstated" ? { ...known, low: edgeAt(known.lowHz), high: edgeAt(known.highHz) } : undefined;
    return {
      axes: { bend: axis, low: axis, high: axis, beats: beats.reading },
      solve: (x, into) => {
        into.bend.set(bend);
        into.low.set(less);
        into.high.set(more);
        into.beats.set(beats.offHz);
        const band = bandFor(x);
        if (!places || !band || band === "unstated") return noneOf(names, unstatedEdges.none);
        return {
          ...edges(fit, band.lowHz, band.highHz, x),
          lowEdgeHz: band.lowHz,
          highEdgeHz: band.highHz,
          lowEdgeAt: band.lowHz === places.lowHz ? places.low : edgeAt(band.lowHz),
          highEdgeAt: band.highHz === places.highHz ? places.high : edgeAt(band.highHz),
        };
      },
    };
  },
  drawing: drawingOf,
  headline: headlineOf,
  findings: findingsOf,
  tables: (x) => {
    const read = dialOf(x);
    if (!read.ok || x.stations.length === 0) return [];
    return [
      {
        id: "stations",
        title: "Stations: where they should be, and where the dial says they are",
        columns: [
          { name: "scale", dimension: "division", u: 0.05 },
          { name: "should be", dimension: "frequency", exact: true },
          { name: "is", dimension: "frequency", u: 100 },
          { name: "± 95 %", dimension: "frequency", u: 30 },
          { name: "verdict", dimension: "ratio" },
        ],
        rows: checkStations(read.value.fit, x).map((s) => [s.reading, s.shouldHz, s.isHz, s.doubtHz, s.verdict]),
      },
    ];
  },
});
