/** How an oscillator's frequency goes with temperature, and the capacitor that makes up for it. */
import { needPositive } from "./domain";

/**
 * Capacitor of negative temperature coefficient that stills an oscillator, in place of as much of another one.
 *
 * @param tcfPerK relative change of the frequency per kelvin, such as -30e-6
 * @param circuitF whole capacitance of the circuit, F, above 0
 * @param negativePerK coefficient of the new capacitor as a positive number, such as 750e-6
 * @param replacedPerK coefficient of the one that it replaces, 0 for NP0
 * @returns F; negative where the frequency rises with heat, so that such a capacitor would make it worse
 * @throws {PhysicsDomainError} when the circuit or both coefficients together are not above 0
 * @source df/f = -dC/(2 C): C_N (N + replaced) = -2 TCf C
 */
export function compensatorF(tcfPerK: number, circuitF: number, negativePerK: number, replacedPerK: number): number {
  needPositive("compensation", { circuitF, span: negativePerK + replacedPerK });
  return (-2 * tcfPerK * circuitF) / (negativePerK + replacedPerK);
}

/** A tuned circuit by its parts: what each adds to the coefficient of its frequency. */
export interface WarmCircuit {
  readonly fixedF: number;
  readonly coilPerK: number;
  readonly fixedPerK: number;
  readonly gangPerK: number;
}
/** Coefficient of the frequency with a gang's capacitance, 1/K. Source: -1/2 of coil's and capacitance's, each capacitor by its part. */
export const circuitTcf = (c: WarmCircuit, gangF: number): number =>
  -0.5 * (c.coilPerK + (c.fixedF * c.fixedPerK + gangF * c.gangPerK) / (c.fixedF + gangF));
/** Coefficient of the fixed capacitors that explains a measured one at a place of the gang, 1/K. Source: the same, solved. */
export const fixedFor = (tcfPerK: number, c: Omit<WarmCircuit, "fixedPerK">, gangF: number): number =>
  ((-2 * tcfPerK - c.coilPerK) * (c.fixedF + gangF) - gangF * c.gangPerK) / c.fixedF;
/** The same with a compensator in place of as much of the fixed capacitors, 1/K. Source: the same. */
export const compensatedTcf = (c: WarmCircuit, gangF: number, newF: number, negativePerK: number): number =>
  circuitTcf(c, gangF) + (0.5 * newF * (negativePerK + c.fixedPerK)) / (c.fixedF + gangF);
