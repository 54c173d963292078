import { needPositive } from "./domain";

const twoPi = 2 * Math.PI;

/**
 * Resonant frequency of L and C: f = 1/(2 pi sqrt(L C)).
 *
 * @param inductanceH H, above 0
 * @param capacitanceF F, above 0
 * @returns Hz
 * @throws {PhysicsDomainError} when an argument is not above 0
 * @source Thomson's formula; handbook constant L[uH] C[pF] f[MHz]^2 = 25330 checked in resonance.published.test.ts
 */
export function resonanceHz(inductanceH: number, capacitanceF: number): number {
  needPositive("resonance", { inductanceH, capacitanceF });
  return 1 / (twoPi * Math.sqrt(inductanceH * capacitanceF));
}

/**
 * Inductance that resonates a capacitance: L = 1/((2 pi f)^2 C).
 *
 * @param frequencyHz Hz, above 0
 * @param capacitanceF F, above 0
 * @returns H
 * @throws {PhysicsDomainError} when an argument is not above 0
 * @source Thomson's formula
 */
export function inductanceToResonateH(frequencyHz: number, capacitanceF: number): number {
  needPositive("inductance to resonate", { frequencyHz, capacitanceF });
  return 1 / ((twoPi * frequencyHz) ** 2 * capacitanceF);
}

/**
 * Reactance of a capacitor: 1/(2 pi f C).
 *
 * @param frequencyHz Hz, above 0
 * @param capacitanceF F, above 0
 * @returns ohm
 * @throws {PhysicsDomainError} when an argument is not above 0
 * @source identity
 */
export function capacitorReactanceOhm(frequencyHz: number, capacitanceF: number): number {
  needPositive("capacitor reactance", { frequencyHz, capacitanceF });
  return 1 / (twoPi * frequencyHz * capacitanceF);
}

/**
 * Two capacitors in series.
 *
 * @param oneF F, zero or more
 * @param otherF F, zero or more
 * @returns F
 * @source identity
 */
export const inSeriesF = (oneF: number, otherF: number): number => (oneF + otherF > 0 ? (oneF * otherF) / (oneF + otherF) : 0);

/**
 * Parallel resistance of a coil's loss: Q / (2 pi f C) at resonance with C, equally Q 2 pi f L.
 *
 * @param frequencyHz Hz, above 0
 * @param capacitanceF F, above 0
 * @param qRatio Q, above 0
 * @returns ohm
 * @throws {PhysicsDomainError} when an argument is not above 0
 * @source identity; worked example in resonance.published.test.ts
 */
export function parallelResistanceOhm(frequencyHz: number, capacitanceF: number, qRatio: number): number {
  needPositive("parallel resistance", { frequencyHz, capacitanceF, qRatio });
  return qRatio / (twoPi * frequencyHz * capacitanceF);
}
