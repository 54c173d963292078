import { needPositive } from "./domain";

/** Resistors of a pi pad, ohm: one in series, one across at each end. */
export interface PiPad {
  readonly seriesOhm: number;
  readonly shuntOhm: number;
}
/**
 * A pad that takes off so many decibels between equal resistances and leaves them as they are:
 *
 *     K = 10^(dB/20)     across, each end: Z (K + 1)/(K - 1)     in series: Z (K^2 - 1)/(2 K)
 *
 * @param lossDb what it takes off, dB, above 0
 * @param lineOhm resistance on both sides, ohm, above 0
 * @returns its resistors
 * @throws {PhysicsDomainError} when an argument is not above 0
 * @source image resistance of a symmetrical pi section; checked in pad.published.test.ts
 */
export function piPad(lossDb: number, lineOhm: number): PiPad {
  needPositive("pi pad", { lossDb, lineOhm });
  const k = 10 ** (lossDb / 20);
  return { seriesOhm: (lineOhm * (k * k - 1)) / (2 * k), shuntOhm: (lineOhm * (k + 1)) / (k - 1) };
}
