import { sheet } from "../../ask/contract";
import type { Table } from "../../ask/drawings";
import { dialAt, dialAxis, dialSlope, readingFor } from "../../infer/dial/fitted";
import { setPointLeverage } from "../../physics/dial-law";
import { exact, tolerance } from "../../units/quantity";
import {
  backlashInput,
  bandInputs,
  dialOf,
  intermediateInput,
  markerErrorInput,
  oscillatorInput,
  pointsInput,
  readingNoiseInput,
  scaleInputs,
  spacingInput,
  zeroBeatInput,
} from "../inputs/dial";
import { doubtHz, readingsAlong, straightLine } from "../inputs/dial-figures";
import { dialFindings, dialHeadline, narrowers } from "./findings";
import { spanOf } from "./narrow";
import { type DialInputs, fixedFigures, lawDraws, solveDial } from "./solve";
import theory from "./theory.md";

const steps = { "10 kHz": 10e3, "25 kHz": 25e3, "50 kHz": 50e3, "100 kHz": 100e3 } as const;

export const dial = sheet({
  id: "dial",
  version: 3,
  title: "The dial",
  question: "Where is this dial, and how far can it be trusted?",
  subject: "band",
  joins: false,
  works: "panel",
  steps: ["26", "23", "33g"],
  inputs: {
    points: pointsInput,
    oscillator: oscillatorInput,
    tableStep: {
      kind: "choice",
      options: ["10 kHz", "25 kHz", "50 kHz", "100 kHz"],
      meaning: "step of the correction table",
      howMeasured: "chosen",
      assumed: "50 kHz",
    },
    where: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      meaning: "frequency that is asked about",
      howMeasured: "chosen",
      from: (bench) => {
        const kept = bench.quantity(`${bench.at}.where`);
        if (kept) return kept;
        const f = bench.points(bench.at).map((p) => p.frequencyHz);
        if (f.length === 0) return undefined;
        return { value: (Math.min(...f) + Math.max(...f)) / 2, spread: exact, origin: "computed", source: "middle of the zero beats" };
      },
      assumed: { value: 3.725e6, spread: exact, source: "chosen" },
    },
    intermediate: intermediateInput,
    readingNoise: readingNoiseInput,
    zeroBeat: zeroBeatInput,
    backlash: backlashInput,
    markerError: markerErrorInput,
    spacing: spacingInput,
    setPointOff: {
      kind: "quantity",
      dimension: "frequency",
      meaning: "how far the main dial may be off its set-point, at the low end of the bandspread scale",
      howMeasured: "set it anew ten times and see where the lowest marker comes",
      assumed: { value: 1e3, spread: tolerance(300), source: "to show what it does, common practice, no source" },
    },
    ...scaleInputs,
    ...bandInputs,
  },
  observed: ["points"],
  first: ["where", "markerError", "readingNoise", "backlash", "setPointOff"],
  results: {
    worstDoubt: { dimension: "frequency", meaning: "95 % half-width of the law at its widest", known: 300 },
    typicalDoubt: { dimension: "frequency", meaning: "95 % half-width of the law, median along the scale", known: 300 },
    reading: { dimension: "division", meaning: "scale reading at the frequency asked about" },
    atReading: { dimension: "frequency", meaning: "frequency of the set at the frequency asked about, markers' error included" },
    slope: { dimension: "frequency", meaning: "width of one division at the frequency asked about" },
    backlash: { dimension: "division", meaning: "backlash" },
    backlashHz: { dimension: "frequency", meaning: "backlash at the frequency asked about" },
    readingNoise: { dimension: "division", meaning: "reading noise that the points show" },
    largestBend: { dimension: "frequency", meaning: "largest departure from a straight line through the ends", known: 300 },
    setPointShiftHigh: { dimension: "frequency", meaning: "what an error of the set-point does at the high end" },
    nextMarker: { dimension: "frequency", meaning: "marker that would tell most", exact: true },
    oddCount: { dimension: "ratio", meaning: "number of zero beats that do not fit and were left out", exact: true },
  },
  key: ["worstDoubt", "typicalDoubt", "atReading", "slope", "backlash"],
  curves: {
    bend: { x: "division", y: "frequency", meaning: "frequency less the straight line through the ends" },
    doubt: { x: "division", y: "frequency", meaning: "95 % half-width of the law" },
  },
  prepare: (best, points, chance) => {
    const read = dialOf(best as DialInputs);
    if (!read.ok)
      return { axes: { bend: new Float64Array(1), doubt: new Float64Array(1) }, solve: () => ({}) as never, issues: read.issues };
    const { fit } = read.value;
    const draws = lawDraws(fit, chance);
    const fixed = fixedFigures(best as DialInputs, read.value);
    // taken now: the draws write over the plain inputs
    const knownError = best.markerError;
    const leverage = setPointLeverage(fixed.highHz, fixed.lowHz, fit.conversion);
    const straight = straightLine(fit);
    const axis = readingsAlong(fit, points);
    const along = dialAxis(fit, axis);
    const atBest = axis.map((r) => dialAt(fit, r).hz);
    const line = axis.map(straight);
    const doubt = axis.map((r) => doubtHz(fit, r));
    return {
      axes: { bend: axis, doubt: axis },
      varies: true,
      solve: (x, into, draw) => {
        const law = draws(draw);
        if (law) law.fill(along, into.bend);
        else into.bend.set(atBest);
        for (let i = 0; i < axis.length; i++) into.bend[i] -= line[i];
        into.doubt.set(doubt);
        return solveDial(x as DialInputs, fit, { ...fixed, setPointShiftHigh: leverage * x.setPointOff }, law, knownError);
      },
    };
  },
  headline: (g) => dialHeadline(g),
  findings: (g) => dialFindings(g) as never,
  tables: (best) => {
    const read = dialOf(best as DialInputs);
    if (!read.ok) return [];
    const { fit } = read.value;
    const step = steps[best.tableStep];
    // the outermost markers themselves belong in the table, whatever their own reading noise
    const more = fit.leans ? 0 : 0.01 * (fit.high - fit.low);
    const [from, to] = spanOf(fit);
    const ends = [dialAt(fit, from - more).hz, dialAt(fit, to + more).hz].sort((a, b) => a - b);
    const rows: number[][] = [];
    for (let k = Math.ceil(ends[0] / step - 1e-9); k * step <= ends[1] * (1 + 1e-9) && rows.length < 400; k++) {
      const reading = readingFor(fit, k * step);
      if (reading === undefined) continue;
      const slope = dialSlope(fit, reading);
      rows.push([k * step, reading, doubtHz(fit, reading), slope]);
    }
    const at = (name: string, u: number) => ({ name, dimension: "frequency" as const, u });
    const x = best as DialInputs;
    const { nextMarker } = fixedFigures(x, read.value);
    const narrower = narrowers(x, typeof nextMarker === "number" ? nextMarker : undefined);
    return [
      {
        id: "correction",
        title: `Scale reading of each frequency, ${fit.side === 1 ? "turning up to it" : fit.side === -1 ? "turning down to it" : "midway between turning up and turning down"}`,
        columns: [
          { name: "frequency", dimension: "frequency", exact: true },
          { name: "scale", dimension: "division", u: 0.03 },
          at("± 95 %", 30),
          at("a division", 30),
        ],
        rows,
      } satisfies Table,
      ...(narrower.length > 0
        ? [
            {
              id: "narrower",
              title: "What more zero beats would bring",
              columns: [
                { name: "zero beat", dimension: "ratio" },
                { name: "beats more", dimension: "ratio", exact: true },
                at("± 95 % then", 30),
                at("at its worst", 30),
              ],
              rows: narrower.map((n) => [n.what, n.beatsCount, n.typicalHz, n.worstHz]),
            } satisfies Table,
          ]
        : []),
    ];
  },
  figures: [
    {
      id: "bend",
      title: "How the dial bends",
      xLabel: "scale reading",
      yLabel: "off the straight line",
      traces: [{ label: "this dial", curve: "bend", stroke: "ink", band: true }],
    },
    {
      id: "doubt",
      title: "How far it can be trusted",
      xLabel: "scale reading",
      yLabel: "±, 95 %",
      traces: [{ label: "± of the law", curve: "doubt", stroke: "accent" }],
      yFrom: 0,
    },
  ],
  theory,
});
