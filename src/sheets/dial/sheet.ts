import { setPointLeverage } from "../../physics/dial-law";
import { dialAt, dialAxis, dialSlope, readingFor } from "../../set/fitted-dial";
import type { OddPoint } from "../../set/judge-dial";
import { orThrow } from "../../units/issue";
import { printValue } from "../../units/print";
import { exact, tolerance } from "../../units/quantity";
import { type Finding, sheet, type Table } from "../contract";
import { doubtHz, mhz, readingsAlong, roughly, straightLine } from "../dial-figures";
import {
  approaches,
  backlashInput,
  dialOf,
  intermediateInput,
  markerErrorInput,
  oscillatorInput,
  pointsInput,
  readingNoiseInput,
  scaleInputs,
  spacingInput,
  zeroBeatInput,
} from "../dial-inputs";
import { type DialInputs, fixedFigures, lawDraws, solveDial } from "./solve";
import theory from "./theory.md";

const none: Finding["hazards"] = ["none"];
const steps = { "10 kHz": 10e3, "25 kHz": 25e3, "50 kHz": 50e3, "100 kHz": 100e3 } as const;

export const dial = sheet({
  id: "dial",
  version: 1,
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
  },
  observed: ["points"],
  first: ["where", "markerError", "readingNoise", "backlash", "setPointOff"],
  results: {
    worstDoubt: { dimension: "frequency", meaning: "95 % half-width of the law where it is widest", known: 300 },
    typicalDoubt: { dimension: "frequency", meaning: "the same, median along the scale", known: 300 },
    reading: { dimension: "division", meaning: "scale reading at the frequency asked about" },
    atReading: { dimension: "frequency", meaning: "where the set is at that reading, markers' error included" },
    slope: { dimension: "frequency", meaning: "one division there" },
    backlash: { dimension: "division", meaning: "backlash" },
    backlashHz: { dimension: "frequency", meaning: "backlash there" },
    readingNoise: { dimension: "division", meaning: "reading noise that the points show" },
    largestBend: { dimension: "frequency", meaning: "largest departure from a straight line through the ends", known: 300 },
    setPointShiftHigh: { dimension: "frequency", meaning: "what that set-point error does at the high end" },
    nextMarker: { dimension: "frequency", meaning: "marker that would tell most" },
    oddCount: { dimension: "ratio", meaning: "zero beats that do not fit, left out" },
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
  headline: (g) => {
    const { fit, odd } = orThrow(dialOf(g.best as DialInputs));
    const ends = [dialAt(fit, fit.low).hz, dialAt(fit, fit.high).hz].sort((a, b) => a - b);
    return `The dial is known to ${roughly(g.figures.typicalDoubt.value)} or so, ${roughly(g.figures.worstDoubt.value)} at its worst, from ${mhz(ends[0])} to ${mhz(ends[1])}: ${fit.points.length} zero beats${odd.length > 0 ? `, ${odd.length} left out as odd` : ""}.`;
  },
  findings: (g) => {
    const x = g.best as DialInputs;
    const judged = orThrow(dialOf(x));
    const { fit, odd, repeats } = judged;
    const out: Finding[] = odd.map((o) => oddFinding(o, x.markerError));
    if (repeats.length > 0)
      out.push({
        id: "dial-repeats",
        severity: "note",
        says: `Row ${repeats.map((i) => i + 1).join(", ")} repeats another row to the last digit and counts once. A second look at a marker is worth having: read the scale afresh.`,
        restsOn: [],
        hazards: none,
      });
    if (typeof g.figures.nextMarker.value === "number" && fit.points.length < 60)
      out.push({
        id: "dial-next-marker",
        severity: "check",
        says: `The law is least sure near ${mhz(g.figures.nextMarker.value)}.`,
        do: `Zero beat the marker at ${mhz(g.figures.nextMarker.value)}${g.figures.nextMarker.value % x.spacing === 0 ? "" : ", with markers half as far apart"}, from the usual side.`,
        restsOn: ["nextMarker", "worstDoubt"],
        hazards: none,
      });
    const lash = g.figures.backlashHz.value === null ? "" : `, ${g.say("backlashHz")} at the frequency asked about`;
    if (fit.points.length < 8)
      out.push({
        id: "dial-few",
        severity: "check",
        says: `${fit.points.length} zero beats are too few to tell a wrong marker, least of all an outermost one, from a bend of the dial.`,
        do: "Take eight or more, and tell one of them from a station of known frequency.",
        restsOn: [],
        hazards: none,
      });
    const oneSide = fit.side !== 0 && fit.points.every((p) => p.approach === fit.side);
    out.push({
      id: "dial-side",
      severity: "note",
      says: oneSide
        ? `All zero beats were approached turning ${approaches[fit.side === 1 ? 1 : 2]}. Come to a frequency the same way and backlash does not matter; from the other side it is off by the backlash${lash}, which these points can't tell.`
        : `Backlash is ${g.say("backlash")}${lash}. The readings here hold ${fit.side === 1 ? "for turning up to them" : fit.side === -1 ? "for turning down to them" : "for neither side: midway between both, half the backlash off either way"}. Come to a frequency always from one side.`,
      restsOn: ["backlash", "backlashHz"],
      hazards: none,
    });
    out.push({
      id: "dial-set-point",
      severity: "note",
      says: `On a bandspread scale a main dial that is off by ${printValue(x.setPointOff, "frequency")} at the low end moves the high end by ${g.say("setPointShiftHigh")}: by the cube of the oscillator's ratio.`,
      restsOn: ["setPointShiftHigh"],
      hazards: none,
    });
    out.push({
      id: "dial-honest",
      severity: "note",
      says: "The half-widths are widened so that on 19 dials of 20 they hold over at least 88 % of the scale; errors along one scale go together. What is not known of the markers' error comes on top; what is known is taken out.",
      restsOn: ["worstDoubt"],
      hazards: none,
    });
    return out as never;
  },
  tables: (best) => {
    const read = dialOf(best as DialInputs);
    if (!read.ok) return [];
    const { fit } = read.value;
    const step = steps[best.tableStep];
    // the outermost markers themselves belong in the table, whatever their own reading noise
    const more = 0.01 * (fit.high - fit.low);
    const ends = [dialAt(fit, fit.low - more).hz, dialAt(fit, fit.high + more).hz].sort((a, b) => a - b);
    const rows: number[][] = [];
    for (let k = Math.ceil(ends[0] / step - 1e-9); k * step <= ends[1] * (1 + 1e-9) && rows.length < 400; k++) {
      const reading = readingFor(fit, k * step);
      if (reading === undefined) continue;
      const slope = dialSlope(fit, reading);
      rows.push([k * step, reading, doubtHz(fit, reading), slope]);
    }
    const at = (name: string, u: number) => ({ name, dimension: "frequency" as const, u });
    return [
      {
        id: "correction",
        title: `Scale reading of each frequency, ${fit.side === 1 ? "turning up to it" : fit.side === -1 ? "turning down to it" : "midway between turning up and turning down"}`,
        columns: [at("frequency", 50), { name: "scale", dimension: "division", u: 0.03 }, at("± 95 %", 30), at("a division", 30)],
        rows,
      } satisfies Table,
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

function oddFinding(o: OddPoint, knownError: number): Finding {
  const marker = (hz: number): string => mhz(hz / (1 + knownError));
  const where = `Row ${o.index + 1}, ${marker(o.point.frequencyHz)} at ${o.point.reading}`;
  const said = {
    neighbour: {
      says: `${where}: it was taken for its neighbour. At that reading the set is on ${mhz(o.lawHz)}, so it is the marker at ${marker(o.likelyHz ?? o.lawHz)}.`,
      do: "Take this zero beat back and write it again with the right frequency; count the markers from one that is known for sure.",
    },
    "wrong-side": {
      says: `${where}: off by ${printValue(o.offDiv, "division", 0.05)}, as much as the backlash. It was come at from the other side.`,
      do: "Turn past it and come back from the usual side, then write it again.",
    },
    unexplained: {
      says: `${where}: ${Math.abs(o.sigmas).toFixed(0)} times further off than a reading may be; neither a neighbouring marker nor backlash explains it.`,
      do: "Zero beat it once more and read the scale afresh.",
    },
  }[o.cause];
  return { id: `dial-odd-${o.index + 1}`, severity: "act", ...said, restsOn: ["oddCount"], hazards: none };
}
