import { sheet } from "../../ask/contract";
import { noneOf } from "../../ask/declare";
import type { Table } from "../../ask/drawings";
import type { NoValue } from "../../ask/results";
import { dialAt, readingFor } from "../../infer/dial/fitted";
import { licences, regions, regionsSaid } from "../../standards/bands";
import { exact } from "../../units/quantity";
import {
  backlashInput,
  bandInputs,
  dialOf,
  intermediateInput,
  markerErrorInput,
  oscillatorInput,
  pointsInput,
  readingNoiseInput,
  scaleInputs,
  zeroBeatInput,
} from "../inputs/dial";
import { doubtHz, readingsAlong, straightLine } from "../inputs/dial-figures";
import { bandFor, type EdgeAsked, edgeFindings, edgeHeadline, lines } from "./findings";
import { beyondBeats, checkStations, type EdgeInputs, edges, modes, unstatedEdges } from "./solve";
import theory from "./theory.md";

const edgeResults = [
  "carrierLow",
  "carrierHigh",
  "signalLow",
  "signalHigh",
  "guardLow",
  "guardHigh",
  "lowEdgeHz",
  "highEdgeHz",
  "lowEdgeAt",
  "highEdgeAt",
] as const;

export const bandEdge = sheet({
  id: "band-edge",
  version: 3,
  title: "Inside the band",
  question: "Between which settings am I surely inside the band?",
  subject: "band",
  joins: false,
  works: "panel",
  steps: ["26", "33g"],
  inputs: {
    points: pointsInput,
    licence: {
      kind: "choice",
      options: ["by Region", ...licences, "own"],
      meaning: "whose edges count: the Region's, a licence's, or the owner's own as stated below",
      howMeasured: "the owner's licence; national rules prevail",
      from: (bench) => bench.choice("place.licence"),
      keptAt: "place.licence",
      assumed: "by Region",
    },
    region: {
      kind: "choice",
      options: ["unstated", ...regions],
      meaning: "ITU Region that the set is used in",
      howMeasured: `where the set stands: ${regionsSaid}`,
      from: (bench) => bench.choice("place.region"),
      keptAt: "place.region",
      assumed: "unstated",
    },
    mode: {
      kind: "choice",
      options: modes,
      meaning: "what the transmitter will send: a carrier that is inside is not a signal that is inside",
      howMeasured: "chosen",
      from: (bench) => bench.choice("place.mode"),
      keptAt: "place.mode",
      assumed: "CW",
    },
    line: {
      kind: "choice",
      options: lines,
      meaning: "line that the set is made for; it only suggests where the set may be",
      howMeasured: "rating plate",
      from: (bench) => {
        const [volts, hz] = ["line.voltage", "line.frequency"].map((p) => bench.quantity(p)?.value);
        if (volts === undefined || hz === undefined) return undefined;
        return volts >= 100 && volts <= 130 && Math.abs(hz - 60) < 5 ? lines[1] : lines[2];
      },
      assumed: "unstated",
    },
    side: {
      kind: "choice",
      options: ["same", "either"],
      meaning: "whether settings are made from the side that the zero beats were taken from, or from either",
      howMeasured: "chosen",
      assumed: "same",
    },
    oscillator: oscillatorInput,
    stations: {
      kind: "table",
      columns: {
        reading: { dimension: "division", meaning: "scale reading of the station" },
        frequency: { dimension: "frequency", meaning: "frequency that the station should be on" },
      },
      meaning: "stations to check: are they where they should be?",
      howMeasured: "zero beat each from the usual side, read the scale",
      from: () => undefined,
      assumed: { rows: [], source: "none asked about" },
      mostRows: 200,
    },
    confidence: {
      kind: "quantity",
      dimension: "fraction",
      positive: true,
      min: 0.5,
      max: 0.9999,
      meaning: "confidence of being inside, at each edge",
      howMeasured: "chosen",
      assumed: { value: 0.99, spread: exact, source: "chosen" },
    },
    lowEdge: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      meaning: "lower edge, where the licence is own",
      howMeasured: "the owner's licence",
      assumed: { value: 3.5e6, spread: exact, source: "to be stated" },
    },
    highEdge: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      meaning: "upper edge, where the licence is own",
      howMeasured: "the owner's licence",
      assumed: { value: 3.5e6, spread: exact, source: "to be stated: equal edges are refused" },
    },
    markerDoubt: {
      kind: "quantity",
      dimension: "ppm",
      positive: true,
      max: 1e-3,
      meaning: "standard uncertainty of the markers",
      howMeasured: "the sheet on trimming the marker crystal",
      keptAt: "fittings.markers.markerDoubt",
      from: (bench) => bench.quantity("fittings.markers.markerDoubt"),
      assumed: { value: 1e-5, spread: exact, source: "a crystal that was never trimmed, common practice, no source" },
    },
    driftDoubt: {
      kind: "quantity",
      dimension: "frequency",
      min: 0,
      max: 50e3,
      meaning: "standard uncertainty of the drift since the zero beats",
      howMeasured: "follow one marker over the time that a session lasts, the set warm",
      assumed: { value: 200, spread: exact, source: "a set that has been on for an hour, common practice, no source" },
    },
    drift: {
      kind: "quantity",
      dimension: "frequency",
      min: -100e3,
      max: 100e3,
      meaning: "drift since the zero beats that is known (the set is high: positive)",
      howMeasured: "zero beat one marker again",
      assumed: { value: 0, spread: exact, source: "none known" },
    },
    keyedWidth: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      max: 5000,
      meaning: "width of a keyed carrier",
      howMeasured: "keying speed and shape",
      assumed: {
        value: 150,
        spread: exact,
        source: "ITU-R SM.1138: 100HA1A at 25 words a minute, from memory; half as much again for hard keying",
      },
    },
    audioHigh: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      max: 20e3,
      meaning: "highest audio frequency of the transmitter",
      howMeasured: "audio sweep of the transmitter",
      assumed: { value: 3000, spread: exact, source: "ITU-R SM.1138: 6K00A3E and 2K70J3E, from memory" },
    },
    stationTolerance: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      meaning: "how far off a station may be and still count as where it should be",
      howMeasured: "chosen",
      assumed: { value: 1000, spread: exact, source: "chosen" },
    },
    intermediate: intermediateInput,
    readingNoise: readingNoiseInput,
    zeroBeat: zeroBeatInput,
    backlash: backlashInput,
    markerError: { ...markerErrorInput, assumed: { ...markerErrorInput.assumed, spread: exact } },
    ...scaleInputs,
    ...bandInputs,
  },
  observed: ["points"],
  first: ["confidence", "markerDoubt", "driftDoubt", "lowEdge", "highEdge"],
  results: {
    carrierLow: { dimension: "division", meaning: "carrier inside from here, at the lower edge", known: 0.05 },
    carrierHigh: { dimension: "division", meaning: "carrier inside up to here, at the upper edge", known: 0.05 },
    signalLow: { dimension: "division", meaning: "whole signal inside from here", known: 0.05 },
    signalHigh: { dimension: "division", meaning: "whole signal inside up to here", known: 0.05 },
    guardLow: { dimension: "frequency", meaning: "how far the settings keep from the lower edge", known: 100 },
    guardHigh: { dimension: "frequency", meaning: "how far the settings keep from the upper edge", known: 100 },
    lowEdgeHz: { dimension: "frequency", meaning: "lower edge", exact: true },
    highEdgeHz: { dimension: "frequency", meaning: "upper edge", exact: true },
    lowEdgeAt: { dimension: "division", meaning: "the lower edge itself, as well as the law knows", known: 0.05 },
    highEdgeAt: { dimension: "division", meaning: "the upper edge itself, as well as the law knows", known: 0.05 },
  },
  key: ["carrierLow", "carrierHigh", "signalLow", "signalHigh"],
  curves: {
    bend: { x: "division", y: "frequency", meaning: "frequency less the straight line through the ends" },
    low: { x: "division", y: "frequency", meaning: "frequency less the straight line, less the uncertainty of the law" },
    high: { x: "division", y: "frequency", meaning: "frequency less the straight line, plus the uncertainty of the law" },
  },
  prepare: (best, points) => {
    const x = best as unknown as EdgeAsked;
    const read = dialOf(x);
    const blank = { axes: { bend: new Float64Array(1), low: new Float64Array(1), high: new Float64Array(1) }, solve: () => ({}) as never };
    if (!read.ok) return { ...blank, issues: read.issues };
    const band = bandFor(x);
    if (!band)
      return {
        ...blank,
        issues: [
          { path: "licence", code: "no-band", read: x.licence, expected: "a licence with a band where these zero beats lie, or own edges" },
        ],
      };
    if (band !== "unstated" && !(band.highHz > band.lowHz))
      return {
        ...blank,
        issues: [
          { path: "highEdge", code: "not-above", read: String(band.highHz), expected: "both edges stated, the upper above the lower" },
        ],
      };
    const { fit } = read.value;
    const axis = readingsAlong(fit, points);
    const straight = straightLine(fit);
    const bend = axis.map((r) => dialAt(fit, r).hz - straight(r));
    const less = bend.map((off, i) => off - doubtHz(fit, axis[i]));
    const more = bend.map((off, i) => off + doubtHz(fit, axis[i]));
    const edgeAt = (hz: number): number | NoValue => readingFor(fit, hz) ?? beyondBeats;
    const places = band === "unstated" ? undefined : { hz: [band.lowHz, band.highHz], at: [edgeAt(band.lowHz), edgeAt(band.highHz)] };
    return {
      axes: { bend: axis, low: axis, high: axis },
      solve: (now, into) => {
        into.bend.set(bend);
        into.low.set(less);
        into.high.set(more);
        const here = bandFor(now as unknown as EdgeAsked) ?? band;
        if (here === "unstated" || places === undefined) return noneOf(edgeResults, unstatedEdges.none);
        return {
          ...edges(fit, here.lowHz, here.highHz, now as unknown as EdgeInputs),
          lowEdgeHz: here.lowHz,
          highEdgeHz: here.highHz,
          lowEdgeAt: here.lowHz === places.hz[0] ? places.at[0] : edgeAt(here.lowHz),
          highEdgeAt: here.highHz === places.hz[1] ? places.at[1] : edgeAt(here.highHz),
        };
      },
    };
  },
  headline: (g) => edgeHeadline(g as never),
  findings: (g) => edgeFindings(g as never) as never,
  tables: (best) => {
    const x = best as unknown as EdgeAsked;
    const read = dialOf(x);
    if (!read.ok || x.stations.length === 0) return [];
    const at = (name: string, u: number) => ({ name, dimension: "frequency" as const, u });
    return [
      {
        id: "stations",
        title: "Stations: where they should be, and where the dial says they are",
        columns: [
          { name: "scale", dimension: "division", u: 0.05 },
          { name: "should be", dimension: "frequency", exact: true },
          at("is", 100),
          at("± 95 %", 30),
          { name: "verdict", dimension: "ratio" },
        ],
        rows: checkStations(read.value.fit, x.stations, x, x.stationTolerance).map((s) => [
          s.reading,
          s.shouldHz,
          s.isHz,
          s.doubtHz,
          s.verdict,
        ]),
      } satisfies Table,
    ];
  },
  figures: [
    {
      id: "bend",
      title: "The dial and its uncertainty",
      xLabel: "scale reading",
      yLabel: "off the straight line",
      traces: [
        { label: "law", curve: "bend", stroke: "ink" },
        { label: "less uncertainty", curve: "low", stroke: "faint", dash: true },
        { label: "and uncertainty", curve: "high", stroke: "faint", dash: true },
      ],
    },
  ],
  theory,
});
