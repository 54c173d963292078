import type { QuantityInput } from "../../../ask/inputs";
import type { Quantity } from "../../../units/quantity";

/** Stops of a slider from one end to the other. */
export const stops = 200;
/** A slider's scale: its ends in SI, and whether equal ways are equal ratios. */
export interface Scale {
  readonly low: number;
  readonly high: number;
  readonly log: boolean;
}
/** How far the ends lie from what is on record, as a ratio: a part is rarely further off than this. */
const reach = 4;

const roundDown = (x: number): number => {
  const decade = 10 ** Math.floor(Math.log10(x) + 1e-9);
  return ([5, 2, 1].find((m) => m * decade <= x * (1 + 1e-9)) ?? 1) * decade;
};
const roundUp = (x: number): number => {
  const decade = 10 ** Math.floor(Math.log10(x) + 1e-9);
  return ([1, 2, 5, 10].find((m) => m * decade >= x * (1 - 1e-9)) ?? 10) * decade;
};

/**
 * The scale that a value on record is tried over: round ends around it, within what the question takes.
 *
 * @param q what is on record
 * @param limits what the question takes, SI
 * @returns nothing where a value of zero without limits says nothing about how large another would be
 */
export function scaleFor(q: Quantity, limits: Pick<QuantityInput, "min" | "max" | "positive">): Scale | undefined {
  const { min, max } = limits;
  const value = q.value;
  if (!Number.isFinite(value)) return undefined;
  if (min !== undefined && max !== undefined && (min <= 0 || max / min <= reach ** 2) && max - min <= 8 * Math.max(Math.abs(value), 1e-30))
    return { low: min, high: max, log: false };
  if (value > 0) {
    const low = Math.max(roundDown(value / reach), min ?? 0);
    const high = Math.min(roundUp(value * reach), max ?? Number.POSITIVE_INFINITY);
    return low > 0 && low < high ? { low, high, log: true } : undefined;
  }
  if (value < 0 && !limits.positive) {
    const wide = roundUp(Math.abs(value) * 2);
    return { low: Math.max(-wide, min ?? -wide), high: Math.min(wide, max ?? wide), log: false };
  }
  return min !== undefined && max !== undefined ? { low: min, high: max, log: false } : undefined;
}

/** Where a value stands on a scale, in stops; at an end where it lies beyond. */
export function stopOf(scale: Scale, value: number): number {
  const part = scale.log ? Math.log(value / scale.low) / Math.log(scale.high / scale.low) : (value - scale.low) / (scale.high - scale.low);
  return Math.round(stops * Math.min(1, Math.max(0, Number.isFinite(part) ? part : 0)));
}

/** The value at a stop, to three figures: a hand sets no more. */
export function valueAt(scale: Scale, stop: number): number {
  const part = stop / stops;
  if (part <= 0) return scale.low;
  if (part >= 1) return scale.high;
  const value = scale.log ? scale.low * (scale.high / scale.low) ** part : scale.low + (scale.high - scale.low) * part;
  return Number(value.toPrecision(3));
}

/** How wide a slider's knob is drawn, px: half of it is left out at either end of the way. */
export const knobPx = 26;
/** How far along a slider the middle of its knob stands, px. */
export const alongAt = (stop: number, widthPx: number): number => knobPx / 2 + (stop / stops) * (widthPx - knobPx);
/** The stop nearest to a place along a slider, px. */
export function stopAlong(alongPx: number, widthPx: number): number {
  const way = Math.max(1, widthPx - knobPx);
  return Math.round(stops * Math.min(1, Math.max(0, (alongPx - knobPx / 2) / way)));
}
