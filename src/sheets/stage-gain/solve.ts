import type { Chance } from "../../ask/contract";
import type { ResultsOf } from "../../ask/declare";
import type { NoValue } from "../../ask/results";
import { gain } from "../../set/addresses/gain";
import type { Asked, ask } from "./ask";

/** Points of injection from the output back to the antenna. */
export const points = gain.injected.columns.point.options;
/** Decibels of a ratio of volts. Source: identity. */
export const dbOf = (ratio: number): number => 20 * Math.log10(ratio);

/**
 * What each stage alone loses against the chart: from one point to the next with a chart figure. What a point gains over the chart is not
 * lost again at the next.
 *
 * @param excess by how much each point needs more than the chart says, dB; NaN where the chart is silent
 * @param into what each stage loses is put here, dB; NaN where the chart is silent
 * @returns `into`
 * @source derived
 */
export function lostIn(excess: Float64Array, into: Float64Array): Float64Array {
  let last = 0;
  for (let i = 0; i < excess.length; i++) {
    // a chart value of nothing is none
    const known = Number.isFinite(excess[i]);
    into[i] = known ? excess[i] - last : Number.NaN;
    if (known && excess[i] > last) last = excess[i];
  }
  return into;
}
/**
 * What each stage loses at the best values, with what the generator is known to be off by taken out.
 *
 * @param x inputs
 * @returns dB by row; NaN where the chart is silent
 * @source derived
 */
export function lostAtBest(x: Asked): Float64Array {
  const excess = Float64Array.from(x.injected, (p) => dbOf(p.measured / p.chart) + x.generatorUnknown);
  return lostIn(excess, new Float64Array(excess.length));
}
/** First row whose stage is short by more than the limit; -1 where none is. */
export const firstShort = (x: Asked, lost: Float64Array): number => lost.findIndex((l) => l > x.stageLimit);

const noChart: NoValue = { none: "the chart has no value for these points" };
const noneShort: NoValue = { none: "no stage is short by more" };
const noGrid: NoValue = { none: "no grid current was read" };
type Into = { readonly chart: Float64Array; readonly measured: Float64Array };
/**
 * Works out one draw after the other.
 *
 * @param best inputs at their best values: the rows are the same in every draw
 * @param chance normals for how each row was read
 * @returns results in SI by inputs and number of the draw, -1 at the best values; the levels of its points, dB over 1 µV, are put into curves
 * @source derived; a capacitor's volts and a resistance's stand at right angles
 */
export function gainsBy(best: Asked, chance: Chance): (x: Asked, into: Into, draw: number) => ResultsOf<typeof ask> {
  const rows = best.injected;
  const chart = Float64Array.from(rows, (p) => dbOf(p.chart / 1e-6));
  const measured = Float64Array.from(rows, (p) => dbOf(p.measured / 1e-6));
  const noise = rows.map((_, i) => chance.stream(`row ${i}`));
  const [excess, lost] = [new Float64Array(rows.length), new Float64Array(rows.length)];
  const grid = best.gridCurrents.flatMap((r) => [r.low, r.middle, r.high].map(Math.abs));
  const [least, most] = [Math.min(...grid), Math.max(...grid)];
  const last = rows.length - 1;
  return (x, into, draw) => {
    for (let i = 0; i <= last; i++) {
      into.chart[i] = chart[i];
      into.measured[i] = measured[i] + x.generatorUnknown + (draw < 0 ? 0 : x.readingUnknown * noise[i][draw]);
      excess[i] = into.measured[i] - chart[i];
    }
    let worst = Number.NEGATIVE_INFINITY;
    for (const l of lostIn(excess, lost)) if (l > worst) worst = l;
    const known = worst > Number.NEGATIVE_INFINITY;
    const short = firstShort(x, lost);
    const reactanceRatio = 1 / (2 * Math.PI * x.intermediate * x.seriesCapacitance * x.loadResistance);
    return {
      whole: into.measured[0] - into.measured[last],
      lastLevel: 1e-6 * 10 ** (into.measured[last] / 20),
      worst: known ? worst : noChart,
      badPoint: short >= 0 ? short + 1 : known ? noneShort : noChart,
      lostInSeries: 10 * Math.log10(1 + reactanceRatio * reactanceRatio),
      gridLow: grid.length > 0 ? least / x.gridLeak : noGrid,
      gridHigh: grid.length > 0 ? most / x.gridLeak : noGrid,
    };
  };
}
