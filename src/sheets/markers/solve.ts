import type { Chance } from "../../ask/contract";
import type { NoValue } from "../../ask/results";
import { selectInPlace } from "../../numerics/order";
import { couplingFor, couplingRatio, harmonicsOf, type MarkerPath, type Trapezoid } from "../../physics/marker-spectrum";
import { kT0WPerHz } from "../../physics/noise";
import { externalNoiseDb } from "../../standards/external-noise";
import type { Asked } from "./ask";

const ohm50 = 50;
const around = 11;
/** Couplings between these are looked for, F. */
const [leastF, mostF] = [1e-18, 1e-6];
/** Square microvolts in a square volt. */
const perUv2 = 1e12;
/** Most markers that are counted, one by one or by a stride. */
const mostCounted = 600;

/**
 * Noise against which a marker is heard: external where the antenna is on, and the receiver's own.
 *
 * @param x antenna, surroundings, bandwidth in Hz and noise figure in dB
 * @param hz frequency, Hz
 * @returns V rms in 50 ohm
 * @source ITU-R P.372 for external noise, k T0 B F for the receiver's own
 */
export const noiseV = (x: Pick<Asked, "antenna" | "environment" | "bandwidth" | "receiverNoiseFigure">, hz: number): number =>
  Math.sqrt(perPowerOf(x) * (externalOf(x, hz) + ownOf(x)));
/** External noise as a power ratio over k T0 B; none where the antenna is off. */
const externalOf = (x: Pick<Asked, "antenna" | "environment">, hz: number): number =>
  x.antenna === "connected" ? 10 ** (externalNoiseDb(hz, x.environment) / 10) : 0;
const ownOf = (x: Pick<Asked, "receiverNoiseFigure">): number => 10 ** (x.receiverNoiseFigure / 10);
/** Square volts in 50 ohm for a power ratio of one. */
const perPowerOf = (x: Pick<Asked, "bandwidth">): number => kT0WPerHz * x.bandwidth * ohm50;

const waveOf = (x: Asked): Trapezoid => ({
  amplitudeV: x.amplitude,
  repetitionHz: x.spacing,
  dutyRatio: x.duty,
  riseS: x.riseTime,
  fallS: x.fallTime,
});
const pathOf = (x: Asked): MarkerPath => ({
  sourceOhm: x.sourceResistance,
  couplingF: x.markerCoupling,
  antennaOhm: x.antenna === "connected" ? x.antennaResistance : 1e9,
  inputOhm: x.inputResistance,
  inputF: x.inputCapacitance,
});
/** Number of the marker next to a frequency. */
const orderAt = (hz: number, spacing: number): number => Math.max(1, Math.round(hz / spacing));

/** What does not change while the bands and the spacing stand still: which markers are looked at, and the noise there. */
interface Looked {
  /** numbers of all markers that are looked at, ascending */
  readonly orders: Float64Array;
  /** for each point of the curves, and for each marker that is counted, its place among them */
  readonly onAxis: Int32Array;
  readonly counted: Int32Array;
  /** external noise at each that is counted, as a power ratio */
  readonly external: Float64Array;
  readonly externalHighest: number;
}
function lookedAt(x: Asked, axis: Float64Array): Looked {
  const first = Math.ceil(x.lowestBand / x.spacing);
  const last = Math.floor(x.highestBand / x.spacing);
  const stride = Math.max(1, Math.floor((last - first) / 300));
  const counted: number[] = [];
  // numbers so high that a stride does not change them would never come to the end
  for (let k = 0; k < mostCounted && first + k * stride <= last; k++) counted.push(Math.max(1, first + k * stride));
  const drawn = Array.from(axis, (hz) => orderAt(hz, x.spacing));
  const orders = Float64Array.from(new Set([...counted, ...drawn])).sort();
  const place = new Map(Array.from(orders, (n, i) => [n, i]));
  const placeOf = (n: number): number => place.get(n) ?? 0;
  return {
    orders,
    onAxis: Int32Array.from(drawn, placeOf),
    counted: Int32Array.from(counted, placeOf),
    external: Float64Array.from(counted, (n) => externalOf(x, n * x.spacing)),
    externalHighest: externalOf(x, x.highestBand),
  };
}
const sameLook = (x: Asked, y: Asked): boolean =>
  x.spacing === y.spacing && x.lowestBand === y.lowestBand && x.highestBand === y.highestBand;

/** The eleven markers about a frequency: the level that so many of them reach, V rms, and the coupling at which they reach a wanted one, F. */
function about({ spacing }: Asked, path: MarkerPath, peakOf: (n: number) => number, hz: number) {
  const markerHz = new Float64Array(around);
  const rms = new Float64Array(around);
  for (let i = 0; i < around; i++) {
    const n = orderAt(hz + (i - (around - 1) / 2) * spacing, spacing);
    markerHz[i] = n * spacing;
    rms[i] = peakOf(n) / Math.SQRT2;
  }
  const each = new Float64Array(around);
  return {
    level: (count: number): number => {
      for (let i = 0; i < around; i++) each[i] = rms[i] * couplingRatio(markerHz[i], path);
      return selectInPlace(each, around - count);
    },
    // more coupling makes each of them louder, so the last of so many decides
    coupling: (count: number, wanted: number): number => {
      for (let i = 0; i < around; i++) each[i] = couplingFor(markerHz[i], path, wanted / rms[i]) ?? Number.POSITIVE_INFINITY;
      return selectInPlace(each, count - 1);
    },
  };
}
const orNone = (farad: number, none: string): number | NoValue => (farad >= leastF && farad <= mostF ? farad : { none });
const overS9 = (volts: number): number => 20 * Math.log10(Math.max(volts, 1e-15) / 50e-6);

/**
 * What a marker generator puts into the antenna terminal, and the window of coupling that suits the highest and the lowest band.
 *
 * Highest: the middle one of eleven markers about it, above the noise. Lowest: the loudest of eleven.
 *
 * @param best plain inputs, SI, whose surroundings and antenna hold for every draw
 * @param axis frequencies of the curves, Hz
 * @param wanted whether a curve is looked at in a draw
 * @returns of a draw: levels in V rms at the terminal, S readings by the IARU law (50 uV), dB, F; fills the level of the marker next to each
 * frequency, and of the noise there, over 1 uV as power
 * @source src/physics/marker-spectrum.ts; ITU-R P.372; S9 = 50 uV, IARU Region 1
 */
export function markerSolver(best: Asked, axis: Float64Array, wanted: Chance["wanted"]) {
  const externalOnAxis = axis.map((hz) => externalOf(best, hz));
  const looked = lookedAt(best, axis);
  // the inputs are drawn in place
  const asked = { ...best };
  const usualLevels = new Float64Array(looked.orders.length);
  return (x: Asked, into: { readonly level: Float64Array; readonly noise: Float64Array }, draw: number) => {
    const look = sameLook(x, asked) ? looked : lookedAt(x, axis);
    const peakOf = harmonicsOf(waveOf(x));
    const path = pathOf(x);
    const { orders, counted, external } = look;
    const levels = look === looked ? usualLevels : new Float64Array(orders.length);
    for (let i = 0; i < orders.length; i++) levels[i] = (peakOf(orders[i]) / Math.SQRT2) * couplingRatio(orders[i] * x.spacing, path);
    const own = ownOf(x);
    const perPower = perPowerOf(x);
    fillCurves(levels, look, into);
    for (let i = 0; wanted("noise", draw) && i < axis.length; i++) into.noise[i] = perUv2 * perPower * (externalOnAxis[i] + own);
    let heard = 0;
    for (let i = 0; i < counted.length; i++) if (levels[counted[i]] ** 2 > perPower * (external[i] + own)) heard++;
    const [atHighest, atLowest] = [about(x, path, peakOf, x.highestBand), about(x, path, peakOf, x.lowestBand)];
    const high = atHighest.level((around + 1) / 2);
    const low = atLowest.level(1);
    const noise = Math.sqrt(perPower * (look.externalHighest + own));
    return {
      levelHighest: high,
      overNoiseHighest: 20 * Math.log10(Math.max(high, 1e-15) / noise),
      readingHighest: overS9(high),
      levelLowest: low,
      readingLowest: overS9(low),
      noiseHighest: noise,
      heardShare: heard / Math.max(1, counted.length),
      smallestCoupling: orNone(
        atHighest.coupling((around + 1) / 2, noise * 10 ** (x.wantedOverNoise / 20)),
        "no coupling makes the highest band audible: the edges are too slow or the markers vanish there",
      ),
      largestCoupling: orNone(atLowest.coupling(1, x.loudest), "no coupling is that loud"),
      frontEndDetune: -x.markerCoupling / (2 * x.frontEndCapacitance),
    };
  };
}
/** Levels of the markers next to each point, over 1 uV as power; several points share a marker. */
function fillCurves(levels: Float64Array, look: Looked, into: { readonly level: Float64Array }): void {
  const { onAxis } = look;
  for (let i = 0; i < onAxis.length; i++)
    into.level[i] = i > 0 && onAxis[i] === onAxis[i - 1] ? into.level[i - 1] : perUv2 * Math.max(levels[onAxis[i]], 1e-9) ** 2;
}
