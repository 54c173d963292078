import type { ChartRow } from "../inputs/chart";

/**
 * What a node may have in ohms where nobody wrote it down, by what it is: what feeds it, with the tube in parallel where that is always so.
 * Common practice, no source.
 */
type Range = readonly [least: number, most: number];
const anyOhm: Range = [0, 2.2e6];
const bounds: Readonly<Partial<Record<ChartRow["electrode"], Partial<Record<ChartRow["duty"], Range>> & { readonly any: Range }>>> = {
  // on a winding or a filter: no meter loads them
  heater: { any: [0, 0] },
  "B+": { any: [0, 0] },
  // a cathode resistor with the tube's own 1/gm beside it
  cathode: { any: [0, 5e3], "RF or IF": [0, 1e3], output: [0, 1e3] },
  // from a winding to a plate load
  plate: { any: [0, 470e3], "RF or IF": [0, 22e3], oscillator: [0, 100e3], audio: [0, 470e3], output: [0, 5e3] },
  // a dropper or a divider
  screen: { any: [0, 470e3], "RF or IF": [0, 220e3], audio: [0, 1.5e6], output: [0, 10e3] },
  grid: { any: anyOhm, output: [0, 1e6] },
  AVC: { any: anyOhm },
};
/**
 * Resistances, ohm, that a node is tried with: the one that is known, or six from the least to the most that it may have.
 *
 * @source common practice, no source
 */
export function triedOhms(r: Pick<ChartRow, "electrode" | "duty" | "source">): readonly number[] {
  if (r.source !== undefined && r.source >= 0) return [r.source];
  const own = bounds[r.electrode];
  const [least, most] = own?.[r.duty] ?? own?.any ?? anyOhm;
  if (most === 0) return [0];
  return [least, ...[0.01, 0.04, 0.15, 0.4, 1].map((part) => part * most)];
}
/** Volts that no node of a receiver exceeds where the chart does not say its B+. Common practice, no source. */
const mostBPlusV = 500;
/**
 * Volts that a sound node does not exceed: grids and AVC have bias, cathodes little more, all else is fed from B+.
 *
 * @source common practice, no source
 */
export function mostVolts(r: Pick<ChartRow, "electrode" | "chart">, chartBPlusV: number | undefined): number {
  const own = Math.abs(r.chart ?? 0);
  if (r.electrode === "grid" || r.electrode === "AVC") return Math.max(100, 1.5 * own);
  if (r.electrode === "cathode") return Math.max(60, 1.5 * own);
  return Math.max(chartBPlusV === undefined ? mostBPlusV : 1.1 * chartBPlusV, own);
}
