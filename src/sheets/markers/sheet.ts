import { chassisInput } from "../../ask/chassis";
import { sheet } from "../../ask/contract";
import type { Finding } from "../../ask/findings";
import type { QuantityInput } from "../../ask/inputs";
import { environments } from "../../standards/external-noise";
import { exact, tolerance } from "../../units/quantity";
import { markerCurves, solveMarkers } from "./solve";
import theory from "./theory.md";

const quantity = <D extends QuantityInput["dimension"]>(
  dimension: D,
  meaning: string,
  howMeasured: string,
  value: number,
  half: number,
  source: string,
) =>
  ({
    kind: "quantity",
    dimension,
    positive: true,
    meaning,
    howMeasured,
    assumed: { value, spread: half > 0 ? tolerance(half) : exact, source },
  }) as const;
type Num = Record<string, number>;

/** Small numbers k for which every k-th marker is missing at this duty. */
const missing = (duty: number): number[] =>
  [2, 3, 4, 5, 10].filter(
    (k) => Math.abs(duty * k - Math.round(duty * k)) < 0.004 * k && Math.round(duty * k) > 0 && Math.round(duty * k) < k,
  );

export const markers = sheet({
  id: "markers",
  version: 1,
  title: "Markers into the antenna terminal",
  question: "Which markers will be heard, and how much coupling suits this set?",
  subject: "fitting",
  fitting: "marker-generator",
  joins: true,
  works: "panel",
  steps: ["28"],
  inputs: {
    chassis: chassisInput,
    environment: {
      kind: "choice",
      options: environments,
      meaning: "surroundings of the antenna, for the external noise",
      howMeasured: "look out of the window",
      assumed: "residential",
    },
    antenna: {
      kind: "choice",
      options: ["connected", "disconnected"],
      meaning: "whether the antenna is on while the markers are",
      howMeasured: "chosen",
      assumed: "connected",
    },
    spacing: quantity(
      "frequency",
      "spacing of the markers: the crystal divided down (1, 2, 4, 5 or 10 MHz to 1000, 500, 200, 100, 50, 25 or 10 kHz)",
      "its schematic",
      100e3,
      0,
      "the usual marker generator",
    ),
    amplitude: quantity("voltage", "height of the marker waveform, foot to top", "oscilloscope", 5, 0.5, "logic level, assumed"),
    duty: {
      ...quantity("ratio", "duty cycle of the marker waveform", "oscilloscope", 0.47, 0.02, "assumed: no divider is exactly one half"),
      max: 0.999,
    },
    riseTime: quantity("time", "rise time", "oscilloscope", 20e-9, 8e-9, "assumed"),
    fallTime: quantity("time", "fall time", "oscilloscope", 25e-9, 8e-9, "assumed"),
    markerCoupling: quantity(
      "capacitance",
      "capacitor from generator to antenna terminal",
      "its marking, or a bridge",
      1e-12,
      0.3e-12,
      "1 to 5 pF, common practice, no source",
    ),
    sourceResistance: quantity("resistance", "source resistance of the generator", "its schematic", 100, 30, "assumed"),
    antennaResistance: quantity("resistance", "antenna, as the terminal sees it", "antenna bridge", 100, 50, "assumed"),
    inputResistance: quantity("resistance", "receiver input", "service sheet", 400, 100, "usual for a set of this class"),
    inputCapacitance: quantity("capacitance", "stray and input capacitance", "bridge", 20e-12, 8e-12, "assumed"),
    bandwidth: quantity("frequency", "bandwidth that the noise is heard in", "a sweep of the strip", 6e3, 500, "the usual AM width"),
    receiverNoiseFigure: quantity(
      "decibel",
      "noise figure of the receiver",
      "noise source, or sensitivity measured",
      15,
      3,
      "usual for a set of this class, assumed",
    ),
    highestBand: quantity("frequency", "highest frequency wanted", "chosen", 29.7e6, 0, "top of the 10 m band"),
    lowestBand: quantity("frequency", "lowest frequency wanted", "chosen", 3.5e6, 0, "bottom of the 80 m band"),
    wantedOverNoise: quantity(
      "decibel",
      "how far a marker must stand over the noise",
      "chosen",
      10,
      0,
      "plainly heard, common practice, no source",
    ),
    loudest: quantity("voltage", "loudest that is wanted on the lowest band", "chosen", 500e-6, 0, "S9+20 by the IARU law"),
    frontEndCapacitance: quantity(
      "capacitance",
      "capacitance of the antenna circuit at the highest frequency",
      "service sheet, or a bridge",
      40e-12,
      10e-12,
      "assumed",
    ),
  },
  first: ["markerCoupling", "riseTime", "duty", "amplitude", "spacing"],
  results: {
    levelHighest: { dimension: "voltage", meaning: "level of a usual marker on the highest band" },
    overNoiseHighest: { dimension: "decibel", meaning: "how far a usual marker stands over the noise on the highest band" },
    readingHighest: { dimension: "sReading", meaning: "S reading of a usual marker on the highest band, by the IARU law" },
    levelLowest: { dimension: "voltage", meaning: "level of the loudest marker on the lowest band" },
    readingLowest: { dimension: "sReading", meaning: "S reading of the loudest marker on the lowest band, by the IARU law" },
    noiseHighest: { dimension: "voltage", meaning: "noise on the highest band" },
    heardShare: { dimension: "fraction", meaning: "part of the markers from lowest to highest band that stand over the noise" },
    smallestCoupling: { dimension: "capacitance", meaning: "least coupling for the highest band" },
    largestCoupling: { dimension: "capacitance", meaning: "most coupling for the lowest band" },
    frontEndDetune: { dimension: "fraction", meaning: "what the coupling does to the antenna circuit's tuning" },
  },
  key: ["overNoiseHighest", "readingLowest", "smallestCoupling"],
  curves: {
    level: { x: "frequency", y: "decibel", meaning: "markers, dB over 1 µV" },
    noise: { x: "frequency", y: "decibel", meaning: "noise, dB over 1 µV" },
  },
  prepare: (best, points) => {
    const axis = () =>
      Float64Array.from(
        { length: points },
        (_, i) =>
          Math.max(best.spacing, best.lowestBand / 2) +
          ((best.highestBand * 1.02 - Math.max(best.spacing, best.lowestBand / 2)) * i) / (points - 1),
      );
    const axes = { level: axis(), noise: axis() };
    const fill = markerCurves(best, axes.level);
    return {
      axes,
      solve: (x, into) => {
        fill(x, into.level, into.noise);
        return solveMarkers(x);
      },
    };
  },
  headline: (g) =>
    `A usual marker on the highest band comes in at ${g.about("levelHighest")}, ${g.about("overNoiseHighest")} over the noise; the loudest on the lowest band at ${g.about("readingLowest")}. Coupling from ${g.about("smallestCoupling")} to ${g.about("largestCoupling")} suits both.`,
  findings: (g) => {
    const out: Finding[] = [];
    const gone = missing(g.best.duty);
    if (gone.length > 0)
      out.push({
        id: "markers-missing",
        severity: "check",
        says: `At this duty every ${gone[0]}${gone[0] === 2 ? "nd" : gone[0] === 3 ? "rd" : "th"} marker vanishes or nearly so${gone[0] === 2 ? ": a perfect square wave has no even harmonics, and a differentiator after it does not bring them back" : ""}.`,
        do: "Shape the output to a narrow pulse, or clip one polarity of the differentiated edge, so that all markers are there.",
        restsOn: ["heardShare"],
        hazards: ["none"],
      });
    const heard = g.verdict((x, y) => (y as Num).overNoiseHighest >= x.wantedOverNoise);
    if (heard !== "yes")
      out.push({
        id: `markers-weak-${heard}`,
        severity: heard === "no" ? "act" : "check",
        says: `The highest band's markers stand ${g.say("overNoiseHighest")} over the noise.`,
        do: "Take the antenna off while the markers are on, use more coupling within the window, or sharpen the edges.",
        restsOn: ["overNoiseHighest", "smallestCoupling"],
        hazards: ["none"],
      });
    const loud = g.verdict((x, y) => (y as Num).levelLowest > x.loudest);
    if (loud !== "no")
      out.push({
        id: `markers-loud-${loud}`,
        severity: "check",
        says: `On the lowest band the loudest marker reads ${g.say("readingLowest")}: it may overload the set or hide a weak station.`,
        do: "Use less coupling.",
        restsOn: ["readingLowest", "largestCoupling"],
        hazards: ["none"],
      });
    const window = g.verdict((_, y) => (y as Num).smallestCoupling < (y as Num).largestCoupling);
    if (window === "no")
      out.push({
        id: "markers-no-window",
        severity: "act",
        says: "No single coupling suits both bands.",
        do: "Sharpen the edges, or switch the coupling.",
        restsOn: ["smallestCoupling", "largestCoupling"],
        hazards: ["none"],
      });
    out.push({
      id: "markers-front-end",
      severity: "note",
      says: `The coupling moves the antenna circuit by ${g.say("frontEndDetune")} of its frequency at the top: touch up the antenna trimmer with the lead in place.`,
      restsOn: ["frontEndDetune"],
      hazards: ["none"],
    });
    out.push({
      id: "markers-s-law",
      severity: "note",
      says: "S readings are by the IARU law; an old set follows its own law.",
      restsOn: ["readingHighest", "readingLowest"],
      hazards: ["none"],
    });
    return out as never;
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
      yFrom: -20,
    },
  ],
  theory,
});
