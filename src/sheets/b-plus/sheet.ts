import type { Bench } from "../../set/bench";
import { exact, tolerance } from "../../units/quantity";
import { sheet } from "../contract";
import {
  arrangementInput,
  highLineInput,
  lineFrequencyInput,
  lineVoltageInput,
  ofSupply,
  originalTypeInput,
  ratedLineInput,
  rectifierCurrentInput,
  rectifierDropInput,
  rectifierTypeInput,
  secondaryInput,
} from "../supply-inputs";
import { bPlusFindings, bPlusHeadline, bPlusParts, type G } from "./findings";
import { asMade, type BPlusInputs, crestV, firstNode, inverseV, restoringOhm, solveChanged, supplyOf } from "./solve";
import theory from "./theory.md";

const usual = "usual for a set of this class";
const none = { none: "the supply can't give this load" };

/** A figure of the supply; a transformerless set has `without` where nothing is known. */
const fromWinding = (name: string, without: number, own: Parameters<typeof ofSupply>[1]) => {
  const kept = ofSupply(name, own);
  return {
    ...kept,
    from: (b: Bench) =>
      kept.from(b) ??
      (/from the line/.test(b.choice("supplies.rectifier") ?? "")
        ? ({
            value: without,
            spread: exact,
            origin: "assumed",
            source: "usual in a transformerless set, common practice, no source",
          } as const)
        : undefined),
  };
};

export const bPlus = sheet({
  id: "b-plus",
  version: 1,
  title: "What the supply should give",
  question: "What should B+ be at this line and load, and what does a measured one mean?",
  subject: "set",
  joins: false,
  works: "open-live",
  steps: ["09", "08", "04"],
  inputs: {
    arrangement: arrangementInput,
    rectifierType: rectifierTypeInput,
    originalRectifier: originalTypeInput,
    rectifierDrop: rectifierDropInput,
    rectifierCurrent: rectifierCurrentInput,
    lineVoltage: lineVoltageInput,
    ratedLine: ratedLineInput,
    lineFrequency: lineFrequencyInput,
    highLine: highLineInput,
    secondaryVoltage: secondaryInput,
    secondaryResistance: fromWinding("secondaryResistance", 30, {
      dimension: "resistance",
      positive: true,
      max: 5000,
      meaning: "DC resistance of the half that one plate sees; in a transformerless set the surge resistor",
      howMeasured: "ohmmeter, plug out, discharged",
      assumed: [120, tolerance(40), usual],
    }),
    primaryResistance: fromWinding("primaryResistance", 0, {
      dimension: "resistance",
      min: 0,
      max: 200,
      meaning: "DC resistance of the primary; 0 in a transformerless set",
      howMeasured: "ohmmeter, plug out",
      assumed: [5, tolerance(2), usual],
    }),
    addedResistance: ofSupply("addedResistance", {
      dimension: "resistance",
      min: 0,
      max: 5000,
      meaning: "surge resistor in series with each plate",
      howMeasured: "look for it; ohmmeter",
      assumed: [0, exact, "none assumed"],
    }),
    filterInput: {
      kind: "choice",
      options: ["capacitor", "choke"],
      meaning: "what the rectifier meets first",
      howMeasured: "service sheet, or trace it",
      from: (b) => b.choice("supplies.filterInput"),
      assumed: "capacitor",
      keptAt: "supplies.filterInput",
    },
    firstCapacitance: fromWinding("firstCapacitance", 4e-5, {
      dimension: "capacitance",
      positive: true,
      max: 2e-3,
      meaning: "first filter capacitor",
      howMeasured: "its marking, then a bridge",
      assumed: [20e-6, tolerance(4e-6), usual],
    }),
    firstChoke: fromWinding("firstChoke", 0, {
      dimension: "inductance",
      min: 0,
      max: 100,
      meaning: "first choke, or speaker field; 0 for a resistor",
      howMeasured: "service sheet",
      assumed: [8, tolerance(2), usual],
    }),
    firstResistance: fromWinding("firstResistance", 200, {
      dimension: "resistance",
      positive: true,
      max: 20e3,
      meaning: "resistance of the first choke, field or resistor",
      howMeasured: "ohmmeter, plug out, discharged",
      assumed: [250, tolerance(60), usual],
    }),
    secondCapacitance: fromWinding("secondCapacitance", 4e-5, {
      dimension: "capacitance",
      positive: true,
      max: 2e-3,
      meaning: "second filter capacitor",
      howMeasured: "its marking, then a bridge",
      assumed: [20e-6, tolerance(4e-6), usual],
    }),
    secondChoke: ofSupply("secondChoke", {
      dimension: "inductance",
      min: 0,
      max: 100,
      meaning: "second choke; 0 for a resistor",
      howMeasured: "service sheet",
      assumed: [0, exact, "a resistor assumed"],
    }),
    secondResistance: fromWinding("secondResistance", 1000, {
      dimension: "resistance",
      positive: true,
      max: 100e3,
      meaning: "resistance of the second choke or resistor",
      howMeasured: "ohmmeter, plug out, discharged",
      assumed: [1500, tolerance(300), usual],
    }),
    thirdCapacitance: ofSupply("thirdCapacitance", {
      dimension: "capacitance",
      positive: true,
      max: 2e-3,
      meaning: "third filter capacitor",
      howMeasured: "its marking, then a bridge",
      assumed: [10e-6, tolerance(2e-6), usual],
    }),
    plateCurrent: fromWinding("plateCurrent", 0.04, {
      dimension: "current",
      min: 0,
      max: 1,
      meaning: "drawn after the first section: the output tube",
      howMeasured: "volts over its cathode resistor, by Ohm's law; tube manual",
      assumed: [0.045, tolerance(0.008), usual],
    }),
    restCurrent: fromWinding("restCurrent", 0.014, {
      dimension: "current",
      min: 0,
      max: 1,
      meaning: "drawn after the second section: all other tubes",
      howMeasured: "volts over the second section's resistor, by Ohm's law",
      assumed: [0.035, tolerance(0.008), usual],
    }),
    bleeder: ofSupply("bleeder", {
      dimension: "resistance",
      positive: true,
      meaning: "bleeder and dividers after the second section",
      howMeasured: "ohmmeter, plug out, discharged, reading settled",
      assumed: [50e3, tolerance(20e3), usual],
    }),
    capacitorRating: fromWinding("capacitorRating", 150, {
      dimension: "voltage",
      positive: true,
      max: 2000,
      meaning: "working voltage of the filter capacitors",
      howMeasured: "their marking",
      assumed: [450, exact, "usual of the era, from memory"],
    }),
    measuredFirst: ofSupply("measuredFirst", {
      dimension: "voltage",
      min: 0,
      max: 1500,
      meaning: "B+ measured on the first filter capacitor; 0 for not measured",
      howMeasured: "clip the meter on with the set off and discharged, stand clear, switch on",
      assumed: [0, exact, "not measured"],
    }),
    measuredHeater: ofSupply("measuredHeater", {
      dimension: "voltage",
      min: 0,
      max: 130,
      meaning: "heater volts measured with all tubes in; 0 for not measured",
      howMeasured: "AC range, at a socket",
      assumed: [0, exact, "not measured"],
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
    bPlusFirst: { dimension: "voltage", known: 0.5, meaning: "B+ on the first filter capacitor" },
    bPlusSecond: { dimension: "voltage", known: 0.5, meaning: "B+ after the first section" },
    bPlusThird: { dimension: "voltage", known: 0.5, meaning: "B+ after the second section" },
    rippleFirst: { dimension: "voltage", known: 0.5, meaning: "ripple on the first capacitor, peak to peak" },
    rippleLast: { dimension: "voltage", known: 1e-4, meaning: "ripple after the second section, rms of its fundamental" },
    rectifierPeak: { dimension: "current", known: 1e-3, meaning: "peak current through one plate" },
    rectifierRms: { dimension: "current", known: 1e-3, meaning: "rms current through one plate" },
    windingHeat: { dimension: "power", known: 0.05, meaning: "heat in the windings from the B+ side" },
    inverse: { dimension: "voltage", known: 0.5, meaning: "peak inverse of one diode at the highest line" },
    noLoad: { dimension: "voltage", known: 0.5, meaning: "B+ with nothing drawn at the highest line" },
    inrush: { dimension: "current", known: 1e-3, meaning: "most that silicon can draw on the first half cycle" },
    siliconFirst: { dimension: "voltage", known: 0.5, meaning: "B+ on the first capacitor with silicon" },
    siliconRise: { dimension: "voltage", known: 0.5, meaning: "rise from tube to silicon" },
    restoringPerPlate: {
      dimension: "resistance",
      known: 5,
      meaning: "in each plate lead (of a bridge once, in the AC lead), to bring silicon back to the tube",
    },
    restoringDc: {
      dimension: "resistance",
      known: 5,
      meaning: "or one resistor after the first filter capacitor, which then stays as high as with silicon",
    },
    restoringPower: { dimension: "power", known: 0.05, meaning: "heat in each of those resistors" },
    criticalChoke: { dimension: "inductance", known: 0.1, meaning: "choke below which choke input turns into capacitor input" },
  },
  key: ["bPlusFirst", "bPlusSecond", "noLoad"],
  curves: {
    firstByLine: { x: "voltage", y: "voltage", meaning: "first capacitor against line" },
    thirdByLine: { x: "voltage", y: "voltage", meaning: "after the second section against line" },
    firstByLoad: { x: "current", y: "voltage", meaning: "first capacitor against load" },
    thirdByLoad: { x: "current", y: "voltage", meaning: "after the second section against load" },
  },
  prepare: (best) => {
    const b = best as BPlusInputs;
    const first = firstNode(b);
    const solved = solveChanged(b);
    const silicon = solveChanged(b, { silicon: true });
    const tube = solveChanged(...asMade(b));
    const ohm = restoringOhm(b);
    const count = 13;
    const total = b.plateCurrent + b.restCurrent;
    const lineAxis = Float64Array.from({ length: count }, (_, i) => b.ratedLine * (0.8 + (0.35 * i) / (count - 1)));
    const loadAxis = Float64Array.from({ length: count }, (_, i) => (total * 1.6 * i) / (count - 1));
    const byLine = Array.from(lineAxis, (lineV) => solveChanged(b, { lineV }, solved)?.volts);
    const byLoad = Array.from(loadAxis, (a) => solveChanged(b, { loadTimes: total > 0 ? a / total : 0 }, solved)?.volts);
    const restoredAt = (tube?.volts[first] ?? 0) > 0 ? solveChanged(b, { silicon: true, addedOhm: ohm }, silicon) : undefined;
    const meanA = (s: { plateMeanA: number }): number => s.plateMeanA * (b.arrangement === "half-wave" ? 1 : 2);
    // how the restored volts fall with the resistance: to follow it in each draw without another search
    const more = solveChanged(b, { silicon: true, addedOhm: ohm + 20 }, restoredAt);
    const slope = restoredAt && more ? (more.volts[first] - restoredAt.volts[first]) / 20 : -1;
    // the curves' own solutions are taken once; a draw moves them by what it moves at the set's own line and load
    const scale = (into: Float64Array, from: readonly (readonly number[] | undefined)[], node: number, times: number): void => {
      for (let i = 0; i < into.length; i++) into[i] = (from[i]?.[node] ?? Number.NaN) * times;
    };
    return {
      axes: { firstByLine: lineAxis, thirdByLine: lineAxis, firstByLoad: loadAxis, thirdByLoad: loadAxis },
      solve: (plain, into) => {
        const x = plain as BPlusInputs;
        const now = solveChanged(x, {}, solved);
        const other = x.rectifierType === "silicon" ? solveChanged(...asMade(x), tube) : solveChanged(x, { silicon: true }, silicon);
        if (!now || !other || !solved) {
          for (const a of Object.values(into)) a.fill(Number.NaN);
          const crest = { inverse: inverseV(x, x.highLine), noLoad: crestV(x, x.highLine) };
          return {
            bPlusFirst: none,
            bPlusSecond: none,
            bPlusThird: none,
            rippleFirst: none,
            rippleLast: none,
            rectifierPeak: none,
            rectifierRms: none,
            windingHeat: none,
            ...crest,
            inrush: none,
            siliconFirst: none,
            siliconRise: none,
            restoringPerPlate: none,
            restoringDc: none,
            restoringPower: none,
            criticalChoke: none,
          };
        }
        const withSilicon = x.rectifierType === "silicon" ? now : other;
        const withTube = x.rectifierType === "silicon" ? other : now;
        const times = now.volts.map((v, k) => v / solved.volts[k]);
        scale(into.firstByLine, byLine, first, times[first]);
        scale(into.thirdByLine, byLine, 2, times[2]);
        scale(into.firstByLoad, byLoad, first, times[first]);
        scale(into.thirdByLoad, byLoad, 2, times[2]);
        const rise = withSilicon.volts[first] - withTube.volts[first];
        const bestRise = (silicon?.volts[first] ?? 0) - (tube?.volts[first] ?? 0);
        const drawA = meanA(withTube);
        const paths = x.arrangement === "half-wave" ? 1 : 2;
        const ownOhm = supplyOf(x).sourceOhm - x.addedResistance;
        return {
          bPlusFirst: now.volts[first],
          bPlusSecond: now.volts[1],
          bPlusThird: now.volts[2],
          rippleFirst: now.ripplePp[first],
          rippleLast: now.rippleRms[2],
          rectifierPeak: now.peakA,
          rectifierRms: now.plateRmsA,
          windingHeat: paths * now.plateRmsA ** 2 * ownOhm,
          inverse: inverseV(x, x.highLine),
          noLoad: crestV(x, x.highLine),
          inrush: crestV(x, x.highLine) / supplyOf(x).sourceOhm,
          siliconFirst: withSilicon.volts[first],
          siliconRise: rise,
          restoringPerPlate: Math.max(0, ohm - (rise - bestRise) / slope),
          restoringDc: drawA > 1e-4 ? rise / drawA : { none: "nothing is drawn" },
          restoringPower:
            (x.arrangement === "bridge" ? 2 : 1) * (restoredAt?.plateRmsA ?? 0) ** 2 * Math.max(0, ohm - (rise - bestRise) / slope),
          criticalChoke:
            x.filterInput === "choke"
              ? (0.9 * supplyOf(x).plateV) / Math.max(1e-4, meanA(now)) / (6 * Math.PI * x.lineFrequency)
              : { none: "the filter begins with a capacitor" },
        };
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
      traces: [
        { label: "first capacitor", curve: "firstByLine", stroke: "ink", band: true },
        { label: "after the filter", curve: "thirdByLine", stroke: "accent" },
      ],
      yFrom: 0,
    },
    {
      id: "load",
      title: "B+ against load",
      xLabel: "current drawn",
      yLabel: "DC volts",
      traces: [
        { label: "first capacitor", curve: "firstByLoad", stroke: "ink", band: true },
        { label: "after the filter", curve: "thirdByLoad", stroke: "accent" },
      ],
      yFrom: 0,
    },
  ],
  theory,
});
