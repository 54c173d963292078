import { chassisInput } from "../../ask/chassis";
import { declare, type GroundOf, type InputsOf, type PutOf } from "../../ask/declare";
import { stored } from "../../ask/stored";
import { markers as topic } from "../../set/addresses/markers";

export const ask = declare({
  id: "markers",
  version: 1,
  title: "Markers into the antenna terminal",
  question: "Which markers will be heard, and how much coupling suits this set?",
  found: { when: ["off frequency", "fitting"], words: "calibrator 100 kHz can't hear marker weak marker coupling harmonics" },
  subject: "fitting",
  fitting: "marker-generator",
  joins: true,
  works: "panel",
  draws: ["circuit"],
  steps: ["28"],
  inputs: {
    chassis: chassisInput,
    environment: stored(topic.environment),
    antenna: stored(topic.antenna),
    spacing: stored(topic.spacing),
    amplitude: stored(topic.amplitude),
    duty: stored(topic.duty),
    riseTime: stored(topic.riseTime),
    fallTime: stored(topic.fallTime),
    markerCoupling: stored(topic.markerCoupling),
    sourceResistance: stored(topic.sourceResistance),
    antennaResistance: stored(topic.antennaResistance),
    inputResistance: stored(topic.inputResistance),
    inputCapacitance: stored(topic.inputCapacitance),
    bandwidth: stored(topic.bandwidth),
    receiverNoiseFigure: stored(topic.receiverNoiseFigure),
    highestBand: stored(topic.highestBand),
    lowestBand: stored(topic.lowestBand),
    wantedOverNoise: stored(topic.wantedOverNoise),
    loudest: stored(topic.loudest),
    frontEndCapacitance: stored(topic.frontEndCapacitance),
  },
  first: ["markerCoupling", "riseTime", "duty", "amplitude", "spacing"],
  results: {
    levelHighest: { dimension: "voltage", meaning: "level of a usual marker on the highest band" },
    overNoiseHighest: { dimension: "decibel", meaning: "height of a usual marker above the noise on the highest band" },
    readingHighest: { dimension: "sReading", meaning: "S reading of a usual marker on the highest band, by the IARU law" },
    levelLowest: { dimension: "voltage", meaning: "level of the loudest marker on the lowest band" },
    readingLowest: { dimension: "sReading", meaning: "S reading of the loudest marker on the lowest band, by the IARU law" },
    noiseHighest: { dimension: "voltage", meaning: "noise on the highest band" },
    heardShare: { dimension: "fraction", meaning: "share of the markers, lowest band to highest, that are above the noise" },
    smallestCoupling: { dimension: "capacitance", meaning: "least coupling for the highest band" },
    largestCoupling: { dimension: "capacitance", meaning: "most coupling for the lowest band" },
    frontEndDetune: { dimension: "fraction", meaning: "what the coupling does to the antenna circuit's tuning" },
  },
  key: ["overNoiseHighest", "readingLowest", "smallestCoupling"],
  curves: {
    level: { x: "frequency", y: "decibel", holds: "power", meaning: "markers, dB over 1 µV" },
    noise: { x: "frequency", y: "decibel", holds: "power", meaning: "noise, dB over 1 µV" },
  },
  figures: [
    {
      id: "markers",
      title: "Markers and noise at the antenna terminal",
      xLabel: "frequency",
      yLabel: "dB over 1 µV",
      traces: [
        { label: "markers", curve: "level", stroke: "ink", band: true },
        { label: "noise", curve: "noise", stroke: "accent", dash: true },
      ],
      marks: [
        { at: "lowestBand", label: "lowest band" },
        { at: "highestBand", label: "highest band" },
      ],
      yFrom: -20,
    },
  ],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
