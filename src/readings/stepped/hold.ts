/** One try at the output that is to be held: level that the generator gave, and what the meter read then, both in dB. */
export interface Tried {
  readonly dBm: number;
  readonly outputDb: number;
}
/** AVC leaves at least so much of a change at the output. Source: common practice, no source. */
const leastSlope = 0.03;
const mostStepDb = 20;

/**
 * dB of output to a dB of input between the last two tries.
 *
 * @param tries so far
 * @returns slope; 1 where nothing tells
 * @source definition
 */
export function slopeOf(tries: readonly Tried[]): number {
  const [a, b] = tries.slice(-2);
  if (b === undefined || Math.abs(b.dBm - a.dBm) < 0.01) return 1;
  return Math.min(1, Math.max(leastSlope, (b.outputDb - a.outputDb) / (b.dBm - a.dBm)));
}

/**
 * The level to try next so that the output comes to where it was.
 *
 * @param tries so far, the latest last
 * @param wantedDb output that is held
 * @param mostDbm loudest that may be tried
 * @returns level, dBm
 * @source secant method; bounded steps, so that a front end gets no more than it must
 */
export function nextLevel(tries: readonly Tried[], wantedDb: number, mostDbm: number): number {
  const last = tries[tries.length - 1];
  const step = (wantedDb - last.outputDb) / slopeOf(tries);
  return Math.min(mostDbm, last.dBm + Math.min(mostStepDb, Math.max(-mostStepDb, step)));
}
