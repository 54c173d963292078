import { declare, type GroundOf, type InputsOf, type PutOf } from "../../ask/declare";
import { stored } from "../../ask/stored";
import { supplies } from "../../set/addresses/power";
import { supplyTests } from "../../set/addresses/supply-tests";
import { supplyInputs, withoutTransformer } from "../inputs/supply";
import { readFirst } from "../inputs/supply-chart";
import { nodes } from "../inputs/supply-law";

const threeTraces = (by: "Line" | "Load") =>
  [
    { label: nodes.first.label, curve: `firstBy${by}`, stroke: "ink", band: true },
    { label: nodes.second.label, curve: `secondBy${by}`, stroke: "faint" },
    { label: nodes.third.label, curve: `thirdBy${by}`, stroke: "accent" },
  ] as const;

export const ask = declare({
  id: "b-plus",
  version: 2,
  title: "What the supply should give",
  question: "What should B+ be at this line and load, and what does the measured one tell me?",
  found: {
    when: ["dead", "weak", "noisy"],
    words: "low b+ high b+ ht no plate voltage rectifier hum ripple sag supply line choke silicon",
  },
  subject: "set",
  joins: false,
  works: "open-live",
  place: ["b-plus", "line", "stored-charge"],
  draws: ["circuit"],
  steps: ["09", "08", "04"],
  inputs: {
    ...supplyInputs,
    capacitorRating: stored(supplies.capacitorRating, { from: withoutTransformer(150) }),
    measuredFirst: stored(supplies.measuredFirst, { optional: true, reading: true, from: readFirst }),
    tests: stored(supplyTests.tests, { none: "none made yet" }),
    measuredHeater: stored(supplies.measuredHeater, { optional: true, reading: true }),
    heaterRated: stored(supplies.heaterRated),
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
    inverse: { dimension: "voltage", known: 0.5, meaning: "peak inverse voltage across one diode at the highest line" },
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
      meaning: "resistor in each plate lead (for a bridge only one, in the AC lead) that brings silicon's B+ back to the tube's",
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
    readAtLine: { x: "voltage", y: "voltage", meaning: `${nodes.first.label}, measured, at today's line` },
    readAtLoad: { x: "current", y: "voltage", meaning: `${nodes.first.label}, measured, at what the tubes should draw` },
    firstByLoad: { x: "current", y: "voltage", meaning: `${nodes.first.label} against load` },
    secondByLoad: { x: "current", y: "voltage", meaning: `${nodes.second.label}, against load` },
    thirdByLoad: { x: "current", y: "voltage", meaning: `${nodes.third.label}, against load` },
  },
  figures: [
    {
      id: "line",
      title: "B+ against line voltage",
      xLabel: "line voltage",
      yLabel: "DC volts",
      traces: [...threeTraces("Line"), { label: "measured", curve: "readAtLine", stroke: "ink", points: true }],
      marks: [{ at: "lineVoltage", label: "today's line" }],
      yFrom: 0,
    },
    {
      id: "load",
      title: "B+ against load",
      xLabel: "current drawn",
      yLabel: "DC volts",
      traces: [...threeTraces("Load"), { label: "measured", curve: "readAtLoad", stroke: "ink", points: true }],
      yFrom: 0,
    },
  ],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
