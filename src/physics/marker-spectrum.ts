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
 * Peak voltages of the harmonics of a trapezoid:
 *
 *     2 |A / (j w T) [sinc(n tr/T) - sinc(n tf/T) exp(-j w d T)]|,  w = 2 pi n / T
 *
 * written with r and f for the two sinc as sqrt((r - f)^2 + 4 r f sin^2(pi n d)), which loses no digits where a harmonic all but vanishes.
 *
 * @param wave the trapezoid
 * @returns V, peak, by order, from 1
 * @throws {PhysicsDomainError} when amplitude or repetition is not above 0
 * @source Fourier series of a trapezoid; limits (square wave 2 A/(pi n), no even harmonics at half duty) in marker-spectrum.published.test.ts
 */
export function harmonicsOf(wave: Trapezoid): (nCount: number) => number {
  const { amplitudeV, repetitionHz, dutyRatio } = wave;
  needPositive("harmonic of a trapezoid", { amplitudeV, repetitionHz });
  const [riseRatio, fallRatio] = [wave.riseS * repetitionHz, wave.fallS * repetitionHz];
  return (nCount) => {
    const rise = sinc(nCount * riseRatio);
    const fall = sinc(nCount * fallRatio);
    const half = Math.sin(Math.PI * nCount * dutyRatio);
    const size = (rise - fall) * (rise - fall) + 4 * rise * fall * half * half;
    return (amplitudeV / (Math.PI * nCount)) * Math.sqrt(Math.max(0, size));
  };
}
/**
 * Peak voltage of one harmonic.
 *
 * @param wave the trapezoid
 * @param nCount order, from 1
 * @returns V, peak
 * @throws {PhysicsDomainError} as `harmonicsOf`
 * @source harmonicsOf
 */
export const harmonicPeakV = (wave: Trapezoid, nCount: number): number => harmonicsOf(wave)(nCount);

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
/**
 * The coupling at which so much of a marker reaches the antenna terminal.
 *
 * @param hz frequency, Hz
 * @param p the path; its own coupling is not looked at
 * @param ratio what is to reach it
 * @returns F; undefined where none is enough
 * @source couplingRatio, solved for the capacitor: its reactance and the stray capacitance's have one sign, so that more of it always lets more through
 */
export function couplingFor(hz: number, p: Omit<MarkerPath, "couplingF">, ratio: number): number | undefined {
  const w = 2 * Math.PI * hz;
  const g = 1 / p.antennaOhm + 1 / p.inputOhm;
  const b = w * p.inputF;
  const size = g * g + b * b;
  const real = g / size + p.sourceOhm;
  const left = 1 / (size * ratio * ratio) - real * real;
  const reactance = Math.sqrt(left) - b / size;
  return left > 0 && reactance > 0 ? 1 / (w * reactance) : undefined;
}
