import { sheet } from "../../ask/contract";
import { noneOf } from "../../ask/declare";
import type { Table } from "../../ask/drawings";
import { wantedHz } from "../../physics/tracking";
import { printValue } from "../../units/print";
import { allRight, bandOf, lawOf, sameLaw, tracked } from "./circuit";
import { findingsOf } from "./findings";
import { type TrackingInputs, trackingInputs } from "./inputs";
import { refused } from "./refuse";
import { receivedLessDial, streamCount, type TrackingNames, trackingAt, trackingResults } from "./results";
import theory from "./theory.md";
import { blamedIn, type G } from "./verdict";

const lower = (s: string): string => s.charAt(0).toLowerCase() + s.slice(1);
const grid = 81;
const curveNames = ["error", "loss", "coilMore", "trimmerMore", "padderMore", "straysMore"] as const;
const axesOf = (axis: Float64Array) =>
  Object.fromEntries(curveNames.map((n) => [n, axis])) as Record<(typeof curveNames)[number], Float64Array>;
const off = (meaning: string) => ({ x: "frequency", y: "frequency", meaning }) as const;

export const tracking = sheet({
  id: "tracking",
  version: 4,
  title: "Tracking of the oscillator",
  question: "How well can the oscillator track, and which part is off?",
  subject: "band",
  joins: false,
  works: "open-live",
  steps: ["23", "24"],
  inputs: trackingInputs,
  first: ["low", "high", "gangHigh", "signalQ", "readingNoise"],
  results: trackingResults,
  key: ["worst", "coilOff", "acrossOff"],
  curves: {
    error: off("oscillator off what the signal circuit asks for, all parts right"),
    loss: { x: "frequency", y: "decibel", meaning: "loss in the signal circuit by the tracking error" },
    coilMore: off("what is received, less the dial, with 1 % more coil"),
    trimmerMore: off("what is received, less the dial, with 5 % more trimmer"),
    padderMore: off("what is received, less the dial, with 2 % more padder"),
    straysMore: off("what is received, less the dial, with 1 pF more across the gang"),
  },
  prepare: (best, _points, chance) => {
    const b = best as unknown as TrackingInputs;
    const issue = refused(b);
    if (issue) return { axes: axesOf(new Float64Array(1)), solve: () => noneOf(allNames, "refused"), issues: [issue] };
    const axis = Float64Array.from({ length: grid }, (_, i) => b.low * (b.high / b.low) ** (i / (grid - 1)));
    // the search for the best points is the longest part of it, and what is drawn seldom touches it
    const law = lawOf(b);
    const asked = { ...b };
    const streams = Array.from({ length: streamCount }, (_, i) => chance.stream(`share ${i}`));
    return {
      varies: b.readings.length + b.peaks.length > 0,
      axes: axesOf(axis),
      solve: (plain, into, draw) => {
        const x = plain as unknown as TrackingInputs;
        const t = sameLaw(x, asked) ? tracked(x, law) : tracked(x);
        if (t)
          return trackingAt(
            x,
            t,
            axis,
            into,
            // what the readings leave open moves the parts together
            streams.map((z) => (draw < 0 ? 0 : z[draw])),
          );
        for (const a of Object.values(into)) a.fill(Number.NaN);
        return noneOf(allNames, "the oscillator can't follow this band with one padder");
      },
    };
  },
  headline: (ground) => {
    const g = ground as unknown as G;
    const design = `At best the oscillator is ${g.about("worst")} off what the signal circuit asks for on this band, which costs ${g.about("worstLoss")} there.`;
    const said = blamedIn(g);
    const band = `On ${printValue(g.best.low, "frequency", g.best.low / 200)} to ${printValue(g.best.high, "frequency", g.best.low / 200)}: `;
    return said
      ? `${band}${lower(said)} ${design}`
      : `${band}${lower(design)} ${g.figures.coil.low === null ? "Its parts can't be worked out." : "Read the dial near both ends and in the middle to tell which part is off."}`;
  },
  findings: (ground) => findingsOf(ground as unknown as G),
  tables: (best) => effects(best as unknown as TrackingInputs),
  figures: [
    {
      id: "error",
      title: "The oscillator, off what the signal circuit asks for",
      xLabel: "dial",
      yLabel: "off by",
      traces: [{ label: "all parts right", curve: "error", stroke: "ink" }],
    },
    {
      id: "loss",
      title: "What the tracking error costs in the signal circuit",
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
const allNames = Object.keys(trackingResults) as TrackingNames[];

/** What is received less the dial at five places: as designed, and with one part larger. */
function effects(x: TrackingInputs): Table[] {
  const t = tracked(x);
  if (!t?.parts) return [];
  const column = (name: string) => ({ name, dimension: "frequency" as const, u: 30 });
  const cases = [
    ["as designed", allRight],
    ["coil 1 % more", { ...allRight, coil: 0.01 }],
    ["trimmer 5 % more", { ...allRight, trimmer: 0.05 }],
    ...(t.parts.layout === "no padder" ? [] : ([["padder 2 % more", { ...allRight, padder: 0.02 }]] as const)),
    ["strays of the gang 1 pF more", { ...allRight, gangF: [1e-12, 0, 0] }],
  ] as const;
  return [
    {
      id: "effects",
      title: "What is received, less the dial: as designed, and with one part larger",
      columns: [
        { name: "dial", dimension: "frequency" },
        ...cases.map(([name]) => column(name)),
        { name: "oscillator", dimension: "frequency", u: 100 },
      ],
      rows: [0, 0.25, 0.5, 0.75, 1].map((k) => {
        const f = x.low + k * (x.high - x.low);
        return [f, ...cases.map(([, o]) => receivedLessDial(x, t, f, o)), wantedHz(bandOf(x), f)];
      }),
    },
  ];
}
