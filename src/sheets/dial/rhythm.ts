import type { Bench } from "../../set/bench";
import { dialAt, dialSlope, readingFor } from "../../set/fitted-dial";
import { type DialPlain, dialOf } from "../dial-inputs";
import { resolveInputs } from "../resolve";
import { dial } from "./sheet";

/** What a person at the bench needs between two zero beats: the next marker, where to expect it, and whether a reading is odd. */
export interface Rhythm {
  readonly spacingHz: number;
  /** marker to turn to next */
  readonly nextHz: number;
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
  const spacingHz = x.spacing;
  const first = direction === 1 ? Math.ceil(low / spacingHz - 1e-9) * spacingHz : Math.floor(high / spacingHz + 1e-9) * spacingHz;
  const last = own[own.length - 1];
  const onward = last ? (Math.round(last.frequencyHz / spacingHz) + direction) * spacingHz : first;
  const read = own.length >= 5 ? dialOf(x) : undefined;
  const fit = read?.ok ? read.value.fit : undefined;
  const expected: Rhythm["expected"] = (hz) => {
    if (!fit) return undefined;
    const reading = readingFor(fit, hz * (1 + x.markerError));
    if (reading === undefined) return undefined;
    const slope = Math.abs(dialSlope(fit, reading));
    return { reading, within: 2 * Math.hypot(dialAt(fit, reading, direction).uHz / slope, fit.readingNoise) };
  };
  return {
    spacingHz,
    nextHz: onward >= low * 0.98 && onward <= high * 1.02 ? onward : first,
    oddOnes: read?.ok ? read.value.odd.map((o) => o.index) : [],
    expected,
    odd: (reading, hz) => {
      const e = expected(hz);
      if (!e || !fit || Math.abs(reading - e.reading) <= 2.5 * e.within) return undefined;
      const there = dialAt(fit, reading, direction).hz / (1 + x.markerError);
      const marker = Math.round(there / spacingHz) * spacingHz;
      const says = `${(hz / 1e6).toFixed(3)} MHz is expected near ${e.reading.toFixed(1)}; ${reading} is ${Math.abs(reading - e.reading).toFixed(1)} away`;
      return marker !== hz && Math.abs(there - marker) < 0.2 * spacingHz
        ? `${says}. Is it the marker at ${(marker / 1e6).toFixed(3)} MHz?`
        : `${says}. Read it once more.`;
    },
  };
}
