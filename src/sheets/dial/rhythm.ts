import type { Bench } from "../../set/bench";
import { dialAt, dialSlope, readingFor } from "../../set/fitted-dial";
import { type DialPlain, dialOf } from "../dial-inputs";
import { resolveInputs } from "../resolve";
import { dial } from "./sheet";

/** What a person at the bench needs between two zero beats: the next marker, where to expect it, and whether a reading is odd. */
export interface Rhythm {
  readonly spacingHz: number;
  /** marker to turn to next; undefined once all of the band are taken from this side */
  readonly nextHz: number | undefined;
  /** places of the zero beats that do not fit, in the order in which they were taken */
  readonly oddOnes: readonly number[];
  /** where the dial's law expects a frequency, and how closely, divisions; undefined while too few are taken */
  readonly expected: (hz: number) => { readonly reading: number; readonly within: number } | undefined;
  /** what is odd about a reading, in words; undefined where nothing is */
  readonly odd: (reading: number, hz: number) => string | undefined;
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
  const inputs = resolveInputs(dial, bench);
  if (!inputs.ok) return undefined;
  const x = inputs.value.plain as unknown as DialPlain & { readonly spacing: number };
  const own = bench.points(bench.at);
  const [low, high] = [bench.quantity(`${bench.at}.low`)?.value ?? 0, bench.quantity(`${bench.at}.high`)?.value ?? 0];
  const [last, before] = [own[own.length - 1], own[own.length - 2]];
  // finer markers than the generator's usual ones, where the last two beats say so
  const step = last && before ? Math.abs(last.frequencyHz - before.frequencyHz) : 0;
  const spacingHz = step >= 1000 && step < 0.99 * x.spacing ? step : x.spacing;
  const read = own.length >= 5 ? dialOf(x) : undefined;
  const fit = read?.ok ? read.value.fit : undefined;
  const expected: Rhythm["expected"] = (hz) => {
    if (!fit) return undefined;
    const reading = readingFor(fit, hz * (1 + x.markerError));
    if (reading === undefined) return undefined;
    const slope = Math.abs(dialSlope(fit, reading));
    return { reading, within: 2 * Math.hypot(dialAt(fit, reading, direction).uHz / slope, fit.readingNoise) };
  };
  const [scaleFrom, scaleTo] = [Math.min(x.scaleLow, x.scaleHigh), Math.max(x.scaleLow, x.scaleHigh)];
  const taken = (hz: number): boolean => own.some((p) => Math.abs(p.frequencyHz - hz) < 1 && p.approach !== -direction);
  const free = (hz: number): boolean => {
    const e = expected(hz);
    // once there is a law, what it does not find on the scale is off it
    return !taken(hz) && (fit ? e !== undefined && e.reading >= scaleFrom && e.reading <= scaleTo : true);
  };
  const markers: number[] = [];
  for (let k = Math.ceil((low * 0.998) / spacingHz); k * spacingHz <= high * 1.002; k++) markers.push(k * spacingHz);
  if (direction === -1) markers.reverse();
  const ahead = markers.filter((m) => !last || (m - last.frequencyHz) * direction > 1);
  return {
    spacingHz,
    nextHz: ahead.find(free) ?? markers.find(free),
    oddOnes: read?.ok ? read.value.odd.map((o) => o.index) : [],
    expected,
    odd: (reading, hz) => {
      const e = expected(hz);
      if (!e) {
        const same = own.find((p) => Math.abs(p.frequencyHz - hz) < 1 && p.approach === direction);
        const apart = 0.01 * (scaleTo - scaleFrom);
        if (same && Math.abs(same.reading - reading) > apart)
          return `${(hz / 1e6).toFixed(3)} MHz was read at ${same.reading} from this side before. One of the two is another marker, or a slip: read it once more.`;
        return undefined;
      }
      if (!fit || Math.abs(reading - e.reading) <= 2.5 * e.within) return undefined;
      const there = dialAt(fit, reading, direction).hz / (1 + x.markerError);
      const marker = Math.round(there / spacingHz) * spacingHz;
      const says = `${(hz / 1e6).toFixed(3)} MHz is expected near ${e.reading.toFixed(1)}; ${reading} is ${Math.abs(reading - e.reading).toFixed(1)} away`;
      return marker !== hz && Math.abs(there - marker) < 0.2 * spacingHz
        ? `${says}. Is it the marker at ${(marker / 1e6).toFixed(3)} MHz?`
        : `${says}. Read it once more.`;
    },
  };
}
