import { chassisInput } from "../../ask/chassis";
import { declare, type GroundOf, type InputsOf, inside, type PutOf } from "../../ask/declare";
import { stored } from "../../ask/stored";
import { converter as topic } from "../../set/addresses/converter";
import { calibrator } from "../../set/addresses/markers";
import { recordedIf } from "../inputs/dial";

const general = [
  [0.55e6, 1.6e6],
  [1.6e6, 4.8e6],
  [4.8e6, 14.5e6],
  [3.5e6, 4e6],
  [7e6, 7.3e6],
].map(([low, high]) => ({ low, high }));

export const ask = declare({
  id: "converter",
  version: 2,
  title: "A crystal converter for a high band",
  question: "Which crystal puts a high band on this receiver, and what else comes through?",
  found: { when: ["fitting"], words: "10 m 6 m crystal converter high band birdies tunable IF" },
  subject: "fitting",
  fitting: "converter",
  joins: true,
  works: "panel",
  place: inside,
  draws: ["circuit", "dial"],
  steps: ["32"],
  inputs: {
    chassis: chassisInput,
    oscillator: stored(topic.oscillator),
    ranges: stored(topic.converterRanges, {
      from: (b) => {
        const all = b.bands();
        return all.length > 0 ? all.map(({ low, high }) => ({ low, high })) : undefined;
      },
      example: general,
    }),
    crystals: stored(topic.converterCrystals),
    twoPath: stored(topic.converterTwoPath),
    wantedLow: stored(topic.wantedLow),
    wantedHigh: stored(topic.wantedHigh),
    crystal: stored(topic.crystal),
    crystalStep: stored(topic.crystalStep),
    order: stored(topic.order),
    inputCircuits: stored(topic.inputCircuits),
    inputQ: stored(topic.inputQ),
    intermediate: stored(topic.intermediate, { over: recordedIf(topic.intermediate) }),
    markerSpacing: stored(calibrator.spacing),
    markerError: stored(calibrator.crystalError),
    crystalError: stored(topic.crystalError),
    dialError: stored(topic.readsLow),
    drift: stored(topic.drift),
  },
  first: ["wantedLow", "wantedHigh", "crystal", "dialError", "crystalError"],
  results: {
    crystal: { dimension: "frequency", meaning: "crystal", exact: true },
    dialAtLow: { dimension: "frequency", meaning: "where the lower end of the band is on the receiver's dial", known: 500 },
    dialAtHigh: { dimension: "frequency", meaning: "where the upper end of the band is on the receiver's dial", known: 500 },
    imageLow: { dimension: "frequency", meaning: "image frequency of the lower end of the band", known: 500 },
    imageHigh: { dimension: "frequency", meaning: "image frequency of the upper end of the band", known: 500 },
    imageRejection: { dimension: "decibel", meaning: "worst image rejection by the converter's input", known: 0.5 },
    feedThroughRejection: { dimension: "decibel", meaning: "what the input leaves of signals on the receiver's own dial", known: 0.5 },
    ownImage: { dimension: "frequency", meaning: "signal that the receiver's own image brings in at the lower end", known: 500 },
    ownImageRejection: {
      dimension: "decibel",
      meaning: "how far the converter's input alone cuts what the receiver's own image brings in",
      known: 0.5,
    },
    readout: { dimension: "frequency", meaning: "error of the card: true frequency minus what the card says" },
    byCrystal: { dimension: "frequency", meaning: "the crystal's share of the card's error" },
    crystalFound: { dimension: "ppm", meaning: "error of the crystal by the two-path beat" },
    whistles: { dimension: "ratio", meaning: "places where a signal whistles with itself", known: 5 },
    notes: { dimension: "ratio", meaning: "steady notes that are no signals", known: 5 },
  },
  key: ["crystal", "dialAtLow", "dialAtHigh", "imageRejection", "readout"],
  curves: {
    image: { x: "frequency", y: "decibel", meaning: "image rejection by the converter's input" },
    past: { x: "frequency", y: "decibel", meaning: "what the input leaves of the receiver's own range" },
    ownImage: { x: "frequency", y: "decibel", meaning: "what the input leaves of what the receiver's own image brings in" },
  },
  figures: [
    {
      id: "leaves",
      title: "What the converter's input leaves of other ways in, over the band",
      xLabel: "wanted",
      yLabel: "down by",
      traces: [
        { label: "image", curve: "image", stroke: "accent", band: true },
        { label: "past the converter", curve: "past", stroke: "ink" },
        { label: "the receiver's own image", curve: "ownImage", stroke: "faint" },
      ],
      yFrom: 0,
    },
  ],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
