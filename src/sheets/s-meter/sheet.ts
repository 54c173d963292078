import { sheet } from "../../ask/contract";
import { inside, practice } from "../../ask/declare";
import { quantity, rows } from "../../ask/in-short";
import type { NoValue } from "../../ask/results";
import { dbOf } from "../../physics/noise";
import type { Bench } from "../../set/bench";
import type { Row } from "../../set/columns";
import { iaruS9Dbm } from "../../standards/smeter";
import type { Dimension } from "../../units/dimensions";
import { parseQuantity } from "../../units/parse";
import { printValue } from "../../units/print";
import { findingsOf } from "./findings";
import { type G, lawOf, type MeterInputs, type MeterNames, microvolts, type Step, sNumber, unitOf } from "./solve";
import theory from "./theory.md";

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

export const sMeter = sheet({
  id: "s-meter",
  version: 2,
  title: "S meter and AVC curve",
  question: "What is this S meter's law, and how flat does the AVC keep the output?",
  subject: "set",
  joins: false,
  works: "open-live",
  steps: ["27"],
  inputs: {
    steps: rows(
      {
        level: { dimension: "dbm", meaning: "generator's level", bare: "dBm" },
        reading: { dimension: "sReading", meaning: "S meter", optional: true },
        avc: { dimension: "voltage", meaning: "AVC volts", optional: true, bare: "V" },
        audio: { dimension: "decibel", meaning: "audio output", optional: true, bare: "dB" },
      },
      "steps of the generator, and what the set said to each",
      "generator through the dummy antenna, 1 µV to 100 mV (-107 to -7 dBm in 50 Ω), 10 or 20 dB a step; AVC on, RF gain full; high-impedance meter on the AVC line",
      { from: cardRows, example, mostRows: 100 },
    ),
    generatorError: quantity(
      "decibel",
      "true level less the level that the generator says: +2 dB where 2 dB more comes out",
      "its calibration",
      [0, 1, "a good generator, common practice, no source"],
      {
        min: -30,
        max: 30,
      },
    ),
    needleRead: quantity("ratio", "how well the meter's needle is read, in S units", "a fifth of a unit", [0.2, 0, practice], { max: 3 }),
    wantedS9: quantity(
      "dbm",
      "level wanted for S9",
      "older sets 100 µV, later ones 50 µV in 50 Ω",
      [iaruS9Dbm, 0, "IARU Region 1, below 30 MHz"],
      {
        min: -120,
        max: 0,
      },
    ),
    unitWanted: quantity(
      "decibel",
      "decibels wanted for an S unit",
      "6 dB by the IARU; period sets often 4 to 5",
      [6, 0, "IARU Region 1"],
      { max: 20 },
    ),
  },
  observed: ["steps"],
  readAt: inside,
  first: ["generatorError", "wantedS9", "unitWanted"],
  results: {
    s9Level: { dimension: "dbm", meaning: "level that reads S9" },
    s9Off: { dimension: "decibel", meaning: "level of S9 over the level wanted: the meter reads low by so much" },
    perUnit: { dimension: "decibel", meaning: "decibels per S unit, below S9" },
    unitOff: { dimension: "decibel", meaning: "an S unit less the decibels wanted" },
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
    wanted: { x: "dbm", y: "ratio", meaning: "S units by the law that is wanted" },
    audio: { x: "dbm", y: "decibel", meaning: "output over its largest" },
  },
  prepare: (best, _points, chance) => {
    const b = best as unknown as MeterInputs;
    const blank = {
      axes: { meter: new Float64Array(1), wanted: new Float64Array(1), audio: new Float64Array(1) },
      solve: () => ({}) as never,
    };
    const issue = (path: string, code: string, read: string, expected: string) => ({ ...blank, issues: [{ path, code, read, expected }] });
    if (b.steps.length < 3) return issue("steps", "too-few", `${b.steps.length} steps`, "at least 3 steps of the generator");
    for (const [i, s] of b.steps.entries()) {
      const where = `steps row ${i + 1}`;
      if (!Number.isFinite(s.level) || s.level < -150 || s.level > 30)
        return issue(where, "no-level", String(s.level), "a level of -150 to 30 dBm, or microvolts on the card");
      if ([s.reading, s.avc, s.audio].some((v) => v === Number.POSITIVE_INFINITY))
        return issue(where, "not-a-figure", "a cell of the card", "S7 or S9+20, volts, decibels, or nothing");
      if (i > 0 && s.level <= b.steps[i - 1].level)
        return issue(
          where,
          "not-rising",
          printValue(s.level, "dbm", 0.1),
          `more than the row before, ${printValue(b.steps[i - 1].level, "dbm", 0.1)}`,
        );
    }
    const law = lawOf(b.steps);
    const axis = Float64Array.from(
      { length: 61 },
      (_, i) => b.steps[0].level + ((b.steps[b.steps.length - 1].level - b.steps[0].level) * i) / 60,
    );
    const shown = (of: (s: Step) => number): ((level: number) => number) => {
      const known = b.steps.filter((s) => Number.isFinite(of(s)));
      return (level) => {
        const k = known.findIndex((s) => s.level >= level);
        if (known.length < 2 || k < 0) return Number.NaN;
        if (k === 0) return of(known[0]);
        const t = (level - known[k - 1].level) / (known[k].level - known[k - 1].level);
        return of(known[k - 1]) * (1 - t) + of(known[k]) * t;
      };
    };
    const [meterAt, audioAt] = [shown((s) => s.reading), shown((s) => s.audio)];
    const top = Math.max(...b.steps.map((s) => (Number.isFinite(s.audio) ? s.audio : -Infinity)));
    const [one, two, needleStream] = ["unit", "avc", "needle"].map((n) => chance.stream(n));
    const or = (v: number | undefined, none: string): number | NoValue => (v === undefined ? { none } : v);
    return {
      axes: { meter: axis, wanted: axis, audio: axis },
      varies: true,
      solve: (plain, into, draw) => {
        const x = plain as unknown as MeterInputs;
        for (let i = 0; i < axis.length; i++) {
          into.meter[i] = sNumber(meterAt(axis[i]));
          const over = axis[i] + x.generatorError - x.wantedS9;
          into.wanted[i] = Math.max(0, over <= 0 ? 9 + over / x.unitWanted : sNumber(over));
          into.audio[i] = audioAt(axis[i]) - top;
        }
        const chanceOf = (s: Float64Array): number => (draw < 0 ? 0 : s[draw]);
        const add = (v: number | undefined): number | undefined => (v === undefined ? undefined : v + x.generatorError);
        const told = law.unit ? unitOf(law.unit, x.needleRead) : { none: "fewer than three readings between S1 and S9" };
        const unit = "none" in told ? told : told.slope + told.u * chanceOf(one);
        const needle = (law.unit?.slope ?? 6) * x.needleRead * chanceOf(needleStream);
        const noS9 = "no two steps lie on both sides of S9";
        return {
          s9Level: or(law.s9 === undefined ? undefined : law.s9 + x.generatorError + needle, noS9),
          s9Off: or(law.s9 === undefined ? undefined : law.s9 + x.generatorError + needle - x.wantedS9, noS9),
          perUnit: unit,
          unitOff: typeof unit === "number" ? unit - x.unitWanted : unit,
          unitScatter: or(law.unit?.rms, "fewer than three readings between S1 and S9"),
          overNine: or(law.over?.slope, "fewer than three readings over S9"),
          leastLevel: or(add(law.least), "it never left its zero"),
          flatness: or(law.flatness, "the outputs read do not reach from 10 µV to 10 mV"),
          knee: or(add(law.knee), "the output rises with the signal all the way"),
          avcDecade: or(law.avc && law.avc.slope + law.avc.slopeU * chanceOf(two), "fewer than three AVC readings above half a volt"),
        };
      },
    };
  },
  headline: (ground) => {
    const g = ground as unknown as G;
    const has = (n: MeterNames): boolean => g.figures[n].low !== null;
    const meter = has("s9Level")
      ? `S9 is ${g.about("s9Level")} (${printValue(microvolts(g.figures.s9Level.value ?? 0), "voltage", microvolts(g.figures.s9Level.value ?? 0) / 20)} in 50 Ω)${has("perUnit") ? `, an S unit ${g.about("perUnit")}` : ""}`
      : "The readings do not reach S9";
    return `${meter}; from 10 µV to 10 mV the output changes by ${has("flatness") ? g.about("flatness") : "an amount that was not read"}.`;
  },
  findings: (ground) => findingsOf(ground as unknown as G) as never,
  tables: (best) => {
    const x = best as unknown as MeterInputs;
    return [
      {
        id: "steps",
        title: "Step by step, against the law that is wanted",
        columns: [
          { name: "level", dimension: "dbm", u: 0.5 },
          { name: "in 50 Ω", dimension: "voltage" },
          { name: "meter shows", dimension: "sReading" },
          { name: "wanted", dimension: "sReading" },
          { name: "AVC", dimension: "voltage", u: 0.05 },
          { name: "output", dimension: "decibel", u: 0.1 },
        ],
        rows: x.steps.map((s) => {
          const over = s.level + x.generatorError - x.wantedS9;
          return [s.level, microvolts(s.level), s.reading, over <= 0 ? (over / x.unitWanted) * 6 : over, s.avc, s.audio];
        }),
      },
    ];
  },
  figures: [
    {
      id: "law",
      title: "What the meter shows, and the law that is wanted (9 is S9, above it 6 dB a unit)",
      xLabel: "level",
      yLabel: "S units",
      traces: [
        { label: "meter", curve: "meter", stroke: "accent" },
        { label: "wanted", curve: "wanted", stroke: "faint", dash: true },
      ],
      yFrom: 0,
    },
    {
      id: "audio",
      title: "Output over the signal: the AVC curve",
      xLabel: "level",
      yLabel: "output",
      traces: [{ label: "output", curve: "audio", stroke: "ink" }],
    },
  ],
  theory,
});
