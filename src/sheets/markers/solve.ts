import type { NoValue } from "../../ask/results";
import { couplingRatio, harmonicPeakV, type MarkerPath, type Trapezoid } from "../../physics/marker-spectrum";
import { kT0WPerHz } from "../../physics/noise";
import { type Environment, externalNoiseDb } from "../../standards/external-noise";

export interface MarkerInputs {
  readonly environment: Environment;
  readonly antenna: "connected" | "disconnected";
  readonly spacing: number;
  readonly amplitude: number;
  readonly duty: number;
  readonly riseTime: number;
  readonly fallTime: number;
  readonly markerCoupling: number;
  readonly sourceResistance: number;
  readonly antennaResistance: number;
  readonly inputResistance: number;
  readonly inputCapacitance: number;
  readonly bandwidth: number;
  readonly receiverNoiseFigure: number;
  readonly highestBand: number;
  readonly lowestBand: number;
  readonly wantedOverNoise: number;
  readonly loudest: number;
  readonly frontEndCapacitance: number;
}

const ohm50 = 50;
const around = 11;

/**
 * Noise against which a marker is heard: external where the antenna is on, and the receiver's own; V rms in 50 ohm.
 *
 * @source ITU-R P.372 for external noise, k T0 B F for the receiver's own
 */
export const noiseV = (x: Pick<MarkerInputs, "antenna" | "environment" | "bandwidth" | "receiverNoiseFigure">, hz: number): number =>
  noiseOver(x, externalOf(x, hz));
/** External noise as a power ratio over k T0 B; none where the antenna is off. */
const externalOf = (x: Pick<MarkerInputs, "antenna" | "environment">, hz: number): number =>
  x.antenna === "connected" ? 10 ** (externalNoiseDb(hz, x.environment) / 10) : 0;
const noiseOver = (x: Pick<MarkerInputs, "bandwidth" | "receiverNoiseFigure">, external: number): number =>
  Math.sqrt(kT0WPerHz * x.bandwidth * (external + 10 ** (x.receiverNoiseFigure / 10)) * ohm50);

const waveOf = (x: MarkerInputs): Trapezoid => ({
  amplitudeV: x.amplitude,
  repetitionHz: x.spacing,
  dutyRatio: x.duty,
  riseS: x.riseTime,
  fallS: x.fallTime,
});
const pathOf = (x: MarkerInputs, couplingF: number): MarkerPath => ({
  sourceOhm: x.sourceResistance,
  couplingF,
  antennaOhm: x.antenna === "connected" ? x.antennaResistance : 1e9,
  inputOhm: x.inputResistance,
  inputF: x.inputCapacitance,
});
/** Number of the marker next to a frequency. */
const orderAt = (hz: number, spacing: number): number => Math.max(1, Math.round(hz / spacing));
/** Level of the n-th marker at the antenna terminal, V rms. */
const levelOf = (wave: Trapezoid, path: MarkerPath, n: number): number =>
  (harmonicPeakV(wave, n) / Math.SQRT2) * couplingRatio(n * wave.repetitionHz, path);

/** The eleven markers about a frequency, whose levels at the generator are the same whatever couples them. */
function about(x: MarkerInputs, hz: number): (path: MarkerPath) => Float64Array {
  const wave = waveOf(x);
  const orders = Float64Array.from({ length: around }, (_, i) => orderAt(hz + (i - (around - 1) / 2) * x.spacing, x.spacing));
  const peaks = orders.map((n) => harmonicPeakV(wave, n) / Math.SQRT2);
  const levels = new Float64Array(around);
  return (path) => {
    for (let i = 0; i < around; i++) levels[i] = peaks[i] * couplingRatio(orders[i] * x.spacing, path);
    return levels;
  };
}
const middleOf = (levels: Float64Array): number => levels.sort()[(around - 1) / 2];
const loudestOf = (levels: Float64Array): number => levels.reduce((a, b) => Math.max(a, b), 0);

/** Coupling at which a level that grows with it reaches a wanted one; NaN where no capacitor from 1 aF to 1 uF does. */
function couplingFor(x: MarkerInputs, of: (path: MarkerPath) => number, wanted: number): number {
  const at = (farad: number): number => of(pathOf(x, farad));
  let low = 1e-18;
  let high = 1e-6;
  if (at(high) < wanted || at(low) > wanted) return Number.NaN;
  while (high / low > 1.0005) {
    const mid = Math.sqrt(high * low);
    if (at(mid) < wanted) low = mid;
    else high = mid;
  }
  return Math.sqrt(high * low);
}

const orNone = (v: number, none: string): number | NoValue => (Number.isFinite(v) ? v : { none });
const overS9 = (volts: number): number => 20 * Math.log10(Math.max(volts, 1e-15) / 50e-6);

/**
 * What a marker generator puts into the antenna terminal, and the window of coupling that suits the highest and the lowest band.
 *
 * Highest: the middle one of eleven markers about it, over the noise. Lowest: the loudest of eleven.
 *
 * @param x plain inputs, SI
 * @returns levels in V rms at the terminal, S readings by the IARU law (50 uV), dB, F
 * @source src/physics/marker-spectrum.ts; ITU-R P.372; S9 = 50 uV, IARU Region 1
 */
export function solveMarkers(x: MarkerInputs) {
  const [wave, path] = [waveOf(x), pathOf(x, x.markerCoupling)];
  const [atHighest, atLowest] = [about(x, x.highestBand), about(x, x.lowestBand)];
  const high = middleOf(atHighest(path));
  const low = loudestOf(atLowest(path));
  const noise = noiseV(x, x.highestBand);
  let heard = 0;
  let all = 0;
  const first = Math.ceil(x.lowestBand / x.spacing);
  const last = Math.floor(x.highestBand / x.spacing);
  const stride = Math.max(1, Math.floor((last - first) / 300));
  // counted, since numbers so high that a stride does not change them would never come to the end
  for (let k = 0; k < 600 && first + k * stride <= last; k++) {
    const n = first + k * stride;
    all++;
    if (levelOf(wave, path, Math.max(1, n)) > noiseV(x, n * x.spacing)) heard++;
  }
  const smallest = couplingFor(x, (p) => middleOf(atHighest(p)), noise * 10 ** (x.wantedOverNoise / 20));
  const largest = couplingFor(x, (p) => loudestOf(atLowest(p)), x.loudest);
  return {
    levelHighest: high,
    overNoiseHighest: 20 * Math.log10(Math.max(high, 1e-15) / noise),
    readingHighest: overS9(high),
    levelLowest: low,
    readingLowest: overS9(low),
    noiseHighest: noise,
    heardShare: heard / Math.max(1, all),
    smallestCoupling: orNone(smallest, "no coupling makes the highest band audible: the edges are too slow or the markers vanish there"),
    largestCoupling: orNone(largest, "no coupling is that loud"),
    frontEndDetune: -x.markerCoupling / (2 * x.frontEndCapacitance),
  };
}

/**
 * Curves of the markers' levels and of the noise over frequencies that stay while inputs are drawn.
 *
 * @param best plain inputs whose surroundings and antenna hold for every draw
 * @param axis frequencies, Hz
 * @returns fills dBuV of the marker next to each, and of the noise
 * @source as `solveMarkers`
 */
export function markerCurves(best: MarkerInputs, axis: Float64Array): (x: MarkerInputs, level: Float64Array, noise: Float64Array) => void {
  const external = axis.map((hz) => externalOf(best, hz));
  return (x, level, noise) => {
    const [wave, path] = [waveOf(x), pathOf(x, x.markerCoupling)];
    for (let i = 0; i < axis.length; i++) {
      level[i] = 20 * Math.log10(Math.max(levelOf(wave, path, orderAt(axis[i], x.spacing)), 1e-9) / 1e-6);
      noise[i] = 20 * Math.log10(noiseOver(x, external[i]) / 1e-6);
    }
  };
}
