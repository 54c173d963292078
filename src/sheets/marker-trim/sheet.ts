import { chassisInput } from "../../ask/chassis";
import { sheet } from "../../ask/contract";
import { exact, tolerance } from "../../units/quantity";
import { findingsOf, type G } from "./findings";
import { solveTrim } from "./solve";
import theory from "./theory.md";

export const markerTrim = sheet({
  id: "marker-trim",
  version: 2,
  title: "Trimming the marker crystal",
  question: "How far off is the marker crystal, and which way does the trimmer go?",
  subject: "fitting",
  fitting: "marker-generator",
  joins: true,
  works: "open-live",
  steps: ["28"],
  inputs: {
    chassis: chassisInput,
    method: {
      kind: "choice",
      options: ["ear", "flutter", "tone"],
      meaning: "how the beat was counted: note by ear, slow flutter of the S meter or the noise, or the difference of two tones",
      howMeasured: "chosen",
      assumed: "flutter",
    },
    sign: {
      kind: "choice",
      options: ["unknown", "markers-high", "markers-low"],
      meaning: "which way the markers are off: with a little more capacitance across the crystal the beat slows if they are high",
      howMeasured: "nudge the trimmer a little and listen",
      assumed: "unknown",
    },
    stationFrequency: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      min: 1e6,
      max: 30e6,
      meaning: "carrier of the standard-frequency station",
      howMeasured: "its published frequency",
      assumed: { value: 10e6, spread: exact, source: "a channel of several stations" },
    },
    beat: {
      kind: "quantity",
      dimension: "frequency",
      min: 0,
      max: 5000,
      meaning: "beat of the marker against the carrier",
      howMeasured: "count beats over ten seconds or more",
      assumed: { value: 20, spread: tolerance(1), source: "assumed, to show what it would mean" },
    },
    deadZone: {
      kind: "quantity",
      dimension: "frequency",
      min: -100,
      max: 100,
      meaning: "beat that the audio chain swallows, either way (by ear only)",
      howMeasured: "lowest note that is still heard",
      assumed: { value: 0, spread: tolerance(35), source: "20 to 50 Hz, common practice, no source" },
    },
    path: {
      kind: "quantity",
      dimension: "ppm",
      min: -1e-5,
      max: 1e-5,
      meaning: "what the path adds to the carrier's frequency",
      howMeasured: "0; away from dawn and dusk",
      assumed: { value: 0, spread: tolerance(1e-7), source: "short-wave sky wave, from memory; ten times that near sunrise and sunset" },
    },
    target: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      max: 60e6,
      meaning: "marker that the error is wanted at",
      howMeasured: "chosen",
      assumed: { value: 28e6, spread: exact, source: "bottom of the 10 m band" },
    },
    wanted: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      meaning: "error that is good enough at the marker asked for",
      howMeasured: "chosen",
      assumed: { value: 50, spread: exact, source: "chosen" },
    },
    motionalCapacitance: {
      kind: "quantity",
      dimension: "capacitance",
      positive: true,
      meaning: "motional capacitance of the crystal",
      howMeasured: "data sheet, or two load capacitors",
      assumed: { value: 8e-15, spread: tolerance(4e-15), source: "assumed: varies widely" },
    },
    shuntCapacitance: {
      kind: "quantity",
      dimension: "capacitance",
      positive: true,
      meaning: "holder capacitance of the crystal",
      howMeasured: "bridge, well off resonance",
      assumed: { value: 5e-12, spread: tolerance(2e-12), source: "assumed" },
    },
    loadCapacitance: {
      kind: "quantity",
      dimension: "capacitance",
      positive: true,
      meaning: "load capacitance as it stands",
      howMeasured: "schematic, strays included",
      assumed: { value: 30e-12, spread: tolerance(5e-12), source: "the usual 30 or 32 pF" },
    },
    trimmerTravel: {
      kind: "quantity",
      dimension: "capacitance",
      positive: true,
      max: 1e-9,
      meaning: "range left to the trimmer from where it stands, up and down",
      howMeasured: "its marking, half its range",
      assumed: { value: 10e-12, spread: tolerance(5e-12), source: "common practice, no source" },
    },
  },
  observed: ["beat"],
  beforehand: ["trim-station", "trim-raster", "trim-several"],
  first: ["stationFrequency", "beat", "deadZone", "target", "path"],
  results: {
    crystalError: { dimension: "ppm", meaning: "error of the crystal" },
    errorAtTarget: { dimension: "frequency", meaning: "error of the marker asked for" },
    errorAt100k: { dimension: "frequency", meaning: "error at 100 kHz" },
    pullPerPicofarad: { dimension: "ppm", meaning: "pull of the crystal by one picofarad more" },
    lowersBy: { dimension: "ppm", known: 5e-7, meaning: "most that the trimmer can lower the crystal from where it stands" },
    raisesBy: { dimension: "ppm", known: 5e-7, meaning: "most that the trimmer can raise the crystal from where it stands" },
    trimmerChange: { dimension: "capacitance", known: 0.05e-12, meaning: "change that the trimmer needs" },
    listenTime: { dimension: "time", meaning: "time of one beat at an error that is good enough: listen for longer" },
    bestReachable: { dimension: "frequency", meaning: "uncertainty that the sky wave leaves at the marker asked for" },
  },
  key: ["crystalError", "errorAtTarget", "trimmerChange"],
  curves: { error: { x: "frequency", y: "frequency", meaning: "error of each marker" } },
  prepare: (_, points) => {
    const error = Float64Array.from({ length: points }, (__, i) => 1e5 + (29.9e6 * i) / (points - 1));
    return {
      axes: { error },
      solve: (x, into) => {
        const y = solveTrim(x);
        for (let i = 0; i < error.length; i++) into.error[i] = y.crystalError * error[i];
        return y;
      },
    };
  },
  headline: (g) =>
    `The crystal is off by ${g.say("crystalError")}${g.best.sign === "unknown" ? ", which way is not known yet" : ""}: ${g.about("errorAtTarget")} at the marker asked for.`,
  findings: (ground) => findingsOf(ground as unknown as G) as never,
  figures: [
    {
      id: "error",
      title: "What the crystal's error is at each marker",
      xLabel: "marker",
      yLabel: "error",
      traces: [{ label: "error", curve: "error", stroke: "ink", band: true }],
    },
  ],
  theory,
});
