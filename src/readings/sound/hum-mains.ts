import { median } from "../../numerics/order";
import type { Frame } from "./frames";
import { peakAt } from "./peaks";

/** The mains is looked for so far about its nominal frequency: more than any grid is off, and less than a note beside its lines would be. */
const within = 0.02;
/** Power of the strongest bin above the noise, for a line to tell the frequency. */
export const tellsAt = 30;
/** Lines that may tell the frequency, by their order; how near to a multiple one must lie, bins; what is usual of a grid, as a share. */
const telling = [1, 2, 3, 4, 6];
const nearBins = 1.2;
const usualShare = 0.004;
/**
 * Frequency of the mains by the lines of one frame: of all that stand near a multiple, that for which the most lines speak.
 *
 * @param frame transform of a stretch of sound
 * @param nominalHz 50 or 60
 * @param orders multiples that the sound reaches
 * @returns Hz; undefined where no line tells it
 * @source common practice, no source; a note beside one multiple has no others of its own
 */
export function mainsIn(frame: Frame, nominalHz: number, orders: number): number | undefined {
  const { binHz, power } = frame;
  const lines = telling
    .filter((o) => o <= orders)
    .flatMap((order) => {
      const [from, to] = [1 - within, 1 + within].map((x) => (order * nominalHz * x) / binHz);
      const out: { order: number; hz: number; snr: number }[] = [];
      for (let k = Math.max(2, Math.floor(from)); k <= Math.ceil(to); k++)
        if (power[k] >= power[k - 1] && power[k] > power[k + 1]) {
          const { hz, snr } = peakAt(frame, k);
          if (snr > tellsAt) out.push({ order, hz, snr });
        }
      return out;
    });
  let best: { score: number; hz: number } | undefined;
  for (const { order, hz } of lines) {
    const f = hz / order;
    if (Math.abs(f / nominalHz - 1) > within) continue;
    const own = lines.filter((l) => Math.abs(l.hz - l.order * f) < nearBins * binHz);
    const score = own.reduce((s, l) => s + Math.log(Math.min(l.snr, 1e4)), 0) - 0.5 * ((f / nominalHz - 1) / usualShare) ** 2;
    if (best && score <= best.score) continue;
    const weight = (l: (typeof own)[number]): number => l.order * l.order * Math.min(l.snr, 1e6);
    const all = own.reduce((s, l) => s + weight(l), 0);
    best = { score, hz: own.reduce((s, l) => s + (weight(l) * l.hz) / l.order, 0) / all };
  }
  return best?.hz;
}

/** A frame may be off where sound was lost in it: so many are needed for the others to show it, and by so many bins it is off by then. */
const fewFrames = 5;
const oneOffBins = 0.1;
const neverBetterBins = 0.01;
/**
 * Frequency by many frames, of which some may be off.
 *
 * @param hz by each frame, one at least
 * @param binHz width of a bin
 * @returns median, and its standard uncertainty by the median distance from it
 * @source standard deviation of a median, 1.253 times that of a mean, and 1.4826 median distances to a standard deviation, textbook; a frame overlaps the next by half
 */
export function middleOf(hz: readonly number[], binHz: number): { readonly hz: number; readonly uHz: number } {
  const middle = median(hz);
  const spread = 1.4826 * median(hz.map((v) => Math.abs(v - middle)));
  const free = Math.max(1, (2 * hz.length) / 3);
  const least = hz.length < fewFrames ? oneOffBins : neverBetterBins;
  return { hz: middle, uHz: Math.max((1.253 * spread) / Math.sqrt(free), least * binHz) };
}
