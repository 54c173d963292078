import { declare, type GroundOf, type InputsOf, type NamesOf, type PutOf } from "../../ask/declare";
import { asked, stored } from "../../ask/stored";
import { list } from "../../set/addresses/declare";
import { dial } from "../../set/addresses/dial";
import { calibrator } from "../../set/addresses/markers";
import { place } from "../../set/addresses/whole";
import type { Bench } from "../../set/bench";
import { dialInputs } from "../inputs/dial";

/** The kind of line that the set is made for, by its own rating. */
function ratedLine(bench: Bench) {
  const [volts, hz] = ["line.voltage", "line.frequency"].map((p) => bench.quantity(p)?.value);
  if (volts === undefined || hz === undefined) return undefined;
  return volts >= 100 && volts <= 130 && Math.abs(hz - 60) < 5 ? "100 to 130 V, 60 Hz" : "another";
}

export const ask = declare({
  id: "band-edge",
  version: 3,
  title: "Inside the band",
  question: "Between which settings am I certain to be inside the band?",
  found: { when: ["off frequency", "proving"], words: "band edge out of band legal safe settings licence" },
  subject: "band",
  joins: false,
  works: "panel",
  draws: ["dial"],
  steps: ["26", "33g"],
  inputs: {
    points: dialInputs.points,
    licence: stored(place.licence),
    region: stored(place.region),
    mode: stored(place.mode),
    line: stored(dial.line, { over: ratedLine }),
    side: stored(dial.side),
    oscillator: dialInputs.oscillator,
    stations: asked(
      list(
        {
          reading: { dimension: "division", meaning: "scale reading of the station" },
          frequency: { dimension: "frequency", meaning: "frequency that the station should be on" },
        },
        "stations to check: are they where they should be?",
        "zero beat each from the usual side, read the scale",
      ),
    ),
    confidence: stored(dial.confidence),
    lowEdge: stored(dial.lowEdge, { optional: true }),
    highEdge: stored(dial.highEdge, { optional: true }),
    markerDoubt: stored(calibrator.markerDoubt),
    driftDoubt: stored(dial.driftDoubt),
    drift: stored(dial.drift),
    keyedWidth: stored(dial.keyedWidth),
    audioHigh: stored(dial.audioHigh),
    stationTolerance: stored(dial.stationTolerance),
    intermediate: dialInputs.intermediate,
    readingNoise: dialInputs.readingNoise,
    zeroBeat: dialInputs.zeroBeat,
    backlash: dialInputs.backlash,
    // what is not known of it is asked apart, as the markers' doubt
    markerError: stored(calibrator.crystalError, { usual: [0, 0, "a crystal that was never trimmed, common practice, no source"] }),
    scaleLow: dialInputs.scaleLow,
    scaleHigh: dialInputs.scaleHigh,
    low: dialInputs.low,
    high: dialInputs.high,
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
    lowEdgeAt: { dimension: "division", meaning: "the lower edge itself, as well as the law knows it", known: 0.05 },
    highEdgeAt: { dimension: "division", meaning: "the upper edge itself, as well as the law knows it", known: 0.05 },
  },
  key: ["carrierLow", "carrierHigh", "signalLow", "signalHigh"],
  curves: {
    bend: { x: "division", y: "frequency", meaning: "departure of the frequency from the straight line through the ends" },
    beats: { x: "division", y: "frequency", meaning: "zero beats, each off the straight line through the ends of the law" },
    low: { x: "division", y: "frequency", meaning: "departure of the frequency from the straight line, minus the uncertainty of the law" },
    high: { x: "division", y: "frequency", meaning: "departure of the frequency from the straight line, plus the uncertainty of the law" },
  },
  figures: [
    {
      id: "bend",
      title: "The dial and its uncertainty",
      xLabel: "scale reading",
      yLabel: "off the straight line",
      traces: [
        { label: "law", curve: "bend", stroke: "ink" },
        { label: "minus uncertainty", curve: "low", stroke: "faint", dash: true },
        { label: "plus uncertainty", curve: "high", stroke: "faint", dash: true },
        { label: "zero beats", curve: "beats", stroke: "ink", points: true },
      ],
      marks: [
        { at: "lowEdgeAt", label: "lower edge" },
        { at: "highEdgeAt", label: "upper edge" },
      ],
    },
  ],
});
export type Asked = InputsOf<typeof ask>;
export type Name = NamesOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
