import { chassisInput } from "../../ask/chassis";
import { declare, type GroundOf, type InputsOf, inside, type PutOf } from "../../ask/declare";
import { stored } from "../../ask/stored";
import { markers as topic } from "../../set/addresses/markers";

export const ask = declare({
  id: "marker-trim",
  version: 2,
  title: "Trimming the marker crystal",
  question: "How far off is the marker crystal, and which way does the trimmer go?",
  found: { when: ["off frequency"], words: "calibrator trimmer WWV zero beat standard crystal off" },
  subject: "fitting",
  fitting: "marker-generator",
  joins: true,
  works: "open-live",
  place: inside,
  draws: ["circuit"],
  steps: ["28"],
  inputs: {
    chassis: chassisInput,
    method: stored(topic.method),
    sign: stored(topic.sign),
    stationFrequency: stored(topic.stationFrequency),
    beat: stored(topic.beat),
    deadZone: stored(topic.deadZone),
    path: stored(topic.path),
    target: stored(topic.target),
    wanted: stored(topic.wanted),
    motionalCapacitance: stored(topic.motionalCapacitance),
    shuntCapacitance: stored(topic.shuntCapacitance),
    loadCapacitance: stored(topic.loadCapacitance),
    trimmerTravel: stored(topic.trimmerTravel),
  },
  observed: ["beat"],
  beforehand: ["trim-station", "trim-raster", "trim-several", "trim-step"],
  first: ["stationFrequency", "beat", "deadZone", "target", "path"],
  results: {
    crystalError: { dimension: "ppm", meaning: "error of the crystal" },
    errorAtTarget: { dimension: "frequency", meaning: "error of the marker asked for" },
    errorAt100k: { dimension: "frequency", meaning: "error at 100 kHz" },
    pullPerPicofarad: { dimension: "ppm", meaning: "how far one more picofarad pulls the crystal" },
    lowersBy: { dimension: "ppm", known: 5e-7, meaning: "most that the trimmer can lower the crystal from its present setting" },
    raisesBy: { dimension: "ppm", known: 5e-7, meaning: "most that the trimmer can raise the crystal from its present setting" },
    trimmerChange: { dimension: "capacitance", known: 0.05e-12, meaning: "change that the trimmer needs" },
    listenTime: { dimension: "time", meaning: "time of one beat at an error that is good enough: listen for longer" },
    bestReachable: { dimension: "frequency", meaning: "uncertainty that the sky wave leaves at the marker asked for" },
  },
  key: ["crystalError", "errorAtTarget", "trimmerChange"],
  curves: { error: { x: "frequency", y: "frequency", meaning: "error of each marker" } },
  figures: [
    {
      id: "error",
      title: "What the crystal's error is at each marker",
      xLabel: "marker",
      yLabel: "error",
      traces: [{ label: "error", curve: "error", stroke: "ink", band: true }],
      marks: [{ at: "target", label: "wanted here" }],
    },
  ],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
