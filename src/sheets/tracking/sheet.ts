import { padderLayouts, trackingErrorHz, wantedHz } from "../../physics/tracking";
import { printValue } from "../../units/print";
import { exact, tolerance } from "../../units/quantity";
import { type GroundOn, type NoValue, sheet, type Table } from "../contract";
import { choice, noneOf, practice, quantity, rows } from "../declare";
import { intermediateInput, oscillatorInput, scaleUnitHz } from "../dial-inputs";
import { blamedIn, findingsOf } from "./findings";
import { movedOf, nextOf, noReadings, signalOf } from "./results";
import {
  bandOf,
  blame,
  changedHz,
  drawnShares,
  pointChoices,
  resultNames,
  type Tracked,
  type TrackingInputs,
  type TrackingNames,
  tracked,
  trialOf,
} from "./solve";
import theory from "./theory.md";

type G = GroundOn<TrackingInputs, TrackingNames>;
const lower = (s: string): string => s.charAt(0).toLowerCase() + s.slice(1);
const grid = 81;
const axisOf = (x: TrackingInputs): Float64Array =>
  Float64Array.from({ length: grid }, (_, i) => x.low * (x.high / x.low) ** (i / (grid - 1)));
const noParts: NoValue = { none: "no positive parts make this curve on this gang" };
const share = (meaning: string, value: number) =>
  ({
    kind: "quantity",
    dimension: "fraction",
    positive: true,
    max: 1,
    meaning,
    howMeasured: "chosen",
    assumed: { value, spread: exact, source: practice },
  }) as const;

export const tracking = sheet({
  id: "tracking",
  version: 2,
  title: "Tracking of the oscillator",
  question: "How well can the oscillator track, and which part of which circuit is off?",
  subject: "band",
  joins: false,
  works: "open-live",
  reads: "panel",
  steps: ["23", "24"],
  inputs: {
    readings: rows(
      {
        dial: { dimension: "frequency", meaning: "what the dial says" },
        received: { dimension: "frequency", meaning: "what is received there" },
      },
      "dial marks, and what is truly received on each",
      "zero beat a marker, read the dial; near both ends, and in the middle if there is a third",
      {
        mostRows: 100,
        from: (bench) => {
          // a scale that is marked in frequency says both by itself
          const points = bench.points(bench.at);
          const unit = scaleUnitHz(points);
          return unit === undefined ? undefined : points.map((p) => ({ dial: p.reading * unit, received: p.frequencyHz }));
        },
      },
    ),
    peaks: rows(
      {
        dial: { dimension: "frequency", meaning: "what the dial says" },
        peaksAt: { dimension: "frequency", meaning: "frequency at which the signal circuit peaks there", optional: true },
        needs: {
          dimension: "capacitance",
          meaning: "or: what its trimmer needs for its peak there, more is positive",
          optional: true,
          bare: "pF",
        },
      },
      "where the signal circuit (RF or antenna trimmer) peaks at two marks",
      "generator on the mark, trimmer to its peak, and how far that was from where it stood; or a weak generator moved for most output, the oscillator rocked with it",
      { mostRows: 20 },
    ),
    trials: rows(
      {
        what: { options: trialOf, meaning: "what was turned" },
        turns: { dimension: "ratio", meaning: "turns, clockwise positive" },
        dial: { dimension: "frequency", meaning: "mark that the dial stood on" },
        before: { dimension: "frequency", meaning: "received before" },
        after: { dimension: "frequency", meaning: "received after" },
      },
      "trial turns of the oscillator's slug and trimmer",
      "mark the slot with a pencil, turn a quarter, read the same mark again",
      { mostRows: 20 },
    ),
    oscillator: oscillatorInput,
    padderLayout: choice(
      padderLayouts,
      "where the oscillator's trimmer sits",
      "service sheet: across the gang, or straight across the coil",
    ),
    points: choice(pointChoices, "where the circuit is designed to be exact", "service sheet; least worst error where nothing is known"),
    low: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      max: 60e6,
      meaning: "lowest frequency of the band",
      howMeasured: "the dial",
      from: (b) => b.quantity(`${b.at}.low`),
      assumed: { value: 1.6e6, spread: exact, source: "an example" },
    },
    high: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      max: 60e6,
      meaning: "highest frequency of the band",
      howMeasured: "the dial",
      from: (b) => b.quantity(`${b.at}.high`),
      assumed: { value: 4.8e6, spread: exact, source: "an example" },
    },
    intermediate: intermediateInput,
    gangLow: {
      kind: "quantity",
      dimension: "capacitance",
      positive: true,
      max: 1e-9,
      meaning: "least capacitance of a section of the gang",
      howMeasured: "bridge, plates fully out",
      assumed: { value: 10e-12, spread: tolerance(2e-12), source: "usual of a 365 pF gang" },
    },
    gangHigh: {
      kind: "quantity",
      dimension: "capacitance",
      positive: true,
      max: 2e-9,
      meaning: "most capacitance of a section of the gang, on this band",
      howMeasured: "bridge, plates fully in",
      assumed: { value: 365e-12, spread: tolerance(10e-12), source: "usual of a 365 pF gang" },
    },
    signalQ: {
      kind: "quantity",
      dimension: "ratio",
      positive: true,
      max: 1000,
      meaning: "loaded Q of the signal circuit",
      howMeasured: "width of its peak",
      assumed: { value: 60, spread: tolerance(20), source: practice },
    },
    readingNoise: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      meaning: "standard deviation of a dial reading",
      howMeasured: "read the same mark ten times over",
      assumed: { value: 2e3, spread: exact, source: practice },
    },
    peakDoubt: share("how well a peak is found, of its frequency", 0.003),
    ifMoved: quantity(
      "frequency",
      "by how much the IF was moved off the figure above",
      "the sheet on aligning the IF",
      [0, 0, "not moved"],
      {
        min: -50e3,
        max: 50e3,
      },
    ),
    slugRange: quantity(
      "fraction",
      "how far the oscillator's slug changes its coil, up and down",
      "resonance at both stops",
      [0.12, 0.04, "assumed: no published range found"],
      {
        max: 0.9,
      },
    ),
    trimmerTravel: quantity(
      "capacitance",
      "how far its trimmer goes, up and down",
      "its marking, half its range",
      [12e-12, 4e-12, practice],
      { max: 1e-9 },
    ),
    coilDoubt: share("what the coil may be off by beforehand, one standard deviation", 0.1),
    trimmerDoubt: share("what trimmer and strays may be off by beforehand", 0.3),
    padderDoubt: share("what the padder may be off by beforehand", 0.05),
  },
  first: ["low", "high", "gangHigh", "signalQ", "readingNoise"],
  results: {
    worst: { dimension: "frequency", meaning: "worst error of the oscillator over the band, all parts right", known: 10 },
    worstLoss: { dimension: "decibel", meaning: "what that costs in the signal circuit, at the worst place", known: 0.1 },
    coil: { dimension: "inductance", meaning: "oscillator coil" },
    trimmer: { dimension: "capacitance", meaning: "its trimmer, strays included" },
    padder: { dimension: "capacitance", meaning: "its padder" },
    signalCoil: { dimension: "inductance", meaning: "signal coil on the same gang" },
    coilOff: { dimension: "fraction", meaning: "coil over what it should be, less one", known: 1e-3 },
    trimmerOff: { dimension: "fraction", meaning: "trimmer over what it should be, less one", known: 1e-3 },
    padderOff: { dimension: "fraction", meaning: "padder over what it should be, less one", known: 1e-3 },
    left: { dimension: "frequency", meaning: "worst reading that this leaves unexplained", known: 10 },
    signalCoilOff: { dimension: "fraction", meaning: "signal coil over what it should be, less one", known: 1e-3 },
    signalTrimmerOff: { dimension: "fraction", meaning: "signal trimmer over what it should be, less one", known: 1e-3 },
    slugBy: { dimension: "fraction", meaning: "next adjustment of the slug: change of the coil's inductance" },
    trimmerBy: { dimension: "capacitance", meaning: "next adjustment of the trimmer, with it" },
    afterwards: { dimension: "frequency", meaning: "worst dial error on the band after that" },
    slugTurns: { dimension: "ratio", meaning: "turns of the slug for that, clockwise positive" },
    trimmerTurns: { dimension: "ratio", meaning: "turns of the trimmer for that, clockwise positive" },
    dialShift: { dimension: "frequency", meaning: "by how much the moved IF alone shifts what every mark receives", known: 10 },
    shiftSlug: { dimension: "fraction", meaning: "change of the coil that absorbs it" },
    shiftTrimmer: { dimension: "capacitance", meaning: "change of the trimmer that absorbs it, with that" },
    shiftLeft: { dimension: "frequency", meaning: "worst error on the band after that" },
  },
  key: ["worst", "coilOff", "trimmerOff"],
  curves: {
    error: { x: "frequency", y: "frequency", meaning: "oscillator off what it should be, all parts right" },
    loss: { x: "frequency", y: "decibel", meaning: "what that costs in the signal circuit" },
    coilMore: { x: "frequency", y: "frequency", meaning: "what is received, less the dial, with 1 % more coil" },
    trimmerMore: { x: "frequency", y: "frequency", meaning: "the same with 5 % more trimmer" },
    padderMore: { x: "frequency", y: "frequency", meaning: "the same with 2 % more padder" },
    straysMore: { x: "frequency", y: "frequency", meaning: "the same with 1 pF more across the gang" },
  },
  prepare: (best, _points, chance) => {
    const b = best as unknown as TrackingInputs;
    const blank = {
      axes: {
        error: new Float64Array(1),
        loss: new Float64Array(1),
        coilMore: new Float64Array(1),
        trimmerMore: new Float64Array(1),
        padderMore: new Float64Array(1),
        straysMore: new Float64Array(1),
      },
      solve: () => ({}) as never,
    };
    const issue = (path: string, code: string, read: string, expected: string) => ({ ...blank, issues: [{ path, code, read, expected }] });
    const hz = (v: number): string => printValue(v, "frequency");
    if (!(b.high > b.low * 1.02)) return issue("high", "crossed", hz(b.high), `a frequency well above low, ${hz(b.low)}`);
    if (!(b.gangHigh > b.gangLow)) return issue("gangHigh", "crossed", printValue(b.gangHigh, "capacitance"), "more than gangLow");
    if (b.intermediate > b.low && b.intermediate < b.high)
      return issue(
        "intermediate",
        "inside-the-band",
        hz(b.intermediate),
        "an IF outside the band: inside it the set would receive its own IF",
      );
    if (b.oscillator === "below" && b.low <= b.intermediate)
      return issue("oscillator", "through-nothing", "below", `above, since ${hz(b.low)} less the IF is nothing or less`);
    if (b.oscillator === "below" && 2 * b.intermediate > b.low && 2 * b.intermediate < b.high)
      return issue(
        "oscillator",
        "oscillator-on-the-if",
        "below",
        `above: below it would run on the IF itself where the dial says ${hz(2 * b.intermediate)}, and come through as a signal`,
      );
    const ratio = Math.sqrt(b.gangHigh / b.gangLow);
    if (ratio < b.high / b.low)
      return issue(
        "gangHigh",
        "gang-too-small",
        `${printValue(b.gangLow, "capacitance")} to ${printValue(b.gangHigh, "capacitance")}`,
        `a gang whose capacitance rises over ${((b.high / b.low) ** 2).toFixed(1)} times: this one covers at most ${ratio.toFixed(2)} to one in frequency`,
      );
    const far = b.readings.findIndex((r) => r.dial < 0.9 * b.low || r.dial > 1.1 * b.high || Math.abs(r.received / r.dial - 1) > 0.2);
    if (far >= 0)
      return issue(
        `readings row ${far + 1}`,
        "not-on-this-band",
        `${hz(b.readings[far].dial)} and ${hz(b.readings[far].received)}`,
        "a dial mark of this band, and what is received near it; 2 IF away it would be the image",
      );
    const blind = b.peaks.findIndex((r) => (r.peaksAt > 0 ? Math.abs(r.peaksAt / r.dial - 1) > 0.3 : !Number.isFinite(r.needs)));
    if (blind >= 0)
      return issue(
        `peaks row ${blind + 1}`,
        "no-peak",
        b.peaks[blind].peaksAt > 0 ? hz(b.peaks[blind].peaksAt) : "nothing",
        "the frequency of the peak, within 30 % of the mark, or what the trimmer needs in pF",
      );
    const idle = b.trials.findIndex((r) => r.turns === 0 || Math.abs(r.before / r.dial - 1) > 0.2 || Math.abs(r.after / r.dial - 1) > 0.2);
    if (idle >= 0)
      return issue(
        `trials row ${idle + 1}`,
        "no-trial",
        String(b.trials[idle].turns),
        "turns other than 0, and what the same mark received before and after",
      );
    const axis = axisOf(b);
    const streams = [0, 1, 2, 3, 4].map((i) => chance.stream(`share ${i}`));
    return {
      varies: b.readings.length + b.peaks.length > 0,
      axes: { error: axis, loss: axis, coilMore: axis, trimmerMore: axis, padderMore: axis, straysMore: axis },
      solve: (plain, into, draw) => {
        const x = plain as unknown as TrackingInputs;
        const t = tracked(x);
        if (!t) {
          for (const a of Object.values(into)) a.fill(Number.NaN);
          return noneOf(resultNames, "the oscillator can't follow this band with one padder");
        }
        const band = bandOf(x);
        const sign = x.oscillator === "above" ? 1 : -1;
        let [worst, worstLoss] = [0, 0];
        for (let i = 0; i < axis.length; i++) {
          const e = trackingErrorHz(band, t.law, axis[i]);
          const loss = 10 * Math.log10(1 + ((2 * x.signalQ * e) / axis[i]) ** 2);
          into.error[i] = e;
          into.loss[i] = loss;
          worst = Math.max(worst, Math.abs(e));
          worstLoss = Math.max(worstLoss, loss);
          const off = (c: number, r: number, p: number, g = 0): number =>
            t.parts ? changedHz(t, t.parts, axis[i], c, r, p, g) - sign * x.intermediate - axis[i] : Number.NaN;
          into.coilMore[i] = off(0.01, 0, 0);
          into.trimmerMore[i] = off(0, 0.05, 0);
          into.padderMore[i] = off(0, 0, 0.02);
          into.straysMore[i] = off(0, 0, 0, 1e-12);
        }
        const found = blame(x, t);
        const or = (v: number | undefined): number | NoValue => v ?? noParts;
        // what the readings leave open moves the three shares together
        const xi = streams.map((z) => (draw < 0 ? 0 : z[draw]));
        const now =
          found && (drawnShares([found.coil[0], found.trimmer[0], found.padder[0]], found.factor, xi) as [number, number, number]);
        const off = (i: number): number | NoValue => (now ? now[i] : t.parts ? noReadings : noParts);
        return {
          worst,
          worstLoss,
          coil: or(t.parts?.henry),
          trimmer: or(t.parts?.trimmerF),
          padder: or(t.parts?.padderF),
          signalCoil: t.signal.henry,
          coilOff: off(0),
          trimmerOff: off(1),
          padderOff: off(2),
          left: found ? found.leftHz : noReadings,
          ...signalOf(x, t, xi.slice(3)),
          ...nextOf(x, t, now),
          ...movedOf(x, t),
        };
      },
    };
  },
  headline: (ground) => {
    const g = ground as unknown as G;
    const design = `At best the oscillator is off by ${g.about("worst")} on this band, which costs ${g.about("worstLoss")} in the signal circuit.`;
    const said = blamedIn(g);
    const band = `On ${printValue(g.best.low, "frequency", g.best.low / 200)} to ${printValue(g.best.high, "frequency", g.best.low / 200)}: `;
    return said
      ? `${band}${lower(said)} ${design}`
      : `${band}${lower(design)} ${g.figures.coil.low === null ? "Its parts are not worked out." : "Read the dial near both ends to tell which part is off."}`;
  },
  findings: (ground) => findingsOf(ground as unknown as G) as never,
  tables: (best) => {
    const x = best as unknown as TrackingInputs;
    const t: Tracked | undefined = tracked(x);
    if (!t?.parts) return [];
    const sign = x.oscillator === "above" ? 1 : -1;
    const at = (f: number, c: number, r: number, p: number, g = 0): number =>
      t.parts ? changedHz(t, t.parts, f, c, r, p, g) - sign * x.intermediate - f : Number.NaN;
    const col = (name: string) => ({ name, dimension: "frequency" as const, u: 30 });
    return [
      {
        id: "effects",
        title: "What is received, less the dial: as designed, and with one part larger",
        columns: [
          { name: "dial", dimension: "frequency" },
          col("as designed"),
          col("coil 1 % more"),
          col("trimmer 5 % more"),
          col("padder 2 % more"),
          col("strays of the gang 1 pF more"),
          { name: "oscillator", dimension: "frequency", u: 100 },
        ],
        rows: [0, 0.25, 0.5, 0.75, 1].map((k) => {
          const f = x.low + k * (x.high - x.low);
          return [
            f,
            at(f, 0, 0, 0),
            at(f, 0.01, 0, 0),
            at(f, 0, 0.05, 0),
            at(f, 0, 0, 0.02),
            at(f, 0, 0, 0, 1e-12),
            wantedHz(bandOf(x), f),
          ];
        }),
      } satisfies Table,
    ];
  },
  figures: [
    {
      id: "error",
      title: "The oscillator, off what it should be",
      xLabel: "dial",
      yLabel: "off by",
      traces: [{ label: "all parts right", curve: "error", stroke: "ink" }],
    },
    {
      id: "loss",
      title: "What that costs in the signal circuit",
      xLabel: "dial",
      yLabel: "lost",
      traces: [{ label: "all parts right", curve: "loss", stroke: "ink", band: true }],
      yFrom: 0,
    },
    {
      id: "effects",
      title: "What a part that is too large does",
      xLabel: "dial",
      yLabel: "received less dial",
      traces: [
        { label: "coil 1 % more", curve: "coilMore", stroke: "ink" },
        { label: "trimmer 5 % more", curve: "trimmerMore", stroke: "accent" },
        { label: "padder 2 % more", curve: "padderMore", stroke: "faint", dash: true },
        { label: "1 pF more across the gang", curve: "straysMore", stroke: "faint" },
      ],
    },
  ],
  theory,
});
