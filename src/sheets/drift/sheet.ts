import { sheet } from "../../ask/contract";
import { inside, practice } from "../../ask/declare";
import { quantity, rows } from "../../ask/in-short";
import { circuitTcf, compensatedTcf, compensatorF, fixedFor } from "../../physics/temperature";
import { logIssues } from "../../readings/drift-log";
import type { Row } from "../../set/columns";
import { printValue } from "../../units/print";
import { findingsOf } from "./findings";
import { markingRows } from "./pairs";
import { preparedDrift } from "./prepared";
import { type DriftInputs, fitOf, type G, logOf, perKelvinOf, steadyWhy } from "./solve";
import theory from "./theory.md";

const example: Row[] = Array.from({ length: 31 }, (_, i) => ({
  time: i * 180,
  frequency: Math.round(7.1e6 + 600 * Math.exp(-i / 2) + 1500 * Math.exp(-i / 10) + 4 * Math.sin(i * 2.4)),
  temperature: Number.NaN,
  line: Number.NaN,
  room: Number.NaN,
}));

export const drift = sheet({
  id: "drift",
  version: 3,
  title: "Warm-up drift",
  question: "When is the set warm enough to use, what makes it drift, and which capacitor would stop it?",
  subject: "set",
  joins: false,
  works: "open-dead",
  steps: ["17", "30"],
  inputs: {
    driftLog: rows(
      {
        time: { dimension: "time", meaning: "time since switching on", bare: "min" },
        frequency: { dimension: "frequency", meaning: "what is received, or the oscillator" },
        temperature: { dimension: "temperature", meaning: "temperature by the oscillator", optional: true, bare: "°C" },
        line: { dimension: "voltage", meaning: "line volts", optional: true, bare: "V" },
        room: { dimension: "temperature", meaning: "temperature of the room", optional: true, bare: "°C" },
      },
      "log of a frequency from a cold start",
      "counter loosely coupled to the oscillator, or the beat with a marker, each minute or two for an hour and a half; cover on",
      { example, mostRows: 3000 },
    ),
    oscillatorFrequency: quantity(
      "frequency",
      "oscillator's frequency where the log was taken",
      "dial and IF, above or below",
      [7.555e6, 0, "an example"],
      {
        max: 200e6,
      },
    ),
    minuteLimit: quantity("frequency", "drift in a minute that may still be", "chosen", [100, 0, practice], { max: 1e5 }),
    warmUp: quantity("time", "warm-up that is to be judged", "chosen", [1800, 0, "half an hour"], { min: 0, max: 86400 }),
    temperatureRise: quantity(
      "temperature",
      "degrees that the set warms by at the oscillator, cold to warm",
      "thermometer inside, cover on; the log's own column is taken where it was written",
      [20, 5, practice],
      { max: 150 },
    ),
    gangNow: quantity(
      "capacitance",
      "gang's capacitance where the log was taken",
      "the sheet on tracking, or a bridge, power off and discharged",
      [100e-12, 20e-12, practice],
      {
        max: 2e-9,
      },
    ),
    fixedCapacitance: quantity(
      "capacitance",
      "what else is across the coil: trimmer, fixed, strays",
      "the sheet on tracking",
      [80e-12, 15e-12, practice],
      {
        max: 5e-9,
      },
    ),
    gangEnd: quantity(
      "capacitance",
      "gang's capacitance at another place of the dial, to look at as well",
      "its end",
      [15e-12, 3e-12, practice],
      {
        max: 2e-9,
      },
    ),
    coilCoefficient: quantity("ppm", "coil's own coefficient, per kelvin", "solid formers 10 to 100 ppm", [6e-5, 3e-5, practice], {
      min: -1e-3,
      max: 1e-3,
    }),
    gangCoefficient: quantity("ppm", "gang's own coefficient, per kelvin", "air, 10 to 50 ppm", [2e-5, 1e-5, practice], {
      min: -1e-3,
      max: 1e-3,
    }),
    compensator: quantity(
      "ppm",
      "coefficient of the capacitor to try, as a positive number: N750 is 750 ppm",
      "its marking",
      [7.5e-4, 0, "N750"],
      {
        max: 5e-3,
      },
    ),
    replacedCoefficient: quantity(
      "ppm",
      "temperature coefficient of the capacitor that the compensator replaces; NP0 is 0",
      "its marking",
      [0, 3e-5, "NP0, 30 ppm"],
      {
        min: -1e-3,
        max: 2e-3,
      },
    ),
  },
  observed: ["driftLog"],
  readAt: inside,
  first: ["minuteLimit", "warmUp", "oscillatorFrequency", "temperatureRise", "fixedCapacitance"],
  results: {
    inLog: { dimension: "frequency", meaning: "drift within the log, first reading to last", known: 10 },
    atEnd: { dimension: "frequency", meaning: "drift per minute at the end of the log" },
    whole: { dimension: "frequency", meaning: "drift from the first reading to the end" },
    left: { dimension: "frequency", meaning: "part of the whole drift still to come after the warm-up" },
    fitAfter: { dimension: "time", meaning: "time after which the set drifts no more than the limit in a minute" },
    slow: { dimension: "time", meaning: "slow time constant" },
    fast: { dimension: "time", meaning: "fast time constant" },
    byLine: { dimension: "frequency", meaning: "shift for 1 % of line voltage" },
    perKelvin: { dimension: "ppm", meaning: "drift per kelvin, of the oscillator's frequency" },
    needed: {
      dimension: "capacitance",
      meaning: "capacitor of the compensator's coefficient that stops the drift here, in place of as much of the replaced one",
    },
    otherEnd: { dimension: "ppm", meaning: "drift per kelvin left at the second place of the dial, compensated" },
    miss: { dimension: "frequency", meaning: "scatter of the readings about the fit, rms", known: 0.1 },
  },
  key: ["fitAfter", "left", "needed"],
  curves: {
    log: { x: "time", y: "frequency", meaning: "readings, less the last" },
    fit: { x: "time", y: "frequency", meaning: "fit, less the last reading" },
  },
  prepare: (best, points, chance) => {
    const b = best as unknown as DriftInputs;
    const blank = { axes: { log: new Float64Array(1), fit: new Float64Array(1) }, solve: () => ({}) as never };
    const wrong = logIssues(logOf(b), "driftLog");
    const cool = b.driftLog.findIndex((r) => r.temperature < -60 || r.temperature > 200);
    if (wrong.length === 0 && cool >= 0)
      wrong.push({
        path: `driftLog row ${cool + 1}`,
        code: "out-of-range",
        read: String(b.driftLog[cool].temperature),
        expected: "-60 to 200 °C",
      });
    const read = wrong.length > 0 ? undefined : fitOf(b);
    if (!read?.ok)
      return { ...blank, issues: wrong.length > 0 ? wrong : read && !read.ok ? read.issues.map((i) => ({ ...i, path: "driftLog" })) : [] };
    return preparedDrift(b, read.value, points, chance);
  },
  headline: (ground) => {
    const g = ground as unknown as G;
    if (g.figures.perKelvin.why === steadyWhy) return "It is steady: over the whole log its drift is lost in the scatter of the readings.";
    const use =
      g.figures.fitAfter.low === null ? "It is not ready to use within this log" : `It is ready to use after ${g.about("fitAfter")}`;
    if (g.figures.whole.low === null)
      return g.figures.atEnd.low === null
        ? `No end value: ${g.figures.whole.why}.`
        : `${use}; at its end it still drifts ${g.about("atEnd")} a minute. Where that ends can't be told.`;
    return `${use}; ${printValue(g.best.warmUp, "time")} after switching on ${g.about("left")} of ${g.about("whole")} is still to come.`;
  },
  findings: (ground) => findingsOf(ground as unknown as G) as never,
  tables: (best) => {
    const x = best as unknown as DriftInputs;
    const read = fitOf(x);
    if (!read.ok || read.value.fit.steady || !(x.compensator + x.replacedCoefficient > 0)) return [];
    const perKelvin = perKelvinOf(x, read.value.told.middle, read.value);
    if (typeof perKelvin !== "number") return [];
    const whole = x.gangNow + x.fixedCapacitance;
    const needed = compensatorF(perKelvin, whole, x.compensator, x.replacedCoefficient);
    if (!(needed > 0)) return [];
    const parts = { fixedF: x.fixedCapacitance, coilPerK: x.coilCoefficient, gangPerK: x.gangCoefficient };
    const circuit = { ...parts, fixedPerK: fixedFor(perKelvin, parts, x.gangNow) };
    const ppm = (name: string) => ({ name, dimension: "ppm" as const, u: 5e-7 });
    return [
      {
        id: "places",
        title: "Drift per kelvin over the gang, as it is and with the compensator",
        columns: [{ name: "gang", dimension: "capacitance" }, ppm("as it is"), ppm("compensated")],
        rows: [x.gangEnd, x.gangNow / 2, x.gangNow, x.gangNow * 2, x.gangNow * 3.5].map((g) => [
          g,
          circuitTcf(circuit, g),
          compensatedTcf({ ...circuit, fixedPerK: x.replacedCoefficient }, g, needed, x.compensator) -
            circuitTcf({ ...circuit, fixedPerK: x.replacedCoefficient }, g) +
            circuitTcf(circuit, g),
        ]),
      },
      {
        id: "marks",
        title: "What other markings would take, in place of as much of the other",
        columns: [
          { name: "marking", dimension: "ratio" },
          { name: "capacitor", dimension: "capacitance", u: needed / 50 },
          { name: "as standard values", dimension: "capacitance" },
          { name: "and beside it", dimension: "capacitance" },
          ppm("then left"),
        ],
        rows: markingRows(perKelvin, whole, x.replacedCoefficient),
      },
    ];
  },
  figures: [
    {
      id: "log",
      title: "The log and its fit, less the last reading",
      xLabel: "since switching on",
      yLabel: "frequency",
      traces: [
        { label: "readings", curve: "log", stroke: "ink" },
        { label: "fit", curve: "fit", stroke: "accent", dash: true },
      ],
    },
  ],
  theory,
});
