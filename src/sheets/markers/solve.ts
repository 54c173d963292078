import { couplingRatio, harmonicPeakV } from "../../physics/marker-spectrum";
import { kT0WPerHz } from "../../physics/noise";
import { type Environment, externalNoiseDb } from "../../standards/external-noise";
import type { NoValue } from "../contract";

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
const wave = { amplitudeV: 0, repetitionHz: 0, dutyRatio: 0, riseS: 0, fallS: 0 };
const path = { sourceOhm: 0, couplingF: 0, antennaOhm: 0, inputOhm: 0, inputF: 0 };
const around = 11;

function load(x: MarkerInputs, couplingF: number): void {
  wave.amplitudeV = x.amplitude;
  wave.repetitionHz = x.spacing;
  wave.dutyRatio = x.duty;
  wave.riseS = x.riseTime;
  wave.fallS = x.fallTime;
  path.sourceOhm = x.sourceResistance;
  path.couplingF = couplingF;
  path.antennaOhm = x.antenna === "connected" ? x.antennaResistance : 1e9;
  path.inputOhm = x.inputResistance;
  path.inputF = x.inputCapacitance;
}

/** Level of the marker next to a frequency at the antenna terminal, V rms. */
const levelV = (hz: number): number => {
  const n = Math.max(1, Math.round(hz / wave.repetitionHz));
  return (harmonicPeakV(wave, n) / Math.SQRT2) * couplingRatio(n * wave.repetitionHz, path);
};

/**
 * Noise against which a marker is heard: external where the antenna is on, and the receiver's own; V rms in 50 ohm.
 *
 * @source ITU-R P.372 for external noise, k T0 B F for the receiver's own
 */
export function noiseV(x: MarkerInputs, hz: number): number {
  const external = x.antenna === "connected" ? 10 ** (externalNoiseDb(hz, x.environment) / 10) : 0;
  const own = 10 ** (x.receiverNoiseFigure / 10);
  return Math.sqrt(kT0WPerHz * x.bandwidth * (external + own) * ohm50);
}

const levels = new Float64Array(around);
function levelsAbout(hz: number, spacing: number): Float64Array {
  for (let i = 0; i < around; i++) levels[i] = levelV(hz + (i - (around - 1) / 2) * spacing);
  return levels;
}
const middle = (values: Float64Array): number => values.slice().sort()[(around - 1) / 2];

/** Coupling at which a level that grows with it reaches a wanted one; NaN where no capacitor from 1 aF to 1 uF does. */
function couplingFor(x: MarkerInputs, of: () => number, wanted: number): number {
  let low = 1e-18;
  let high = 1e-6;
  load(x, high);
  if (of() < wanted) return Number.NaN;
  load(x, low);
  if (of() > wanted) return Number.NaN;
  while (high / low > 1.0005) {
    const mid = Math.sqrt(high * low);
    load(x, mid);
    if (of() < wanted) low = mid;
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
  load(x, x.markerCoupling);
  const high = middle(levelsAbout(x.highestBand, x.spacing));
  const low = levelsAbout(x.lowestBand, x.spacing).reduce((a, b) => Math.max(a, b), 0);
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
    if (levelV(n * x.spacing) > noiseV(x, n * x.spacing)) heard++;
  }
  const smallest = couplingFor(x, () => middle(levelsAbout(x.highestBand, x.spacing)), noise * 10 ** (x.wantedOverNoise / 20));
  const largest = couplingFor(x, () => levelsAbout(x.lowestBand, x.spacing).reduce((a, b) => Math.max(a, b), 0), x.loudest);
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

/** Fills dBuV of each marker, and of the noise. */
export function fillMarkers(x: MarkerInputs, axis: Float64Array, level: Float64Array, noise: Float64Array): void {
  load(x, x.markerCoupling);
  for (let i = 0; i < axis.length; i++) {
    level[i] = 20 * Math.log10(Math.max(levelV(axis[i]), 1e-9) / 1e-6);
    noise[i] = 20 * Math.log10(noiseV(x, axis[i]) / 1e-6);
  }
}
