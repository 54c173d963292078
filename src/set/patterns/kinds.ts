import { exact, type Quantity, tolerance } from "../../units/quantity";
import type { Fitting, SetDescription, StageKind } from "../describe";
import type { DescribedStrip } from "../strip";
import { ceramicStrip, mediumStrip, sharpStrip, wideStrip } from "./strips";

const from = "pattern: invented, typical of the kind";
const q = (value: number, half: number): Quantity => ({
  value,
  spread: half > 0 ? tolerance(half) : exact,
  origin: "assumed",
  source: from,
});
const stated = (value: number): Quantity => ({ value, spread: exact, origin: "stated", source: "type plate of the pattern, invented" });
const stage = (id: string, kind: StageKind, label: string, part: string, ...steps: string[]) => ({ id, kind, label, part, steps });
const band = (id: string, label: string, lowHz: number, highHz: number, spread = false) => ({
  id,
  label,
  low: stated(lowHz),
  high: stated(highHz),
  oscillator: "above" as const,
  spread,
});
const node = (id: string, label: string, volts: number) => ({ id, label, volts: q(volts, volts * 0.1) });

/** An accessory that may be planned for any of them: on the mixer plate through a cable. */
const multiplier = (tap: string): Fitting => ({
  id: "qm",
  kind: "q-multiplier",
  label: "Q multiplier",
  tap,
  state: "planned",
  values: {
    cableLength: q(1, 0.05),
    cableCapacitancePerLength: { value: 101.7e-12, spread: tolerance(2e-12), origin: "stated", source: "RG-58A/U, printed 31 pF/ft" },
    velocityFactor: { value: 0.66, spread: tolerance(0.01), origin: "stated", source: "data sheet of RG-58A/U" },
    couplingCapacitance: q(1e-9, 100e-12),
    coilQ: q(70, 15),
    tankCapacitance: q(1.5e-9, 75e-12),
    tankQ: q(130, 20),
    tuningRange: q(3000, 500),
    dividerRatio: q(0.5, 0.03),
    transconductance: q(1.6e-3, 0.3e-3),
    amplificationFactor: q(100, 15),
    bleederResistance: q(1e6, 50e3),
  },
  choices: { nullCircuit: "inverse-feedback" },
});

/** A crystal marker generator at the antenna terminal. */
const markerGenerator: Fitting = {
  id: "markers",
  kind: "marker-generator",
  label: "Marker generator",
  tap: "antenna",
  state: "planned",
  values: { spacing: q(100e3, 0), markerCoupling: q(1e-12, 0.3e-12) },
  choices: {},
};

interface Sketch {
  readonly pattern: string;
  readonly title: string;
  readonly note: string;
  readonly live: boolean;
  readonly lineV: number;
  readonly lineHz: number;
  readonly watts: number;
  readonly rectifier: string;
  readonly secondaryV: number;
  readonly nodes: SetDescription["supplies"]["nodes"];
  readonly stages: SetDescription["stages"];
  readonly strip: DescribedStrip;
  readonly trimmerF: number;
  readonly bands: SetDescription["bands"];
  readonly tubes: readonly (readonly [string, string, string, string])[];
  readonly mixerNode: string;
}

const build = (s: Sketch): SetDescription => ({
  title: s.title,
  pattern: s.pattern,
  note: s.note,
  chassis: s.live
    ? { state: "live", isolation: "none", note: "transformerless: one side of the line on the chassis, through the switch" }
    : { state: "isolated", isolation: "none", note: "own power transformer; prove it all the same" },
  line: { voltage: stated(s.lineV), frequency: stated(s.lineHz), highRatio: q(1.085, 0.02) },
  plateWatts: q(s.watts, s.watts * 0.1),
  supplies: {
    rectifier: s.rectifier,
    secondaryVoltage: q(s.secondaryV, s.secondaryV * 0.05),
    plateFeedResistance: q(2200, 1000),
    nodes: s.nodes,
  },
  stages: s.stages,
  strip: s.strip as never,
  adjusters: { slugRange: q(0.12, 0.04), trimmerRange: q(s.trimmerF, s.trimmerF / 3) },
  audio: { low: q(300, 50), high: q(2700, 300) },
  bands: s.bands,
  tubes: s.tubes.map(([socket, type, fn, at]) => ({ socket, type, function: fn, stage: at })),
  taps: [
    { id: "mixer-plate", label: "mixer plate", stage: "mixer", node: s.mixerNode, can: 1 },
    { id: "antenna", label: "antenna terminal", stage: "antenna", node: "", can: 1 },
  ],
  fittings: [multiplier("mixer-plate"), markerGenerator],
});

const generalBands = [
  band("a", "0.55-1.6 MHz", 0.55e6, 1.6e6),
  band("b", "1.6-4.8 MHz", 1.6e6, 4.8e6),
  band("c", "4.8-14.5 MHz", 4.8e6, 14.5e6),
  band("d", "10.5-30 MHz", 10.5e6, 30e6),
  band("80", "80 m bandspread", 3.5e6, 4e6, true),
  band("40", "40 m bandspread", 7e6, 7.3e6, true),
  band("20", "20 m bandspread", 14e6, 14.35e6, true),
];

const nineTubeStages = (filter: boolean) => [
  stage("antenna", "antenna", "Antenna", "terminal A, A, G", "24", "28"),
  stage("rf", "rf", "RF stage", "V1, remote-cutoff pentode", "24", "25", "13"),
  stage("mixer", "mixer", "Mixer", "V2, pentagrid", "13", "14", "31a"),
  stage("oscillator", "oscillator", "Oscillator", "V3, triode", "14", "23", "26"),
  stage("can1", "can", "First IF can", "T1", "20", "31a"),
  ...(filter ? [stage("filter", "filter", "Ceramic filter", "ladder, 2 kΩ ends", "18", "20")] : []),
  stage("if1", "if-tube", "First IF tube", "V4, remote-cutoff pentode", "13"),
  stage("can2", "can", "Second IF can", "T2", "20"),
  ...(filter
    ? []
    : [stage("if2", "if-tube", "Second IF tube", "V5, remote-cutoff pentode", "13"), stage("can3", "can", "Third IF can", "T3", "20")]),
  stage("detector", "detector", "Detector and AVC", "V6, double diode triode", "12", "15", "27"),
  stage("bfo", "bfo", "BFO", "V7, triode", "22"),
  stage("audio", "audio", "Audio", "V8, beam output tube", "12", "29b"),
  stage("speaker", "speaker", "Loudspeaker", "3 Ω", "33a"),
  stage("supply", "supply", "Supply", "V9, vacuum rectifier, two-section filter", "03", "09", "35"),
];

/** The four kinds of set that a job may start from. Invented, generic, complete enough for every sheet. */
export const patterns: readonly SetDescription[] = [
  build({
    pattern: "five-tube-live",
    title: "Beginner's five-tube set without power transformer",
    note: "Invented pattern: live chassis, series heaters, two cans, about 10 kHz wide.",
    live: true,
    lineV: 117,
    lineHz: 60,
    watts: 32,
    rectifier: "half-wave vacuum, from the line",
    secondaryV: 117,
    nodes: [node("b1", "first filter capacitor", 135), node("b2", "screens and plates", 95)],
    stages: [
      stage("antenna", "antenna", "Antenna", "terminal through 0.002 µF", "24", "28"),
      stage("mixer", "mixer", "Converter", "V1, pentagrid converter", "13", "14", "24", "31a"),
      stage("oscillator", "oscillator", "Oscillator", "in V1", "14", "23", "26"),
      stage("can1", "can", "First IF can", "T1", "20", "31a"),
      stage("if1", "if-tube", "IF tube", "V2, remote-cutoff pentode", "13"),
      stage("can2", "can", "Second IF can", "T2", "20"),
      stage("detector", "detector", "Detector and AVC", "V3, double diode triode", "12", "15"),
      stage("audio", "audio", "Audio", "V4, beam output tube", "12", "29b"),
      stage("speaker", "speaker", "Loudspeaker", "3 Ω", "33a"),
      stage("supply", "supply", "Supply", "V5, half-wave rectifier from the line", "03", "09", "35"),
    ],
    strip: wideStrip(455e3),
    trimmerF: 40e-12,
    bands: [
      band("a", "0.55-1.6 MHz", 0.55e6, 1.6e6),
      band("b", "1.7-5.3 MHz", 1.7e6, 5.3e6),
      band("c", "5-15 MHz", 5e6, 15e6),
      band("d", "13-31 MHz", 13e6, 31e6),
    ],
    tubes: [
      ["V1", "12BE6 class", "converter", "mixer"],
      ["V2", "12BA6 class", "IF", "if1"],
      ["V3", "12AV6 class", "detector, AVC, first audio", "detector"],
      ["V4", "50C5 class", "output", "audio"],
      ["V5", "35W4 class", "rectifier", "supply"],
    ],
    mixerNode: "b2",
  }),
  build({
    pattern: "nine-tube-bandspread",
    title: "General-coverage nine-tube set with bandspread",
    note: "Invented pattern: own power transformer, two IF stages, three double-tuned cans, about 6 kHz wide.",
    live: false,
    lineV: 117,
    lineHz: 60,
    watts: 75,
    rectifier: "full-wave vacuum",
    secondaryV: 290,
    nodes: [node("b1", "first filter capacitor", 330), node("b2", "plates", 250), node("b3", "screens", 100)],
    stages: nineTubeStages(false),
    strip: mediumStrip(455e3),
    trimmerF: 0,
    bands: generalBands,
    tubes: [
      ["V1", "6BA6 class", "RF", "rf"],
      ["V2", "6BE6 class", "mixer", "mixer"],
      ["V3", "6C4 class", "oscillator", "oscillator"],
      ["V4", "6BA6 class", "first IF", "if1"],
      ["V5", "6BA6 class", "second IF", "if2"],
      ["V6", "6AT6 class", "detector, AVC, first audio", "detector"],
      ["V7", "6C4 class", "BFO", "bfo"],
      ["V8", "6AQ5 class", "output", "audio"],
      ["V9", "5Y3 class", "rectifier", "supply"],
    ],
    mixerNode: "b2",
  }),
  build({
    pattern: "nine-tube-ceramic",
    title: "General-coverage set with a ceramic filter",
    note: "Invented pattern: own power transformer, two cans and a ceramic ladder filter, about 4 kHz wide: too narrow for good AM.",
    live: false,
    lineV: 117,
    lineHz: 60,
    watts: 70,
    rectifier: "full-wave silicon, as altered",
    secondaryV: 230,
    nodes: [node("b1", "first filter capacitor", 300), node("b2", "plates", 230), node("b3", "screens", 100)],
    stages: nineTubeStages(true),
    strip: ceramicStrip(455e3),
    trimmerF: 0,
    bands: generalBands,
    tubes: [
      ["V1", "6BA6 class", "RF", "rf"],
      ["V2", "6BE6 class", "mixer", "mixer"],
      ["V3", "6C4 class", "oscillator", "oscillator"],
      ["V4", "6BA6 class", "IF", "if1"],
      ["V6", "6AT6 class", "detector, AVC, first audio", "detector"],
      ["V7", "6C4 class", "BFO", "bfo"],
      ["V8", "6AQ5 class", "output", "audio"],
    ],
    mixerNode: "b2",
  }),
  build({
    pattern: "double-conversion",
    title: "Double-conversion set for the amateur bands",
    note: "Invented pattern: crystal-controlled first mixer, second IF 455 kHz with three sharp cans, about 3 kHz wide. The strip is the second IF.",
    live: false,
    lineV: 117,
    lineHz: 60,
    watts: 80,
    rectifier: "full-wave vacuum",
    secondaryV: 280,
    nodes: [node("b1", "first filter capacitor", 320), node("b2", "plates", 240), node("b3", "regulated", 150)],
    stages: [
      stage("antenna", "antenna", "Antenna", "52 Ω connector", "24", "28"),
      stage("rf", "rf", "RF stage", "V1, remote-cutoff pentode", "24", "25", "13"),
      stage("mixer1", "mixer", "First mixer", "V2, triode pentode, crystals", "13", "14"),
      stage("mixer", "mixer", "Second mixer", "V3, pentagrid", "13", "31a"),
      stage("oscillator", "oscillator", "Variable oscillator", "V4, triode, regulated", "14", "23", "26"),
      stage("can1", "can", "First IF can", "T1", "20", "31a"),
      stage("if1", "if-tube", "First IF tube", "V5", "13"),
      stage("can2", "can", "Second IF can", "T2", "20"),
      stage("if2", "if-tube", "Second IF tube", "V6", "13"),
      stage("can3", "can", "Third IF can", "T3", "20"),
      stage("detector", "detector", "Detectors and AVC", "V7, diode; V8, product", "12", "15", "27"),
      stage("bfo", "bfo", "BFO", "V8, triode half", "22"),
      stage("audio", "audio", "Audio", "V9, V10", "12", "29b"),
      stage("speaker", "speaker", "Loudspeaker", "3 Ω", "33a"),
      stage("supply", "supply", "Supply", "V11, vacuum rectifier, gas regulator", "03", "09", "35"),
    ],
    strip: sharpStrip(455e3),
    trimmerF: 0,
    bands: [
      band("80", "80 m", 3.5e6, 4e6, true),
      band("40", "40 m", 7e6, 7.5e6, true),
      band("20", "20 m", 14e6, 14.5e6, true),
      band("15", "15 m", 21e6, 21.5e6, true),
      band("10", "10 m", 28e6, 30e6, true),
    ],
    tubes: [
      ["V1", "6DC6 class", "RF", "rf"],
      ["V2", "6U8 class", "first mixer", "mixer1"],
      ["V3", "6BE6 class", "second mixer", "mixer"],
      ["V4", "6C4 class", "oscillator", "oscillator"],
      ["V5", "6BA6 class", "IF", "if1"],
      ["V6", "6BA6 class", "IF", "if2"],
    ],
    mixerNode: "b2",
  }),
];

export const patternById = (id: string): SetDescription | undefined => patterns.find((p) => p.pattern === id);
