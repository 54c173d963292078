import { declare, type GroundOf, type InputsOf, inside, type PutOf } from "../../ask/declare";
import { stored } from "../../ask/stored";
import { dbOf } from "../../physics/noise";
import { sMeter } from "../../set/addresses/s-meter";
import type { Bench } from "../../set/bench";
import type { Row } from "../../set/columns";
import type { Dimension } from "../../units/dimensions";
import { parseQuantity } from "../../units/parse";

const cell = (text: string | undefined, dimension: Dimension, bare: string): number => {
  if (text === undefined || text.trim() === "") return Number.NaN;
  const r = parseQuantity(/^\s*[+-]?\d*[.,]?\d+\s*$/.test(text) ? `${text} ${bare}` : text, dimension, "cell");
  return r.ok ? r.value.value : Number.POSITIVE_INFINITY;
};
/** Rows of the card: dBm where it was written, else the microvolts as volts across 50 ohm. */
const cardRows = (b: Bench): Row[] | undefined => {
  const all = b.card("s-meter").map((r) => {
    const dbm = cell(r.dBm, "dbm", "dBm");
    const volts = cell(r.µV, "voltage", "uV");
    return {
      level: Number.isNaN(dbm) ? dbOf((volts * volts) / 50 / 1e-3) : dbm,
      reading: cell(r["S reading"], "sReading", ""),
      avc: cell(r["AVC V"], "voltage", "V"),
      audio: cell(r["Audio dB"], "decibel", "dB"),
    };
  });
  return all.length > 0 ? all : undefined;
};
const example: Row[] = Array.from({ length: 10 }, (_, i) => ({
  level: -121 + 12 * i,
  reading: Math.min(60, i < 4 ? -48 + 14 * i : -6 + 10 * (i - 4)),
  avc: i < 2 ? 0 : -1.6 * (i - 1.5),
  audio: i < 3 ? 12 * i : 26 + 0.6 * (i - 3),
}));

export const ask = declare({
  id: "s-meter",
  version: 2,
  title: "S meter and AVC curve",
  question: "What is this S meter's law, and how flat does the AVC keep the output?",
  found: { when: ["proving", "weak"], words: "s meter S9 avc pins reads low strong signals blast" },
  subject: "set",
  joins: false,
  works: "open-live",
  place: inside,
  draws: ["circuit"],
  steps: ["27"],
  inputs: {
    steps: stored(sMeter.steps, { from: cardRows, example }),
    generatorError: stored(sMeter.generatorError),
    needleRead: stored(sMeter.needleRead),
    wantedS9: stored(sMeter.wantedS9),
    unitWanted: stored(sMeter.unitWanted),
  },
  observed: ["steps"],
  readAt: inside,
  first: ["generatorError", "wantedS9", "unitWanted"],
  results: {
    s9Level: { dimension: "dbm", meaning: "level that reads S9" },
    s9Off: { dimension: "decibel", meaning: "level of S9 above the level wanted: how far the meter reads low" },
    perUnit: { dimension: "decibel", meaning: "decibels per S unit, below S9" },
    unitOff: { dimension: "decibel", meaning: "size of an S unit minus the decibels wanted" },
    unitScatter: { dimension: "decibel", meaning: "how far the readings lie off a straight law, rms", known: 0.1 },
    overNine: { dimension: "fraction", meaning: "decibels shown over S9 for each real one", known: 0.01 },
    leastLevel: { dimension: "dbm", meaning: "level at which the meter leaves its zero" },
    flatness: { dimension: "decibel", meaning: "change of the output from 10 µV to 10 mV", known: 0.3 },
    knee: { dimension: "dbm", meaning: "level from which the AVC holds" },
    avcDecade: { dimension: "voltage", meaning: "AVC volts for ten times the signal" },
  },
  key: ["s9Level", "perUnit", "flatness"],
  curves: {
    meter: { x: "dbm", y: "ratio", meaning: "S units shown" },
    steps: { x: "dbm", y: "ratio", meaning: "S units read, step by step" },
    wanted: { x: "dbm", y: "ratio", meaning: "S units by the law wanted" },
    audio: { x: "dbm", y: "decibel", meaning: "output relative to its largest" },
  },
  figures: [
    {
      id: "law",
      title: "What the meter shows, and the law wanted (9 is S9, above it 6 dB a unit)",
      xLabel: "level",
      yLabel: "S units",
      traces: [
        { label: "meter", curve: "meter", stroke: "accent" },
        { label: "readings", curve: "steps", stroke: "ink", points: true },
        { label: "wanted", curve: "wanted", stroke: "faint", dash: true },
      ],
      yFrom: 0,
    },
    {
      id: "audio",
      title: "Output against signal: the AVC curve",
      xLabel: "level",
      yLabel: "output",
      traces: [{ label: "output", curve: "audio", stroke: "ink" }],
    },
  ],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
