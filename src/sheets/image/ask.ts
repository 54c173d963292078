import { declare, type GroundOf, type InputsOf, inside, type PutOf, practice } from "../../ask/declare";
import { stored } from "../../ask/stored";
import { bands } from "../../set/addresses/bands";
import type { Bench } from "../../set/bench";
import { exact, type Quantity } from "../../units/quantity";
import { dialInputs } from "../inputs/dial";

/** One circuit at the antenna and one behind each RF stage, by the stages that the set is described with. */
function describedCircuits(bench: Bench): Quantity | undefined {
  const kinds = bench.stageKinds();
  if (!kinds.includes("mixer")) return undefined;
  const stages = kinds.slice(0, kinds.indexOf("mixer")).filter((k) => k === "rf").length;
  return {
    value: stages + 1,
    spread: exact,
    origin: "assumed",
    source: `${stages === 0 ? "no RF stage" : stages === 1 ? "one RF stage" : `${stages} RF stages`} before the mixer: a circuit at the antenna${stages > 0 ? " and one behind each" : ""}, ${practice}`,
  };
}
/** The top of the band, where images are worst. */
function topOfBand(bench: Bench): Quantity | undefined {
  const high = bench.quantity(`${bench.at}.high`);
  return high && { ...high, source: "top of the band, where it is worst" };
}

export const ask = declare({
  id: "image",
  version: 2,
  title: "Images",
  question: "Where else is a signal heard, how far down, and is the oscillator on the right side?",
  found: { when: ["off frequency", "noisy"], words: "image same station twice repeat spot spurious other side two times IF" },
  subject: "band",
  joins: false,
  works: "panel",
  place: inside,
  draws: ["circuit"],
  steps: ["25", "33c"],
  inputs: {
    oscillator: stored(bands.oscillator),
    secondPlace: stored(bands.secondPlace),
    readings: stored(bands.imageReadings),
    signal: stored(bands.signal, { from: topOfBand }),
    low: stored(bands.low, { usual: [1.6e6, 0, "an example"] }),
    high: stored(bands.high, { usual: [4.8e6, 0, "an example"] }),
    intermediate: dialInputs.intermediate,
    circuits: stored(bands.circuits, { from: describedCircuits }),
    signalQ: stored(bands.signalQ),
    strays: stored(bands.strays),
  },
  first: ["signal", "circuits", "signalQ"],
  results: {
    imageAt: { dimension: "frequency", meaning: "image frequency of the signal asked about", known: 500 },
    imageRejection: { dimension: "decibel", meaning: "image rejection", known: 0.5 },
    imageAtLow: { dimension: "decibel", meaning: "image rejection at the low end of the band", known: 0.5 },
    imageAtHigh: { dimension: "decibel", meaning: "image rejection at the high end of the band", known: 0.5 },
    ifRejection: {
      dimension: "decibel",
      meaning: "rejection of a signal on the IF itself, mostly what leaks round the circuits",
      known: 0.5,
    },
    halfIfAt: { dimension: "frequency", meaning: "frequency heard through its second harmonic (half IF)", known: 500 },
    halfIfRejection: { dimension: "decibel", meaning: "rejection of half IF by the circuits alone", known: 0.5 },
    heardAt: {
      dimension: "frequency",
      meaning: "second place on the dial where a strong signal on the frequency asked about is heard",
      known: 500,
    },
  },
  key: ["imageRejection", "imageAt", "ifRejection"],
  curves: {
    image: { x: "frequency", y: "decibel", meaning: "image rejection over the band" },
    ownIf: { x: "frequency", y: "decibel", meaning: "IF rejection over the band" },
  },
  figures: [
    {
      id: "rejection",
      title: "What the signal circuits reject, over the band",
      xLabel: "tuned to",
      yLabel: "rejection",
      traces: [
        { label: "image", curve: "image", stroke: "accent", band: true },
        { label: "IF", curve: "ownIf", stroke: "ink", band: true },
      ],
      marks: [{ at: "signal", label: "asked about" }],
      yFrom: 0,
    },
  ],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
