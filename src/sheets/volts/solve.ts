import { meterReads, nodeVolts } from "../../physics/meter-load";
import { meterOhm, meterShareOf, rangeFor } from "../../standards/meters";
import { electrodes } from "../chart-inputs";
import type { Row } from "../contract";

export interface VoltsInputs {
  readonly chart: readonly Row[];
  readonly resistances: readonly Row[];
  readonly chartMeter: string;
  readonly meter: string;
  readonly chartLine: number;
  readonly lineVoltage: number;
  readonly supplyTolerance: number;
  readonly partTolerance: number;
  readonly tubeTolerance: number;
}
export type Verdict = "as it should be" | "low" | "high" | "of the wrong sign" | "cannot judge";
export interface Judged {
  readonly row: number;
  readonly socket: number;
  readonly pin: number;
  readonly electrode: (typeof electrodes)[number];
  readonly chart: number;
  readonly measured: number;
  /** what a sound node would read on this meter at this line, V; between two where its resistance is not known */
  readonly low: number;
  readonly high: number;
  /** relative */
  readonly tolerance: number;
  readonly verdict: Verdict;
}
/** Node resistances that a node of unknown resistance is tried with, ohm: none to that of an AVC line. */
const unknownOhm = [0, 33e3, 100e3, 330e3, 1e6, 2.2e6] as const;

/** Tolerance of a node by what it is: common practice, no source. */
const toleranceOf = (x: VoltsInputs, electrode: (typeof electrodes)[number]): number =>
  electrode === "heater" || electrode === "B+"
    ? x.supplyTolerance
    : electrode === "cathode" || electrode === "grid" || electrode === "AVC"
      ? x.tubeTolerance
      : x.partTolerance;

/** What a sound node reads on this meter at today's line, by its resistance. */
export function expectedReading(x: VoltsInputs, chartV: number, nodeOhm: number, rangeV?: number): number {
  const own = nodeVolts(chartV, nodeOhm, meterOhm(x.chartMeter, chartV));
  const now = (own * x.lineVoltage) / x.chartLine;
  return meterReads(now, nodeOhm, meterOhm(x.meter, now, rangeV));
}

/**
 * Every row of the chart, judged as this meter sees it.
 *
 * @param x inputs, SI
 * @returns one a row that has both a chart value and a reading
 * @source Thevenin, both ways; line scaling proportional, common practice
 */
export function judgeChart(x: VoltsInputs): Judged[] {
  return x.chart.flatMap((r, i) => {
    if (!Number.isFinite(r.chart) || !Number.isFinite(r.measured)) return [];
    const electrode = electrodes[r.electrode];
    // heaters and B+ stand on a winding or a filter: no meter loads them
    const stiff = electrode === "heater" || electrode === "B+";
    const known = Number.isFinite(r.source) ? [r.source] : stiff ? [0] : unknownOhm;
    const expected = known.map((ohm) => expectedReading(x, r.chart, ohm, Number.isFinite(r.range) ? r.range : rangeFor(r.measured)));
    const tolerance = Math.hypot(toleranceOf(x, electrode), 2 * meterShareOf(x.meter), 2 * meterShareOf(x.chartMeter));
    // a figure near nothing is judged in tenths of a volt, not in percent
    const band = (v: number): number => Math.max(tolerance * Math.abs(v), 0.2);
    const each = expected.map(
      (v): Verdict => (Math.abs(r.measured - v) <= band(v) ? "as it should be" : Math.abs(r.measured) > Math.abs(v) ? "high" : "low"),
    );
    const verdict = each.every((v) => v === each[0]) ? each[0] : "cannot judge";
    return [
      {
        row: i + 1,
        socket: r.socket,
        pin: r.pin,
        electrode,
        chart: r.chart,
        measured: r.measured,
        low: Math.min(...expected),
        high: Math.max(...expected),
        tolerance,
        verdict,
      },
    ];
  });
}

/** The resistance chart, 20 % either way. In the circuit a part never reads more than it is: other paths only lower it. Common practice, no source. */
export const judgeResistances = (x: VoltsInputs) =>
  x.resistances.map((r, i) => ({
    row: i + 1,
    socket: r.socket,
    pin: r.pin,
    chart: r.chart,
    measured: r.measured,
    verdict: (Math.abs(r.measured - r.chart) <= Math.max(0.2 * r.chart, 2)
      ? "as it should be"
      : r.measured > r.chart
        ? "high"
        : "low") as Verdict,
  }));
