import { dbOf } from "../../physics/noise";
import type { Bench } from "../../set/bench";
import { iaruS9Dbm } from "../../standards/smeter";
import type { Dimension } from "../../units/dimensions";
import { parseQuantity } from "../../units/parse";
import { printValue } from "../../units/print";
import { type Finding, type GroundOn, type NoValue, type Row, sheet } from "../contract";
import { inside, practice, quantity, rows } from "../declare";
import theory from "./theory.md";

interface Step {
  readonly level: number;
  readonly reading: number;
  readonly avc: number;
  readonly audio: number;
}
interface Inputs {
  readonly steps: readonly Step[];
  readonly generatorError: number;
  readonly needleRead: number;
  readonly wantedS9: number;
  readonly unitWanted: number;
}
type Names = "s9Level" | "s9Off" | "perUnit" | "unitOff" | "unitScatter" | "overNine" | "leastLevel" | "flatness" | "knee" | "avcDecade";
type G = GroundOn<Inputs, Names>;
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
const sNumber = (reading: number): number => 9 + reading / 6;
const microvolts = (dbm: number): number => Math.sqrt(10 ** (dbm / 10) * 1e-3 * 50);

interface Line {
  readonly slope: number;
  readonly at: number;
  readonly slopeU: number;
  readonly rms: number;
  /** of the slope, for each unit that an x is off by */
  readonly perX: number;
}
/** Straight line through points, with the slope's standard uncertainty. Source: least squares, textbook. */
function lineThrough(points: readonly (readonly [x: number, y: number])[]): Line | undefined {
  const n = points.length;
  if (n < 3) return undefined;
  const [mx, my] = [0, 1].map((k) => points.reduce((s, p) => s + p[k], 0) / n);
  const sxx = points.reduce((s, [x]) => s + (x - mx) ** 2, 0);
  if (!(sxx > 0)) return undefined;
  const slope = points.reduce((s, [x, y]) => s + (x - mx) * (y - my), 0) / sxx;
  const at = my - slope * mx;
  const rest = points.reduce((s, [x, y]) => s + (y - at - slope * x) ** 2, 0);
  return {
    slope,
    at,
    slopeU: Math.sqrt(rest / Math.max(1, n - 2) / sxx),
    rms: Math.sqrt(rest / n),
    perX: Math.abs(slope) / Math.sqrt(sxx),
  };
}
/** Level at which a rising column passes a value, between the steps next to it. */
function levelWhere(steps: readonly Step[], of: (s: Step) => number, value: number): number | undefined {
  for (let i = 1; i < steps.length; i++) {
    const [a, b] = [of(steps[i - 1]), of(steps[i])];
    if (a <= value && b >= value && b > a) return steps[i - 1].level + ((value - a) / (b - a)) * (steps[i].level - steps[i - 1].level);
  }
  return undefined;
}
const within = (s: Step, from: number, to: number): boolean => s.level >= from && s.level <= to;
/** 10 microvolts and 10 millivolts in 50 ohm: over these the output should hardly rise. Common practice; a depot manual asks for 3 dB (read). */
const flatFrom = -87;
const flatTo = -27;

interface Law {
  readonly s9: number | undefined;
  readonly unit: Line | undefined;
  readonly over: Line | undefined;
  readonly least: number | undefined;
  readonly flatness: number | undefined;
  readonly knee: number | undefined;
  readonly avc: Line | undefined;
}
function lawOf(steps: readonly Step[]): Law {
  const read = steps.filter((s) => Number.isFinite(s.reading));
  const below = read.filter((s) => s.reading <= 0 && s.reading > -48);
  const audio = steps.filter((s) => Number.isFinite(s.audio));
  const at = (level: number): number | undefined => {
    const k = audio.findIndex((s) => s.level >= level - 0.05);
    if (k < 0 || (k === 0 && audio[0].level > level + 0.05)) return undefined;
    if (k === 0) return audio[0].audio;
    const t = Math.min(1, (level - audio[k - 1].level) / (audio[k].level - audio[k - 1].level));
    return audio[k - 1].audio * (1 - t) + audio[k].audio * t;
  };
  const [from, to] = [at(flatFrom), at(flatTo)];
  const flat =
    from === undefined || to === undefined ? [] : [from, to, ...audio.filter((s) => within(s, flatFrom, flatTo)).map((s) => s.audio)];
  const topped = audio.findIndex((s, i) => i > 0 && (s.audio - audio[i - 1].audio) / (s.level - audio[i - 1].level) < 0.5);
  return {
    s9: levelWhere(read, (s) => s.reading, 0),
    unit: lineThrough(below.map((s) => [sNumber(s.reading), s.level])),
    over: lineThrough(read.filter((s) => s.reading >= 0).map((s) => [s.level, s.reading])),
    least: read.find((s) => sNumber(s.reading) > 1)?.level,
    flatness: flat.length > 0 ? Math.max(...flat) - Math.min(...flat) : undefined,
    knee: topped > 0 ? audio[topped - 1].level : undefined,
    avc: lineThrough(steps.filter((s) => Number.isFinite(s.avc) && Math.abs(s.avc) > 0.5).map((s) => [s.level / 20, Math.abs(s.avc)])),
  };
}
const example: Row[] = Array.from({ length: 10 }, (_, i) => ({
  level: -121 + 12 * i,
  reading: Math.min(60, i < 4 ? -48 + 14 * i : -6 + 10 * (i - 4)),
  avc: i < 2 ? 0 : -1.6 * (i - 1.5),
  audio: i < 3 ? 12 * i : 26 + 0.6 * (i - 3),
}));

export const sMeter = sheet({
  id: "s-meter",
  version: 1,
  title: "S meter and AVC curve",
  question: "What is this S meter's law, and how flat does the AVC keep the output?",
  subject: "set",
  joins: false,
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
      "how far the generator's level is low",
      "its calibration",
      [0, 1, "a good generator, common practice, no source"],
      {
        min: -30,
        max: 30,
      },
    ),
    needleRead: quantity("ratio", "how well its needle is read, in S units", "a fifth of a unit", [0.2, 0, practice], { max: 3 }),
    wantedS9: quantity(
      "dbm",
      "level that S9 is to be",
      "older sets 100 µV, later ones 50 µV in 50 Ω",
      [iaruS9Dbm, 0, "IARU Region 1, below 30 MHz"],
      {
        min: -120,
        max: 0,
      },
    ),
    unitWanted: quantity(
      "decibel",
      "decibels that an S unit is to be",
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
    s9Off: { dimension: "decibel", meaning: "level of S9 over what it is to be: the meter reads low by so much" },
    perUnit: { dimension: "decibel", meaning: "decibels an S unit, below S9" },
    unitOff: { dimension: "decibel", meaning: "an S unit less what it is to be" },
    unitScatter: { dimension: "decibel", meaning: "how far the readings lie off that straight law, rms", known: 0.1 },
    overNine: { dimension: "fraction", meaning: "decibels shown over S9 for each that there is", known: 0.01 },
    leastLevel: { dimension: "dbm", meaning: "level at which the meter has left its zero" },
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
    const b = best as unknown as Inputs;
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
        const x = plain as unknown as Inputs;
        for (let i = 0; i < axis.length; i++) {
          into.meter[i] = sNumber(meterAt(axis[i]));
          const over = axis[i] - x.wantedS9;
          into.wanted[i] = Math.max(0, over <= 0 ? 9 + over / x.unitWanted : sNumber(over));
          into.audio[i] = audioAt(axis[i]) - top;
        }
        const chanceOf = (s: Float64Array): number => (draw < 0 ? 0 : s[draw]);
        const add = (v: number | undefined): number | undefined => (v === undefined ? undefined : v + x.generatorError);
        // the needle's own doubt is in the scatter already, but never less than how well it is read
        const unitU = law.unit ? Math.max(law.unit.slopeU, law.unit.perX * x.needleRead) : 0;
        const unit = law.unit && law.unit.slope + unitU * chanceOf(one);
        const needle = (law.unit?.slope ?? 6) * x.needleRead * chanceOf(needleStream);
        const noS9 = "no two steps lie on both sides of S9";
        return {
          s9Level: or(law.s9 === undefined ? undefined : law.s9 + x.generatorError + needle, noS9),
          s9Off: or(law.s9 === undefined ? undefined : law.s9 + x.generatorError + needle - x.wantedS9, noS9),
          perUnit: or(unit, "fewer than three readings between S1 and S9"),
          unitOff: or(unit === undefined ? undefined : unit - x.unitWanted, "fewer than three readings between S1 and S9"),
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
    const has = (n: Names): boolean => g.figures[n].low !== null;
    const meter = has("s9Level")
      ? `S9 is ${g.about("s9Level")} (${printValue(microvolts(g.figures.s9Level.value ?? 0), "voltage", microvolts(g.figures.s9Level.value ?? 0) / 20)} in 50 Ω)${has("perUnit") ? `, an S unit ${g.about("perUnit")}` : ""}`
      : "The readings do not reach S9";
    return `${meter}; from 10 µV to 10 mV the output changes by ${has("flatness") ? g.about("flatness") : "an amount that was not read"}.`;
  },
  findings: (ground) => {
    const g = ground as unknown as G;
    const out: Finding[] = [];
    const put = (id: string, severity: Finding["severity"], says: string, todo: string | undefined, restsOn: readonly Names[]): void => {
      out.push({ id: `s-meter-${id}`, severity, says, ...(todo ? { do: todo } : {}), restsOn, hazards: todo ? inside : ["none"] });
    };
    if (g.figures.s9Off.low !== null) {
      const off = g.verdict((_, y) => Math.abs(y.s9Off) > 3);
      put(
        `s9-${off}`,
        off === "yes" ? "check" : "note",
        `S9 comes at ${g.say("s9Level")}: ${g.about("s9Off")} over what it is to be.`,
        off !== "yes"
          ? undefined
          : "Zero first, antenna terminal shorted and RF gain full; then the sensitivity control at the S9 level; then zero again. Warm, at the usual line: both move it.",
        ["s9Off"],
      );
    }
    if (g.figures.perUnit.low !== null) {
      const other = g.verdict((_, y) => Math.abs(y.unitOff) > 0.5);
      if (other !== "no" && (g.figures.perUnit.value ?? 0) > 0)
        put(
          "unit",
          "note",
          `Its unit is ${g.say("perUnit")}, its own law: write it on the card instead of bending the meter to another.`,
          undefined,
          ["perUnit"],
        );
    }
    if (g.figures.flatness.low !== null) {
      const rises = g.verdict((_, y) => y.flatness > 6);
      put(
        `flat-${rises}`,
        rises === "no" ? "note" : "check",
        `From 10 µV to 10 mV the output changes by ${g.say("flatness")}${rises === "no" ? "" : "; a good set stays within some 3 to 6 dB (common practice, no source)"}.`,
        rises === "no"
          ? undefined
          : "Look for AVC volts that do not follow: a leaky AVC bypass or grid coupling, a controlled tube with grid current, a diode that is weak. High-impedance meter only.",
        ["flatness"],
      );
    }
    const x = g.best.steps;
    const backward = lineThrough(x.filter((s) => Number.isFinite(s.reading)).map((s) => [s.level, s.reading]));
    if (backward && backward.slope < 0)
      put(
        "backward",
        "act",
        "The meter falls as the signal rises: its leads or its bridge are the wrong way round, or the rows are.",
        "Look at the rows first. Then, power off, discharged and measured, at the meter's leads and its zero control.",
        ["s9Level"],
      );
    const atTop = x.filter((s) => Number.isFinite(s.audio));
    if (atTop.length > 3 && atTop[atTop.length - 1].audio < Math.max(...atTop.map((s) => s.audio)) - 3)
      put(
        "overload",
        "check",
        "At the strongest signal the output falls again: a stage is overdriven before its AVC holds it.",
        "Find the first stage that clips: signal at its grid against its bias. Then the antenna trimmer, or a pad before the set.",
        ["flatness"],
      );
    const positive = x.findIndex((s) => s.avc > 0.2);
    if (positive >= 0)
      put(
        "avc-positive",
        "act",
        `The AVC line is positive in row ${positive + 1}: it should never be.`,
        "Power off, discharged and measured: leaky coupling or AVC bypass, silver mica in the IF can, or a gassy tube. Nothing that was aligned on it holds before that is mended.",
        ["avcDecade"],
      );
    return out as never;
  },
  tables: (best) => {
    const x = best as unknown as Inputs;
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
