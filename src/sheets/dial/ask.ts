import { declare, type GroundOf, type InputsOf, type PutOf } from "../../ask/declare";
import { stored } from "../../ask/stored";
import { dial as dials } from "../../set/addresses/dial";
import { calibrator } from "../../set/addresses/markers";
import type { Bench } from "../../set/bench";
import { exact, type Quantity } from "../../units/quantity";
import { dialInputs } from "../inputs/dial";

function middleOfBeats(bench: Bench): Quantity | undefined {
  const f = bench.points(bench.at).map((p) => p.frequencyHz);
  if (f.length === 0) return undefined;
  return { value: (Math.min(...f) + Math.max(...f)) / 2, spread: exact, origin: "computed", source: "middle of the zero beats" };
}

export const ask = declare({
  id: "dial",
  version: 3,
  title: "The dial",
  question: "Where is this dial, and how far can it be trusted?",
  found: { when: ["off frequency", "proving"], words: "dial calibration reads wrong off scale bandspread zero beat backlash pointer" },
  subject: "band",
  joins: false,
  works: "panel",
  draws: ["dial"],
  steps: ["26", "23", "33g"],
  inputs: {
    points: dialInputs.points,
    oscillator: dialInputs.oscillator,
    tableStep: stored(dials.tableStep),
    where: stored(dials.where, { from: middleOfBeats }),
    intermediate: dialInputs.intermediate,
    readingNoise: dialInputs.readingNoise,
    zeroBeat: dialInputs.zeroBeat,
    backlash: dialInputs.backlash,
    markerError: dialInputs.markerError,
    spacing: stored(calibrator.spacing),
    setPointOff: stored(dials.setPointOff),
    scaleLow: dialInputs.scaleLow,
    scaleHigh: dialInputs.scaleHigh,
    low: dialInputs.low,
    high: dialInputs.high,
  },
  observed: ["points"],
  first: ["where", "markerError", "readingNoise", "backlash", "setPointOff"],
  results: {
    worstDoubt: { dimension: "frequency", meaning: "95 % half-width of the law at its widest", known: 300 },
    typicalDoubt: { dimension: "frequency", meaning: "95 % half-width of the law, median along the scale", known: 300 },
    reading: { dimension: "division", meaning: "scale reading at the frequency asked about" },
    atReading: { dimension: "frequency", meaning: "frequency of the set at the frequency asked about, markers' error included" },
    slope: { dimension: "frequency", meaning: "width of one division at the frequency asked about" },
    backlash: { dimension: "division", meaning: "backlash" },
    backlashHz: { dimension: "frequency", meaning: "backlash at the frequency asked about" },
    readingNoise: { dimension: "division", meaning: "reading noise that the points show" },
    largestBend: { dimension: "frequency", meaning: "largest departure from a straight line through the ends", known: 300 },
    setPointShiftHigh: { dimension: "frequency", meaning: "what an error of the set-point does at the high end" },
    nextMarker: { dimension: "frequency", meaning: "marker that would tell you most", exact: true },
    oddCount: { dimension: "ratio", meaning: "number of zero beats that do not fit and were left out", exact: true },
  },
  key: ["worstDoubt", "typicalDoubt", "atReading", "slope", "backlash"],
  curves: {
    bend: { x: "division", y: "frequency", meaning: "departure of the frequency from the straight line through the ends" },
    beats: { x: "division", y: "frequency", meaning: "zero beats, each off the straight line through the ends of the law" },
    doubt: { x: "division", y: "frequency", meaning: "95 % half-width of the law" },
  },
  figures: [
    {
      id: "bend",
      title: "How the dial bends",
      xLabel: "scale reading",
      yLabel: "off the straight line",
      traces: [
        { label: "this dial", curve: "bend", stroke: "ink", band: true },
        { label: "zero beats", curve: "beats", stroke: "ink", points: true },
      ],
      marks: [{ at: "reading", label: "asked about" }],
    },
    {
      id: "doubt",
      title: "How far it can be trusted",
      xLabel: "scale reading",
      yLabel: "±, 95 %",
      traces: [{ label: "± of the law", curve: "doubt", stroke: "accent" }],
      yFrom: 0,
    },
  ],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
