import { type GroundOn, sheet } from "../../ask/contract";
import { inside, practice } from "../../ask/declare";
import type { Finding } from "../../ask/findings";
import { choice, quantity, rows } from "../../ask/in-short";
import type { NoValue } from "../../ask/results";
import type { Row } from "../../set/columns";
import { printValue } from "../../units/print";
import { intermediateInput } from "../inputs/dial";
import theory from "./theory.md";

/** Points of injection from the output back to the antenna. */
export const injectionPoints = [
  "output grid",
  "volume control",
  "detector",
  "last IF grid",
  "IF grid before that",
  "mixer grid at the IF",
  "mixer grid at the signal",
  "RF grid",
  "antenna",
] as const;
interface Point {
  readonly point: number;
  readonly chart: number;
  readonly measured: number;
}
interface Inputs {
  readonly injected: readonly Point[];
  readonly gridCurrents: readonly { readonly low: number; readonly middle: number; readonly high: number }[];
  readonly avcState: "clamped" | "on" | "not stated";
  readonly intermediate: number;
  readonly generatorUnknown: number;
  readonly readingUnknown: number;
  readonly stageLimit: number;
  readonly seriesCapacitance: number;
  readonly loadResistance: number;
  readonly gridLeak: number;
}
type Names = "whole" | "lastLevel" | "worst" | "badPoint" | "lostInSeries" | "gridLow" | "gridHigh";
type G = GroundOn<Inputs, Names>;
const upper = (s: string): string => s.charAt(0).toUpperCase() + s.slice(1);
const db = (ratio: number): number => 20 * Math.log10(ratio);
/** By how much each point needs more than the chart says, dB; NaN where the chart is silent. */
const excess = (p: Point): number => db(p.measured / p.chart);
/** What each stage alone loses against the chart: from one point to the next with a chart figure. */
function lostIn(points: readonly Point[], excesses: readonly number[]): number[] {
  let last = 0;
  return points.map((_, i) => {
    if (!Number.isFinite(excesses[i])) return Number.NaN;
    const lost = excesses[i] - last;
    // what a point gains over the chart is not lost again at the next
    last = Math.max(last, excesses[i]);
    return lost;
  });
}
/** The points with what the generator is known to be off by taken out. */
const corrected = (x: Inputs): Point[] => x.injected.map((p) => ({ ...p, measured: p.measured * 10 ** (x.generatorUnknown / 20) }));
const example: Row[] = [
  { point: 3, chart: 0.06, measured: 0.065 },
  { point: 4, chart: 0.85e-3, measured: 1e-3 },
  { point: 5, chart: 25e-6, measured: 110e-6 },
  { point: 8, chart: 3e-6, measured: 14e-6 },
];

export const stageGain = sheet({
  id: "stage-gain",
  version: 1,
  title: "Gain of each stage",
  question: "Which stage is the first that gives less than the chart says?",
  subject: "set",
  joins: false,
  works: "open-live",
  steps: ["12", "13", "14"],
  inputs: {
    injected: rows(
      {
        point: { options: injectionPoints, meaning: "where the generator is" },
        chart: { dimension: "voltage", meaning: "level by the chart at this point", optional: true, bare: "uV" },
        measured: { dimension: "voltage", meaning: "level needed at this point for the same output", bare: "uV" },
      },
      "level at each point for one standard output, from the output back to the antenna",
      "generator through a capacitor to each grid in turn, output meter held at the chart's output (10 or 50 mW)",
      { example, mostRows: 20 },
    ),
    gridCurrents: rows(
      {
        low: { dimension: "voltage", meaning: "volts across the oscillator's grid leak at the low end", bare: "V" },
        middle: { dimension: "voltage", meaning: "volts across the oscillator's grid leak in the middle", bare: "V" },
        high: { dimension: "voltage", meaning: "volts across the oscillator's grid leak at the high end", bare: "V" },
      },
      "volts across the oscillator's grid leak on every band, a row a band: its grid current",
      "high-impedance meter through a resistor at the grid, or across the leak's cold end",
      { mostRows: 12 },
    ),
    avcState: choice(["not stated", "clamped", "on"], "AVC while the levels were read", "battery of 1.5 to 3 V on its line, or its switch"),
    intermediate: intermediateInput,
    generatorUnknown: quantity(
      "decibel",
      "error of the generator's level, alike in all rows",
      "its calibration",
      [0, 2, "service generator, common practice, no source"],
      {
        min: -40,
        max: 40,
      },
    ),
    readingUnknown: quantity("decibel", "how well one row is read", "read one twice", [0.5, 0, practice], { max: 10 }),
    stageLimit: quantity("decibel", "how far a stage may be short of the chart", "6 dB", [6, 0, practice], { max: 30 }),
    seriesCapacitance: quantity(
      "capacitance",
      "capacitor in the generator's lead",
      "its marking",
      [10e-9, 1e-9, "0.01 µF, the usual one"],
      { max: 1e-5 },
    ),
    loadResistance: quantity(
      "resistance",
      "load of the point on the generator at the IF",
      "its tuned circuit, detuned by the generator: some kilohms",
      [5e3, 3e3, practice],
      {
        max: 1e7,
      },
    ),
    gridLeak: quantity("resistance", "oscillator's grid leak", "service sheet, or ohms with the power off", [20e3, 2e3, practice], {
      max: 1e7,
    }),
  },
  observed: ["injected"],
  readAt: inside,
  first: ["generatorUnknown", "readingUnknown", "stageLimit", "seriesCapacitance", "gridLeak"],
  results: {
    whole: { dimension: "decibel", meaning: "gain from the last point to the first" },
    lastLevel: { dimension: "voltage", meaning: "level at the last point, by this generator" },
    worst: { dimension: "decibel", meaning: "most that one stage is short of the chart" },
    badPoint: { dimension: "ratio", meaning: "row of the first stage short of the chart by more than the limit", known: 5 },
    lostInSeries: { dimension: "decibel", meaning: "level lost in the generator's series capacitor" },
    gridLow: { dimension: "current", meaning: "smallest grid current of the oscillator" },
    gridHigh: { dimension: "current", meaning: "greatest grid current of the oscillator" },
  },
  key: ["worst", "whole", "badPoint"],
  curves: {
    chart: { x: "ratio", y: "decibel", meaning: "level by the chart at each point, over 1 µV" },
    measured: { x: "ratio", y: "decibel", meaning: "level as measured" },
  },
  prepare: (best, _points, chance) => {
    const b = best as unknown as Inputs;
    const blank = { axes: { chart: new Float64Array(1), measured: new Float64Array(1) }, solve: () => ({}) as never };
    const issue = (path: string, code: string, read: string, expected: string) => ({ ...blank, issues: [{ path, code, read, expected }] });
    if (b.injected.length < 2) return issue("injected", "too-few", `${b.injected.length} points`, "at least 2 points of injection");
    for (const [i, p] of b.injected.entries()) {
      if (!(p.measured > 0) || p.measured > 100)
        return issue(`injected row ${i + 1}`, "not-a-level", String(p.measured), "volts above 0, such as 850 µV");
      if (i > 0 && p.point <= b.injected[i - 1].point)
        return issue(
          `injected row ${i + 1}`,
          "out-of-order",
          injectionPoints[p.point],
          `a point nearer the antenna than ${injectionPoints[b.injected[i - 1].point]}`,
        );
    }
    const axis = Float64Array.from(b.injected, (_, i) => i + 1);
    const noise = b.injected.map((_, i) => chance.stream(`row ${i}`));
    return {
      axes: { chart: axis, measured: axis },
      varies: true,
      solve: (plain, into, draw) => {
        const x = plain as unknown as Inputs;
        const read = x.injected.map((p, i) => ({
          ...p,
          measured: p.measured * 10 ** ((x.generatorUnknown + (draw < 0 ? 0 : x.readingUnknown * noise[i][draw])) / 20),
        }));
        for (let i = 0; i < axis.length; i++) {
          into.chart[i] = db(read[i].chart / 1e-6);
          into.measured[i] = db(read[i].measured / 1e-6);
        }
        const lost = lostIn(read, read.map(excess));
        const known = lost.filter(Number.isFinite);
        const bad = lost.findIndex((l) => l > x.stageLimit);
        const currents = x.gridCurrents.flatMap((r) => [r.low, r.middle, r.high].map((v) => Math.abs(v) / x.gridLeak));
        const noChart: NoValue = { none: "the chart has no value for these points" };
        const noGrid: NoValue = { none: "no grid current was read" };
        // a capacitor and a resistance: their volts stand at right angles
        const reactance = 1 / (2 * Math.PI * x.intermediate * x.seriesCapacitance);
        return {
          whole: db(read[0].measured / read[read.length - 1].measured),
          lastLevel: read[read.length - 1].measured,
          worst: known.length > 0 ? Math.max(...known) : noChart,
          badPoint: bad >= 0 ? bad + 1 : known.length > 0 ? { none: "no stage is short by more" } : noChart,
          lostInSeries: 10 * Math.log10(1 + (reactance / x.loadResistance) ** 2),
          gridLow: currents.length > 0 ? Math.min(...currents) : noGrid,
          gridHigh: currents.length > 0 ? Math.max(...currents) : noGrid,
        };
      },
    };
  },
  headline: (ground) => {
    const g = ground as unknown as G;
    const { injected, stageLimit } = g.best;
    const read = corrected(g.best);
    const lost = lostIn(read, read.map(excess));
    const bad = lost.findIndex((l) => l > stageLimit);
    if (!lost.some(Number.isFinite))
      return `From ${injectionPoints[injected[0].point]} to ${injectionPoints[injected[injected.length - 1].point]} the set gains ${g.about("whole")}; there is no chart to hold it against.`;
    return bad >= 0
      ? `Look between ${injectionPoints[injected[bad].point]} and ${bad > 0 ? injectionPoints[injected[bad - 1].point] : "the output"}: that stage gives ${printValue(lost[bad], "decibel", 0.5)} less than the chart.`
      : `Every stage gives what the chart says, within ${printValue(stageLimit, "decibel")}.`;
  },
  findings: (ground) => {
    const g = ground as unknown as G;
    const x = g.best;
    const out: Finding[] = [];
    const put = (id: string, severity: Finding["severity"], says: string, todo: string | undefined, restsOn: readonly Names[]): void => {
      out.push({ id: `stage-gain-${id}`, severity, says, ...(todo ? { do: todo } : {}), restsOn, hazards: todo ? inside : ["none"] });
    };
    const read = corrected(x);
    const lost = lostIn(read, read.map(excess));
    const bad = lost.findIndex((l) => l > x.stageLimit);
    if (bad >= 0) {
      const sure = g.verdict((_, y) => y.worst > x.stageLimit);
      put(
        "short",
        sure === "yes" ? "act" : "check",
        `${upper(injectionPoints[x.injected[bad].point])} needs ${printValue(lost[bad], "decibel", 0.5)} more than the chart where the point behind it does not: that one stage is ${sure === "yes" ? "" : "perhaps "}weak. What comes before it can't be judged yet.`,
        "Volts of that stage first, on its chart; then its tube; then the bypass of its screen and cathode, its plate circuit, and what couples it on. Don't change every tube for the sake of one.",
        ["worst", "badPoint"],
      );
    }
    const strong = lost.findIndex((l) => l < -10);
    if (strong >= 0)
      put(
        "too-much",
        "check",
        `${upper(injectionPoints[x.injected[strong].point])} takes far less than the chart: the stage regenerates, or something besides the generator was feeding it.`,
        "Touch nothing inside: turn the gain down and see whether it breaks into a whistle; look at grounding, tube shields and bypasses with the power off, discharged.",
        ["worst"],
      );
    if (x.avcState !== "clamped")
      put(
        "avc",
        "check",
        "With AVC at work every level reads higher than it is: the gains of early stages come out too good or too bad.",
        "Clamp the AVC line with a battery of 1.5 to 3 V, its plus to the chassis, and read again.",
        ["whole"],
      );
    const series = g.verdict((_, y) => y.lostInSeries > 1);
    if (series !== "no")
      put(
        "series",
        "check",
        `Some ${g.about("lostInSeries")} may be lost in the capacitor in the generator's lead.`,
        `Take 0.01 µF or more at the IF, less only at signal frequency, rated ${g.rating.says}: some points carry B+.`,
        ["lostInSeries"],
      );
    for (const [i, row] of x.gridCurrents.entries()) {
      const volts = [row.low, row.middle, row.high].map(Math.abs);
      const places = ["low end", "middle", "high end"];
      const dead = volts.findIndex((v) => v < 0.5);
      const mean = volts.reduce((s, v) => s + v, 0) / 3;
      if (dead >= 0)
        put(
          `oscillator-${i + 1}-dead`,
          "act",
          `On band ${i + 1} the oscillator does not run at its ${places[dead]}: nothing can be received there.`,
          "Its tube first; then volts of its plate; then ohms of its coil and the band switch's contacts, power off and discharged.",
          ["gridLow"],
        );
      else if (volts.some((v) => Math.abs(v / mean - 1) > 0.3))
        put(
          `oscillator-${i + 1}-uneven`,
          "check",
          `On band ${i + 1} the oscillator's grid current changes by more than 30 % over the band: it is weak at one end.`,
          "Clean the switch and the gang's wipers, power off; try another tube; look for a leaky padder or grid capacitor.",
          ["gridLow", "gridHigh"],
        );
    }
    if (x.gridCurrents.length === 0)
      put(
        "oscillator-not-read",
        "check",
        "The oscillator was not read: a set that hears nothing on part of a band often has one that stops there.",
        "Read the grid leak's volts at both ends and the middle of every band.",
        ["gridLow"],
      );
    return out as never;
  },
  tables: (best) => {
    const x = best as unknown as Inputs;
    const read = corrected(x);
    const lost = lostIn(read, read.map(excess));
    const at = (name: string) => ({ name, dimension: "decibel" as const, u: 0.3 });
    return [
      {
        id: "stages",
        title: "Point by point",
        columns: [
          { name: "point", dimension: "ratio" },
          { name: "chart", dimension: "voltage" },
          { name: "measured", dimension: "voltage" },
          at("gain to the point before"),
          at("by the chart"),
          at("this stage short by"),
        ],
        rows: x.injected.map((p, i) => [
          injectionPoints[p.point],
          p.chart,
          p.measured,
          i > 0 ? db(x.injected[i - 1].measured / p.measured) : Number.NaN,
          i > 0 ? db(x.injected[i - 1].chart / p.chart) : Number.NaN,
          lost[i],
        ]),
      },
    ];
  },
  figures: [
    {
      id: "levels",
      title: "Level that each point needs (1 is nearest the output)",
      xLabel: "row",
      yLabel: "over 1 µV",
      traces: [
        { label: "measured", curve: "measured", stroke: "accent", band: true },
        { label: "chart", curve: "chart", stroke: "faint", dash: true },
      ],
    },
  ],
  theory,
});
