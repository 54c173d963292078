import { needPositive } from "./domain";

const sinc = (x: number): number => (Math.abs(x) < 1e-9 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x));

/** A repeating trapezoid: amplitude from foot to top, duty between the half-height points. SI. */
export interface Trapezoid {
  readonly amplitudeV: number;
  readonly repetitionHz: number;
  readonly dutyRatio: number;
  readonly riseS: number;
  readonly fallS: number;
}

/**
 * Peak voltage of the n-th harmonic of a trapezoid:
 *
 *     2 |A / (j w T) [sinc(n tr/T) - sinc(n tf/T) exp(-j w d T)]|,  w = 2 pi n / T
 *
 * @param wave the trapezoid
 * @param nCount order, from 1
 * @returns V, peak
 * @throws {PhysicsDomainError} when amplitude or repetition is not above 0
 * @source Fourier series of a trapezoid; limits (square wave 2 A/(pi n), no even harmonics at half duty) in marker-spectrum.published.test.ts
 */
export function harmonicPeakV(wave: Trapezoid, nCount: number): number {
  needPositive("harmonic of a trapezoid", { amplitudeV: wave.amplitudeV, repetitionHz: wave.repetitionHz });
  const rise = sinc(nCount * wave.riseS * wave.repetitionHz);
  const fall = sinc(nCount * wave.fallS * wave.repetitionHz);
  const angle = 2 * Math.PI * nCount * wave.dutyRatio;
  return (wave.amplitudeV / (Math.PI * nCount)) * Math.sqrt((rise - fall * Math.cos(angle)) ** 2 + (fall * Math.sin(angle)) ** 2);
}

export interface MarkerPath {
  readonly sourceOhm: number;
  readonly couplingF: number;
  readonly antennaOhm: number;
  readonly inputOhm: number;
  readonly inputF: number;
}

/**
 * How much of a marker's voltage reaches the antenna terminal: through its source resistance and a small capacitor into antenna, receiver
 * and stray capacitance in parallel.
 *
 * @param hz frequency, Hz
 * @param p the path
 * @returns ratio
 * @source voltage divider
 */
export function couplingRatio(hz: number, p: MarkerPath): number {
  const w = 2 * Math.PI * hz;
  const g = 1 / p.antennaOhm + 1 / p.inputOhm;
  const b = w * p.inputF;
  const size = g * g + b * b;
  const zRe = g / size;
  const zIm = -b / size;
  return Math.sqrt((zRe * zRe + zIm * zIm) / ((zRe + p.sourceOhm) ** 2 + (zIm - 1 / (w * p.couplingF)) ** 2));
}
