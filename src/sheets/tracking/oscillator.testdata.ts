/** An oscillator of 1.6 to 4.8 MHz, all parts right, and what would be read on it with parts off. */
import { answer } from "../../ask/answer";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import type { Asked } from "./ask";
import { allRight, type Off, oscillatorHz, tracked } from "./circuit";
import { tracking } from "./sheet";

/** What a reading is good for in the middle of the band, Hz, as a share. */
export const shareOf = (hz: number, low = 1.6e6, high = 4.8e6): number => hz / Math.sqrt(low * high);
/** The same as a what-if. */
export const noise = (hz: number, low?: number, high?: number) => ({ readingNoise: `${100 * shareOf(hz, low, high)} %` });
function orNever<T>(x: T | undefined): T {
  if (x === undefined) throw new Error("this oscillator has parts");
  return x;
}
export const base: Asked = {
  readings: [],
  peaks: [],
  trials: [],
  dialDrawnTo: "oscillator",
  oscillator: "above",
  padderLayout: "across the gang",
  points: "least worst error",
  exactAt: [],
  low: 1.6e6,
  high: 4.8e6,
  intermediate: 455e3,
  gangLow: 10e-12,
  gangHigh: 365e-12,
  signalQ: 60,
  readingNoise: shareOf(500),
  peakDoubt: 0.003,
  ifMoved: 0,
  slugRange: 0.12,
  trimmerTravel: 12e-12,
  coilDoubt: 0.1,
  trimmerDoubt: 0.3,
  padderDoubt: 0.1,
  gangDoubt: 2e-12,
};
export const t = orNever(tracked(base));
export const off = (coil: number, trimmer: number, padder: number): Off => ({ ...allRight, coil, trimmer, padder });
export const runsAt = (dial: number, o: Off): number => oscillatorHz(t, orNever(t.parts), dial, o);
export const read = (coil: number, trimmer: number, padder: number, at: readonly number[]) =>
  at.map((dial) => ({ dial, received: runsAt(dial, off(coil, trimmer, padder)) - 455e3, counted: Number.NaN }));
export const ask = (overrides: Record<string, string>) => orThrow(answer(tracking, emptyBench, { draws: 100, overrides }));
export const text = (rows: { dial: number; received: number }[]): string => rows.map((r) => `${r.dial} Hz, ${r.received} Hz`).join("; ");
export const three = [1.7e6, 2.8e6, 4.6e6];
export const two = [1.7e6, 4.6e6];
