import { sheet } from "../../ask/contract";
import { choice, noneOf, practice, quantity, rows } from "../../ask/declare";
import { halfIfHz, imageHz } from "../../physics/images";
import type { Bench } from "../../set/bench";
import { printValue } from "../../units/print";
import { exact, type Quantity } from "../../units/quantity";
import { intermediateInput, oscillatorInput } from "../inputs/dial";
import { findingsOf, type G, hz } from "./findings";
import { alone, atWay, type ImageInputs, type ImageNames, leaves, secondAt, secondPlaces, ways } from "./solve";
import theory from "./theory.md";

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
const bandEnd = (end: "low" | "high", meaning: string, value: number) =>
  quantity("frequency", meaning, "the dial", [value, 0, "an example"], { max: 200e6, from: (b) => b.quantity(`${b.at}.${end}`) });

export const image = sheet({
  id: "image",
  version: 2,
  title: "Images",
  question: "Where else is a signal heard, how far down, and is the oscillator on its side?",
  subject: "band",
  joins: false,
  works: "panel",
  steps: ["25", "33c"],
  inputs: {
    oscillator: oscillatorInput,
    secondPlace: choice(
      secondPlaces,
      "second place on the dial where a strong generator on a known mark is heard",
      "strong generator on a dial mark of this band; note its own mark, then look two IF to both sides for the weaker place",
    ),
    readings: rows(
      {
        signal: { dimension: "frequency", meaning: "frequency that the set is tuned to" },
        way: { options: ways, meaning: "what was rejected" },
        rejection: { dimension: "decibel", bare: "dB", meaning: "how much more signal the generator must give for the same output" },
      },
      "rejection as measured",
      "generator on the signal, then on the other frequency, turned up to the same output; AVC off or the detector's volts held",
    ),
    signal: quantity("frequency", "frequency that the set is tuned to", "the dial", [3.75e6, 0, "an example"], {
      max: 200e6,
      from: (b) => {
        const high = b.quantity(`${b.at}.high`);
        return b.quantity(`${b.at}.signal`) ?? (high && { ...high, source: "top of the band, where it is worst" });
      },
    }),
    low: bandEnd("low", "lowest frequency of the band", 1.6e6),
    high: bandEnd("high", "highest frequency of the band", 4.8e6),
    intermediate: intermediateInput,
    circuits: quantity(
      "ratio",
      "tuned circuits between antenna and mixer grid",
      "service sheet: sections of the gang but the oscillator's",
      [2, 0, practice],
      {
        min: 0,
        max: 6,
        from: (b) => b.quantity(`${b.at}.circuits`) ?? describedCircuits(b),
      },
    ),
    signalQ: quantity("ratio", "loaded Q of each signal circuit", "width of its peak", [60, 20, practice], { max: 1000 }),
    strays: quantity(
      "decibel",
      "how far down is what goes round the tuned circuits",
      "rejection that no tuning betters",
      [70, 10, `one chassis seldom does better, ${practice}`],
      {
        max: 140,
      },
    ),
  },
  first: ["signal", "circuits", "signalQ"],
  results: {
    imageAt: { dimension: "frequency", meaning: "image frequency of the signal asked about", known: 500 },
    imageRejection: { dimension: "decibel", meaning: "image rejection", known: 0.5 },
    imageAtLow: { dimension: "decibel", meaning: "image rejection at the low end of the band", known: 0.5 },
    imageAtHigh: { dimension: "decibel", meaning: "image rejection at the high end of the band", known: 0.5 },
    ifRejection: {
      dimension: "decibel",
      meaning: "rejection of a signal on the IF itself, mostly what goes round the circuits",
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
  prepare: (best) => {
    const b = best as unknown as ImageInputs;
    const issue = (path: string, code: string, read: string, expected: string) => ({
      axes: { image: new Float64Array(1), ownIf: new Float64Array(1) },
      solve: () => noneOf(names, "refused"),
      issues: [{ path, code, read, expected }],
    });
    if (!(b.high > b.low)) return issue("high", "crossed", hz(b.high), `a frequency above low, ${hz(b.low)}`);
    if (Math.abs(b.signal / b.intermediate - 1) < 1e-3)
      return issue("signal", "on-the-if", hz(b.signal), "a frequency off the IF: on it the set would receive its own IF");
    if (b.oscillator === "below" && b.signal <= b.intermediate)
      return issue("oscillator", "through-nothing", "below", `above, since ${hz(b.signal)} less the IF is nothing or less`);
    if (b.oscillator === "below" && Math.abs(b.signal / (2 * b.intermediate) - 1) < 1e-3)
      return issue("oscillator", "oscillator-on-the-if", "below", "above: below it would run on the IF itself at this place");
    const off = b.readings.findIndex((r) => !(r.signal > 0) || Math.abs(r.rejection) > 150);
    if (off >= 0) return issue(`readings row ${off + 1}`, "out-of-range", String(b.readings[off].rejection), "-150 dB to 150 dB");
    const axis = Float64Array.from({ length: 61 }, (_, i) => b.low * (b.high / b.low) ** (i / 60));
    return {
      axes: { image: axis, ownIf: axis },
      solve: (plain, into) => {
        const x = plain as unknown as ImageInputs;
        for (let i = 0; i < axis.length; i++) {
          into.image[i] = leaves(x, axis[i], 0);
          into.ownIf[i] = leaves(x, axis[i], 1);
        }
        return {
          imageAt: imageHz(x.signal, x.intermediate, x.oscillator),
          imageRejection: leaves(x, x.signal, 0),
          imageAtLow: leaves(x, x.low, 0),
          imageAtHigh: leaves(x, x.high, 0),
          ifRejection: leaves(x, x.signal, 1),
          halfIfAt: halfIfHz(x.signal, x.intermediate, x.oscillator),
          halfIfRejection: alone(x, x.signal, 2),
          heardAt: secondAt(x) ?? { none: "there is no second place on the dial for it: two IF lower is nothing or less" },
        };
      },
    };
  },
  headline: (ground) => {
    const g = ground as unknown as G;
    const read = g.best.readings.find((r) => r.way === 0 && Math.abs(r.signal / g.best.signal - 1) < 0.02);
    if (read)
      return `Measured at ${hz(read.signal)}: the image is ${printValue(read.rejection, "decibel", 3)} down, where these circuits give ${printValue(leaves(g.best, read.signal, 0), "decibel", 3)}.`;
    return `Tuned to ${hz(g.best.signal)} the set hears ${g.about("imageAt")} too, ${g.about("imageRejection")} down; ${secondAt(g.best) === undefined ? "a strong signal has no second place here." : `a strong signal on ${hz(g.best.signal)} itself comes in again with the dial at ${g.about("heardAt")}.`}`;
  },
  findings: (ground) => findingsOf(ground as unknown as G),
  tables: (best) => {
    const x = best as unknown as ImageInputs;
    return [
      {
        id: "ways",
        title: "Rejection over the band, as these circuits give it",
        columns: [
          { name: "tuned to", dimension: "frequency", u: 500 },
          { name: "image at", dimension: "frequency", u: 500 },
          { name: "image", dimension: "decibel", u: 0.5 },
          { name: "IF", dimension: "decibel", u: 0.5 },
          { name: "half IF at", dimension: "frequency", u: 500 },
          { name: "its circuits alone", dimension: "decibel", u: 0.5 },
        ],
        rows: [0, 0.25, 0.5, 0.75, 1].map((k) => {
          const f = x.low + k * (x.high - x.low);
          return [f, atWay(x, f, 0), leaves(x, f, 0), leaves(x, f, 1), atWay(x, f, 2), alone(x, f, 2)];
        }),
      },
    ];
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
      yFrom: 0,
    },
  ],
  theory,
});
const names: ImageNames[] = [
  "imageAt",
  "imageRejection",
  "imageAtLow",
  "imageAtHigh",
  "ifRejection",
  "halfIfAt",
  "halfIfRejection",
  "heardAt",
];
