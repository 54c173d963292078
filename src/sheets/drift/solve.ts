import { type DriftFit, type DriftLog, fitDrift, leftHz } from "../../readings/drift-log";
import type { Read } from "../../units/issue";
import type { GroundOn } from "../contract";

export interface DriftInputs {
  readonly driftLog: readonly { readonly time: number; readonly frequency: number; readonly temperature: number; readonly line: number }[];
  readonly oscillatorFrequency: number;
  readonly minuteLimit: number;
  readonly warmUp: number;
  readonly temperatureRise: number;
  readonly gangNow: number;
  readonly fixedCapacitance: number;
  readonly gangEnd: number;
  readonly coilCoefficient: number;
  readonly gangCoefficient: number;
  readonly compensator: number;
  readonly replacedCoefficient: number;
}
export type DriftNames = "whole" | "left" | "fitAfter" | "slow" | "fast" | "byLine" | "perKelvin" | "needed" | "otherEnd" | "miss";
export type G = GroundOn<DriftInputs, DriftNames>;
/** The card's rows as a log: seconds, hertz and volts, NaN where not read. */
export const logOf = (x: DriftInputs): DriftLog => ({
  timeS: Float64Array.from(x.driftLog, (r) => r.time),
  hz: Float64Array.from(x.driftLog, (r) => r.frequency),
  lineV: Float64Array.from(x.driftLog, (r) => r.line),
});
const fits = new WeakMap<object, Read<DriftFit>>();
/** The fit of these rows, made once. */
export function fitOf(x: DriftInputs): Read<DriftFit> {
  const had = fits.get(x.driftLog) ?? fitDrift(logOf(x));
  fits.set(x.driftLog, had);
  return had;
}
/** Kelvins from the first to the last reading of the thermometer; undefined where it was not read at both ends, or hardly moved. */
function riseOf(x: DriftInputs): number | undefined {
  const [a, b] = [x.driftLog[0]?.temperature, x.driftLog.at(-1)?.temperature];
  return a !== undefined && b !== undefined && Math.abs(b - a) > 0.5 ? b - a : undefined;
}
/** Why a steady set has no figure for what moves it. */
export const steadyWhy = "it drifts no more than its readings scatter";
/** Drift a kelvin: of the log alone where its own thermometer was read, else of the whole warm-up. */
export function perKelvinOf(x: DriftInputs, shape: Pick<DriftFit, "amplitudesHz" | "tauS">, untilS: number): number {
  const read = riseOf(x);
  const moved = read === undefined ? leftHz(shape, 0) : leftHz(shape, 0) - leftHz(shape, untilS);
  return -moved / x.oscillatorFrequency / (read ?? x.temperatureRise);
}
