import { declare, type GroundOf, type InputsOf, inside, type PutOf } from "../../ask/declare";
import { stored } from "../../ask/stored";
import { bfo } from "../../set/addresses/stages";
import { audio } from "../../set/addresses/whole";
import { stripAsFittedInput } from "../inputs/strip-and-cable";

export const ask = declare({
  id: "bfo",
  version: 1,
  title: "BFO, pitch and sideband",
  question: "Where does the BFO go for each sideband, and is it strong enough?",
  found: { when: ["off frequency", "weak"], words: "SSB CW sideband garbled duck pitch beat oscillator weak bfo no beat note" },
  subject: "stage",
  stageKinds: ["bfo"],
  joins: false,
  works: "open-live",
  place: inside,
  draws: ["circuit"],
  steps: ["22"],
  inputs: {
    strip: stripAsFittedInput,
    oscillator: stored(bfo.oscillator),
    cwDetector: stored(bfo.cwDetector),
    avcWithBfo: stored(bfo.avcWithBfo),
    audioLow: stored(audio.low),
    cwPitch: stored(bfo.cwPitch),
    bfoRange: stored(bfo.bfoRange),
    bfoVolts: stored(bfo.bfoVolts),
    signalVolts: stored(bfo.signalVolts),
    avcFromBfo: stored(bfo.avcFromBfo),
  },
  first: ["cwPitch", "bfoRange", "bfoVolts", "signalVolts", "avcFromBfo"],
  results: {
    upperAt: { dimension: "frequency", meaning: "BFO for upper sideband" },
    lowerAt: { dimension: "frequency", meaning: "BFO for lower sideband" },
    upperOff: { dimension: "frequency", meaning: "BFO for upper sideband, from the middle of the pass band" },
    lowerOff: { dimension: "frequency", meaning: "BFO for lower sideband, from the middle of the pass band" },
    opposite: { dimension: "decibel", meaning: "other sideband at 1 kHz, down by" },
    cwOff: { dimension: "frequency", meaning: "BFO off the middle of the pass band for CW at the pitch wanted" },
    cwOpposite: { dimension: "decibel", meaning: "CW on the other side of zero beat, down by" },
    injection: { dimension: "ratio", meaning: "ratio of BFO to signal at the detector" },
    distortion: { dimension: "fraction", meaning: "second harmonic of a diode detector at this ratio of BFO to signal" },
    signalMost: { dimension: "voltage", meaning: "largest signal that the detector takes cleanly" },
    rangeSpare: { dimension: "frequency", meaning: "BFO range left beyond the farther sideband" },
  },
  key: ["upperAt", "lowerAt", "opposite", "injection"],
  curves: {
    wanted: { x: "frequency", y: "decibel", holds: "power", meaning: "audio of the wanted sideband" },
    other: { x: "frequency", y: "decibel", holds: "power", meaning: "audio of the unwanted sideband" },
  },
  figures: [
    {
      id: "sidebands",
      title: "Audio of both sidebands, BFO set for the upper one",
      xLabel: "audio",
      yLabel: "relative to the strip's peak",
      traces: [
        { label: "wanted sideband", curve: "wanted", stroke: "accent", band: true },
        { label: "other sideband", curve: "other", stroke: "ink", band: true },
      ],
      marks: [{ at: "cwPitch", label: "CW pitch" }],
      yFrom: -70,
    },
  ],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
