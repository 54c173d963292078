/** Where else a superhet hears a signal, and what its tuned circuits leave of it. All Hz. */
import { needPositive } from "./domain";

/** Side of the signal that the oscillator runs on. */
export type OscillatorSide = "above" | "below";
const sign = (side: OscillatorSide): 1 | -1 => (side === "above" ? 1 : -1);

/** Second frequency that gives the same IF, Hz. Source: |f - oscillator| = IF on both sides of the oscillator. */
export const imageHz = (signalHz: number, ifHz: number, side: OscillatorSide): number => Math.abs(signalHz + sign(side) * 2 * ifHz);
/** Signal whose second harmonic makes the IF with the oscillator's, Hz. Source: |2 f - 2 oscillator| = IF, the one between signal and oscillator. */
export const halfIfHz = (signalHz: number, ifHz: number, side: OscillatorSide): number => signalHz + (sign(side) * ifHz) / 2;

/**
 * What single tuned circuits leave of a frequency far off: 10 n log10(1 + Q^2 rho^2), rho = f/f0 - f0/f.
 *
 * @param circuits number of circuits tuned to `tunedHz`, 0 or more
 * @param qRatio loaded Q of each
 * @param tunedHz where they are tuned, Hz, above 0
 * @param atHz the other frequency, Hz, above 0
 * @returns dB, positive
 * @throws {PhysicsDomainError} when an argument is not above 0
 * @source universal resonance curve; the trade's image rejection ratio alpha = sqrt(1 + Q^2 rho^2) a circuit, a ratio of volts
 */
export function circuitsRejectionDb(circuits: number, qRatio: number, tunedHz: number, atHz: number): number {
  needPositive("rejection of tuned circuits", { qRatio, tunedHz, atHz });
  return rejectionDb(circuits, qRatio, detuning(tunedHz, atHz));
}
/**
 * How far a frequency is off a circuit's own, as the resonance curve counts it.
 *
 * @param tunedHz where the circuit is tuned, Hz, above 0
 * @param atHz the other frequency, Hz, above 0
 * @returns rho = f/f0 - f0/f
 * @source universal resonance curve
 */
export const detuning = (tunedHz: number, atHz: number): number => atHz / tunedHz - tunedHz / atHz;
/**
 * The same rejection where the detuning is known.
 *
 * @param circuits number of circuits, 0 or more
 * @param qRatio loaded Q of each
 * @param rho `detuning`
 * @returns dB, positive
 * @source as circuitsRejectionDb
 */
export const rejectionDb = (circuits: number, qRatio: number, rho: number): number =>
  10 * circuits * Math.log10(1 + qRatio * rho * (qRatio * rho));
