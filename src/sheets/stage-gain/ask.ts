import { declare, type GroundOf, type InputsOf, inside, type PutOf } from "../../ask/declare";
import { stored } from "../../ask/stored";
import { gain } from "../../set/addresses/gain";
import { supplies } from "../../set/addresses/power";
import type { Row } from "../../set/columns";
import { recordedIf } from "../inputs/dial";

const example: Row[] = [
  { point: 3, chart: 0.06, measured: 0.065 },
  { point: 4, chart: 0.85e-3, measured: 1e-3 },
  { point: 5, chart: 25e-6, measured: 110e-6 },
  { point: 8, chart: 3e-6, measured: 14e-6 },
];

export const ask = declare({
  id: "stage-gain",
  version: 1,
  title: "Gain of each stage",
  question: "Which stage is the first that gives less than the chart says?",
  found: { when: ["weak", "dead"], words: "weak no signal inject generator signal tracing dead stage insensitive which stage" },
  subject: "set",
  joins: false,
  works: "open-live",
  place: inside,
  draws: ["circuit"],
  steps: ["12", "13", "14"],
  inputs: {
    injected: stored(gain.injected, { example }),
    gridCurrents: stored(gain.gridCurrents),
    avcState: stored(gain.avcState),
    intermediate: stored(supplies.intermediate, { over: recordedIf(supplies.intermediate) }),
    generatorUnknown: stored(gain.generatorUnknown),
    readingUnknown: stored(gain.readingUnknown),
    stageLimit: stored(gain.stageLimit),
    seriesCapacitance: stored(gain.seriesCapacitance),
    loadResistance: stored(gain.loadResistance),
    gridLeak: stored(gain.gridLeak),
  },
  observed: ["injected"],
  readAt: inside,
  first: ["generatorUnknown", "readingUnknown", "stageLimit", "seriesCapacitance", "gridLeak"],
  results: {
    whole: { dimension: "decibel", meaning: "gain from the last point to the first" },
    lastLevel: { dimension: "voltage", meaning: "level at the last point, by this generator" },
    worst: { dimension: "decibel", meaning: "most that one stage is short of the chart" },
    badPoint: { dimension: "ratio", meaning: "row of the first stage short of the chart by more than the limit", known: 5 },
    lostInSeries: { dimension: "decibel", meaning: "level lost in the generator's series capacitor" },
    gridLow: { dimension: "current", meaning: "smallest grid current of the oscillator" },
    gridHigh: { dimension: "current", meaning: "greatest grid current of the oscillator" },
  },
  key: ["worst", "whole", "badPoint"],
  curves: {
    chart: { x: "ratio", y: "decibel", meaning: "level by the chart at each point, over 1 µV" },
    measured: { x: "ratio", y: "decibel", meaning: "level as measured" },
  },
  figures: [
    {
      id: "levels",
      title: "Level that each point needs (1 is nearest the output)",
      xLabel: "row",
      yLabel: "over 1 µV",
      traces: [
        { label: "measured", curve: "measured", stroke: "accent", band: true },
        { label: "chart", curve: "chart", stroke: "faint", dash: true },
      ],
    },
  ],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
