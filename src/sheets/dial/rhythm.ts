import { plainOf } from "../../ask/plain";
import { type DialFit, dialAt, dialSlope, hzAt, reach, readingFor, wideningOf } from "../../infer/dial/fitted";
import type { Bench } from "../../set/bench";
import { printExact, printInterval } from "../../units/print";
import { dialOf } from "../inputs/dial-law";
import { ask } from "./ask";

/** What a person at the bench needs between two zero beats: the next marker, where to expect it, and whether a reading is odd. */
export interface Rhythm {
  readonly spacingHz: number;
  /** marker to turn to next; undefined once all of the band that the scale reaches are taken from this side */
  readonly nextHz: number | undefined;
  /** markers of the band that are not taken since the law, which reaches the scale's end, finds them off the scale: each in words, with its interval */
  readonly beyond: readonly string[];
  /** places of the zero beats that do not fit, in the order in which they were taken */
  readonly oddOnes: readonly number[];
  /** where the dial's law expects a frequency, and how closely, divisions; undefined while nothing is known of it */
  readonly expected: (hz: number) => { readonly reading: number; readonly within: number } | undefined;
  /** what is odd about a reading, in words; undefined where nothing is */
  readonly odd: (reading: number, hz: number) => string | undefined;
}

/**
 * Whether a frequency lies off the scale for sure: only where the law reaches the end of the scale, and is beyond it by more than its doubt.
 *
 * @param fit the law that speaks of the whole scale; none while there is none
 * @param hz frequency, Hz
 * @param scale ends of the scale, the lower reading first
 * @returns what the law says of that end; undefined where the frequency may be on the scale, or nothing is known of it
 * @source three standard uncertainties of the law, house rule
 */
function offTheScale(fit: DialFit | undefined, hz: number, scale: readonly [number, number]): string | undefined {
  if (!fit) return undefined;
  const rising = hzAt(fit, fit.high) > hzAt(fit, fit.low);
  for (const [i, end] of scale.entries()) {
    if (Math.abs(reach(fit)[i] - end) > 0.02 * (scale[1] - scale[0])) continue;
    const a = dialAt(fit, end);
    const doubt = 3 * wideningOf(fit) * a.uHz;
    if ((i === 1) === rising ? hz > a.hz + doubt : hz < a.hz - doubt)
      return `${printExact(Math.round(hz), "frequency")} is off the scale, which ends at ${printInterval(a.hz, a.hz - doubt, a.hz + doubt, "frequency")}`;
  }
  return undefined;
}

/**
 * The rhythm of taking zero beats on a band.
 *
 * @param bench the job's view, at the band
 * @param direction 1 turning up, -1 turning down
 * @returns next marker, expectation and judgement; undefined where the set's own inputs are not as they should be
 * @source house frame
 */
export function rhythmOf(bench: Bench, direction: 1 | -1): Rhythm | undefined {
  const inputs = plainOf(ask, bench);
  if (!inputs.ok) return undefined;
  const { value: x } = inputs;
  const own = bench.points(bench.at);
  const [low, high] = [bench.quantity(`${bench.at}.low`)?.value ?? 0, bench.quantity(`${bench.at}.high`)?.value ?? 0];
  const [last, before] = [own[own.length - 1], own[own.length - 2]];
  // finer markers than the generator's usual ones, where the last two beats say so
  const step = last && before ? Math.abs(last.frequencyHz - before.frequencyHz) : 0;
  const spacingHz = step >= 1000 && step < 0.99 * x.spacing ? step : x.spacing;
  const read = own.length >= 2 ? dialOf(x) : undefined;
  const laws = [read, own.length >= 2 ? dialOf(x, true) : undefined].flatMap((r) => (r?.ok ? [r.value.fit] : []));
  const [scaleFrom, scaleTo] = [Math.min(x.scaleLow, x.scaleHigh), Math.max(x.scaleLow, x.scaleHigh)];
  /** The law of the beats themselves where it reaches; else the one that speaks of the whole scale. */
  const expectedBy = (hz: number) => {
    for (const fit of laws) {
      const reading = readingFor(fit, hz * (1 + x.markerError));
      if (reading === undefined) continue;
      const slope = Math.abs(dialSlope(fit, reading));
      const u = wideningOf(fit) * dialAt(fit, reading, direction).uHz;
      return { fit, reading, within: 2 * Math.hypot(u / slope, fit.readingNoise) };
    }
    return undefined;
  };
  const taken = (hz: number): boolean => own.some((p) => Math.abs(p.frequencyHz - hz) < 1 && p.approach !== -direction);
  const off = (hz: number): string | undefined => offTheScale(laws[laws.length - 1], hz * (1 + x.markerError), [scaleFrom, scaleTo]);
  const free = (hz: number): boolean => !taken(hz) && off(hz) === undefined;
  const markers: number[] = [];
  for (let k = Math.ceil((low * 0.998) / spacingHz); k * spacingHz <= high * 1.002; k++) markers.push(k * spacingHz);
  if (direction === -1) markers.reverse();
  const ahead = markers.filter((m) => !last || (m - last.frequencyHz) * direction > 1);
  return {
    spacingHz,
    nextHz: ahead.find(free) ?? markers.find(free),
    beyond: markers.flatMap((m) => (taken(m) ? [] : (off(m) ?? []))),
    oddOnes: read?.ok ? read.value.odd.map((o) => o.index) : [],
    expected: (hz) => {
      const e = expectedBy(hz);
      return e && { reading: e.reading, within: e.within };
    },
    odd: (reading, hz) => {
      const e = expectedBy(hz);
      if (!e) {
        const same = own.find((p) => Math.abs(p.frequencyHz - hz) < 1 && p.approach === direction);
        const apart = 0.01 * (scaleTo - scaleFrom);
        if (same && Math.abs(same.reading - reading) > apart)
          return `${printExact(hz, "frequency")} was read at ${same.reading} from this side before. One of the two is another marker, or a slip: read it once more.`;
        return undefined;
      }
      if (Math.abs(reading - e.reading) <= 2.5 * e.within) return undefined;
      const there = hzAt(e.fit, reading, direction) / (1 + x.markerError);
      const marker = Math.round(there / spacingHz) * spacingHz;
      const says = `${printExact(hz, "frequency")} is expected near ${e.reading.toFixed(1)}; ${reading} is ${Math.abs(reading - e.reading).toFixed(1)} away`;
      return marker !== hz && Math.abs(there - marker) < 0.2 * spacingHz
        ? `${says}. Is it the marker at ${printExact(marker, "frequency")}?`
        : `${says}. Read it once more.`;
    },
  };
}
