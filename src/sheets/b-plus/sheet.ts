import { sheet } from "../../ask/contract";
import type { Bench } from "../../set/bench";
import { exact } from "../../units/quantity";
import { ofSupply, readAtSupply } from "../inputs/supply";
import { supplyInputs } from "../inputs/supply-filter";
import { described, firstNode, nodes, solveChanged } from "../inputs/supply-law";
import { bPlusFindings, bPlusHeadline, bPlusParts, type G } from "./findings";
import { type BPlusInputs, baseOf, solveDraw } from "./solve";
import theory from "./theory.md";

const threeTraces = (by: "Line" | "Load") =>
  [
    { label: nodes.first.label, curve: `firstBy${by}`, stroke: "ink", band: true },
    { label: nodes.second.label, curve: `secondBy${by}`, stroke: "faint" },
    { label: nodes.third.label, curve: `thirdBy${by}`, stroke: "accent" },
  ] as const;

export const bPlus = sheet({
  id: "b-plus",
  version: 2,
  title: "What the supply should give",
  question: "What should B+ be at this line and load, and what does the measured one tell me?",
  subject: "set",
  joins: false,
  works: "open-live",
  steps: ["09", "08", "04"],
  inputs: {
    ...supplyInputs,
    capacitorRating: {
      ...ofSupply("capacitorRating", {
        dimension: "voltage",
        positive: true,
        max: 2000,
        meaning: "working voltage of the filter capacitors",
        howMeasured: "their marking",
        assumed: [450, exact, "usual of the era, from memory"],
      }),
      from: (b: Bench) =>
        b.quantity("supplies.capacitorRating") ??
        (/from the line/.test(b.choice("supplies.rectifier") ?? "")
          ? { value: 150, spread: exact, origin: "assumed", source: "usual in a transformerless set, common practice, no source" }
          : undefined),
    },
    measuredFirst: readAtSupply("measuredFirst", {
      dimension: "voltage",
      min: 0,
      max: 1500,
      meaning: `B+ measured ${nodes.first.at}`,
      howMeasured: "clip the meter on with the set off and discharged, stand clear, switch on",
    }),
    measuredHeater: readAtSupply("measuredHeater", {
      dimension: "voltage",
      min: 0,
      max: 130,
      meaning: "heater volts measured with all tubes in",
      howMeasured: "AC range, at a socket",
    }),
    heaterRated: ofSupply("heaterRated", {
      dimension: "voltage",
      positive: true,
      max: 130,
      meaning: "rated heater volts",
      howMeasured: "tube manual",
      assumed: [6.3, exact, "the usual parallel heaters"],
    }),
  },
  first: ["lineVoltage", "secondaryVoltage", "rectifierType", "measuredFirst", "measuredHeater"],
  results: {
    bPlusFirst: { dimension: "voltage", known: 0.5, meaning: `B+ ${nodes.first.at}`, gives: "supply.bPlusFirst" },
    bPlusSecond: { dimension: "voltage", known: 0.5, meaning: `B+ ${nodes.second.at}` },
    bPlusThird: { dimension: "voltage", known: 0.5, meaning: `B+ ${nodes.third.at}` },
    rippleFirst: { dimension: "voltage", known: 0.5, meaning: `ripple ${nodes.first.at}, peak to peak` },
    rippleLast: {
      dimension: "voltage",
      known: 1e-4,
      meaning: `ripple ${nodes.third.at}, rms of its fundamental`,
      gives: "supply.rippleLast",
    },
    rectifierPeak: { dimension: "current", known: 1e-3, meaning: "peak current through one plate" },
    rectifierRms: { dimension: "current", known: 1e-3, meaning: "rms current through one plate" },
    windingHeat: { dimension: "power", known: 0.05, meaning: "heat in the windings from the B+ side" },
    inverse: { dimension: "voltage", known: 0.5, meaning: "peak inverse of one diode at the highest line" },
    noLoad: { dimension: "voltage", known: 0.5, meaning: "B+ with nothing drawn at the highest line", gives: "supply.noLoad" },
    inrush: { dimension: "current", known: 1e-3, meaning: "largest current that silicon can draw on the first half cycle" },
    siliconFirst: { dimension: "voltage", known: 0.5, meaning: `B+ ${nodes.first.at} with silicon` },
    siliconRise: {
      dimension: "voltage",
      known: 0.5,
      meaning: "rise of B+ from tube to silicon, with what the tubes draw at the higher volts",
    },
    siliconKept: {
      dimension: "voltage",
      known: 0.5,
      meaning: `B+ left ${nodes.first.at} with silicon and a resistor after it`,
    },
    restoringPerPlate: {
      dimension: "resistance",
      known: 5,
      meaning: "resistor in each plate lead (of a bridge once, in the AC lead) that brings silicon's B+ back to the tube's",
    },
    restoringDc: {
      dimension: "resistance",
      known: 5,
      meaning:
        "single resistor after the first filter capacitor that brings B+ back to the tube's; the capacitor itself stays nearly as high as with silicon",
    },
    restoringPower: { dimension: "power", known: 0.05, meaning: "heat in each resistor that restores B+" },
    criticalChoke: { dimension: "inductance", known: 0.1, meaning: "choke below which choke input turns into capacitor input" },
  },
  key: ["bPlusFirst", "bPlusSecond", "noLoad"],
  curves: {
    firstByLine: { x: "voltage", y: "voltage", meaning: `${nodes.first.label} against line` },
    secondByLine: { x: "voltage", y: "voltage", meaning: `${nodes.second.label}, against line` },
    thirdByLine: { x: "voltage", y: "voltage", meaning: `${nodes.third.label}, against line` },
    firstByLoad: { x: "current", y: "voltage", meaning: `${nodes.first.label} against load` },
    secondByLoad: { x: "current", y: "voltage", meaning: `${nodes.second.label}, against load` },
    thirdByLoad: { x: "current", y: "voltage", meaning: `${nodes.third.label}, against load` },
  },
  prepare: (best) => {
    const b = best as BPlusInputs;
    const d = described(b);
    const base = baseOf(b);
    const count = 13;
    const total = b.plateCurrent + b.restCurrent;
    const lineAxis = Float64Array.from({ length: count }, (_, i) => b.ratedLine * (0.8 + (0.35 * i) / (count - 1)));
    const loadAxis = Float64Array.from({ length: count }, (_, i) => (total * 1.6 * i) / (count - 1));
    const held = (a: number) => {
      const t = total > 0 ? a / total : 0;
      return [t * b.plateCurrent, t * b.restCurrent] as const;
    };
    const byLine = Array.from(lineAxis, (lineV) => d && solveChanged(d, { lineV }, base?.solved)?.volts);
    const byLoad = Array.from(loadAxis, (a) => d && solveChanged(d, { held: held(a) }, base?.solved)?.volts);
    // the curves' own solutions are taken once; a draw moves them by what it moves at the set's own line and load
    const scale = (into: Float64Array, from: readonly (readonly number[] | undefined)[], node: number, volts: number): void => {
      const times = volts / (base?.solved.volts[node] ?? Number.NaN);
      for (let i = 0; i < into.length; i++) into[i] = (from[i]?.[node] ?? Number.NaN) * times;
    };
    return {
      axes: {
        firstByLine: lineAxis,
        secondByLine: lineAxis,
        thirdByLine: lineAxis,
        firstByLoad: loadAxis,
        secondByLoad: loadAxis,
        thirdByLoad: loadAxis,
      },
      solve: (plain, into) => {
        const { volts, results } = solveDraw(plain as BPlusInputs, base);
        const v = volts ?? { first: Number.NaN, second: Number.NaN, third: Number.NaN };
        scale(into.firstByLine, byLine, firstNode(b), v.first);
        scale(into.secondByLine, byLine, 1, v.second);
        scale(into.thirdByLine, byLine, 2, v.third);
        scale(into.firstByLoad, byLoad, firstNode(b), v.first);
        scale(into.secondByLoad, byLoad, 1, v.second);
        scale(into.thirdByLoad, byLoad, 2, v.third);
        return results;
      },
    };
  },
  headline: (g) => bPlusHeadline(g as unknown as G),
  findings: (g) => bPlusFindings(g as unknown as G) as never,
  parts: (g) => bPlusParts(g as unknown as G),
  figures: [
    {
      id: "line",
      title: "B+ against line voltage",
      xLabel: "line voltage",
      yLabel: "DC volts",
      traces: threeTraces("Line"),
      yFrom: 0,
    },
    {
      id: "load",
      title: "B+ against load",
      xLabel: "current drawn",
      yLabel: "DC volts",
      traces: threeTraces("Load"),
      yFrom: 0,
    },
  ],
  theory,
});
