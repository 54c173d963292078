import { answers } from "../../ask/declare";
import type { Table } from "../../ask/drawings";
import { circuitTcf, compensatedTcf, compensatorF } from "../../physics/temperature";
import { orThrow } from "../../units/issue";
import { type Asked, ask } from "./ask";
import { drawingOf } from "./drawing";
import { drawsOf } from "./draws";
import { findingsOf, headlineOf } from "./findings";
import { markingRows } from "./pairs";
import { circuitOf, movesBy, toldBy } from "./solve";
import theory from "./theory.md";

export const drift = answers(ask, {
  theory,
  refuse: (x) => {
    const read = toldBy(x.driftLog);
    return read.ok ? undefined : read.issues;
  },
  prepare: ({ driftLog }, points, chance) => drawsOf(driftLog, orThrow(toldBy(driftLog)), points, chance),
  drawing: drawingOf,
  headline: headlineOf,
  findings: findingsOf,
  tables: tablesOf,
});

/** The drift over the gang with and without the compensator, and other markings: none where there is nothing to compensate. */
function tablesOf(x: Asked): readonly Table[] {
  const read = toldBy(x.driftLog);
  if (!read.ok || read.value.fit.steady || !(x.compensator + x.replacedCoefficient > 0)) return [];
  const { perKelvin } = movesBy(x.driftLog, read.value)(x, read.value.told.middle);
  if (typeof perKelvin !== "number") return [];
  const whole = x.gangNow + x.fixedCapacitance;
  const needed = compensatorF(perKelvin, whole, x.compensator, x.replacedCoefficient);
  if (!(needed > 0)) return [];
  const circuit = circuitOf(x, perKelvin);
  // the compensator takes the place of the replaced one, whatever the rest of the fixed capacitors is
  const replaced = { ...circuit, fixedPerK: x.replacedCoefficient };
  const compensated = (gangF: number): number =>
    compensatedTcf(replaced, gangF, needed, x.compensator) - circuitTcf(replaced, gangF) + circuitTcf(circuit, gangF);
  const ppm = (name: string) => ({ name, dimension: "ppm", u: 5e-7 }) as const;
  return [
    {
      id: "places",
      title: "Drift per kelvin over the gang, as it is and with the compensator",
      columns: [{ name: "gang", dimension: "capacitance" }, ppm("as it is"), ppm("compensated")],
      rows: [x.gangEnd, x.gangNow / 2, x.gangNow, x.gangNow * 2, x.gangNow * 3.5].map((g) => [g, circuitTcf(circuit, g), compensated(g)]),
    },
    {
      id: "marks",
      title: "What other markings would take, each in place of an equal part of the old capacitor",
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
}
