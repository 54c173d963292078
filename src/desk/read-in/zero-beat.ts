import type { Entry, Reading } from "../../job/document";
import { benchOf, type JobView, setPointsOf } from "../../job/view";
import type { Stamp } from "../../job/works";
import type { ZeroBeats } from "../../readings/zero-beats";
import { rhythmOf } from "../../sheets/dial/rhythm";
import { scaleEnds } from "../../sheets/inputs/dial";
import { bad, good, type Read } from "../../units/issue";
import { parseQuantity } from "../../units/parse";
import { printValue } from "../../units/print";
import { typedDial } from "./typed-dial";

/** A zero beat as it is typed. */
export interface TypedBeat {
  readonly band: string;
  readonly setPoint: string;
  readonly reading: string;
  readonly frequency: string;
  readonly approach: "up" | "down" | "not-said";
  readonly thermal?: Reading["thermal"];
}
/** The same as numbers: scale reading, Hz, and the side that it was come from. */
interface Beat {
  readonly value: number;
  readonly hz: number;
  readonly approach: -1 | 0 | 1;
}
type Band = JobView["set"]["bands"][number];

function beatOf(said: TypedBeat, band: Band): Read<Beat> {
  const reading = parseQuantity(said.reading, "division", "reading");
  if (!reading.ok) return reading;
  const frequency = parseQuantity(said.frequency, "frequency", "frequency");
  if (!frequency.ok) return frequency;
  const hz = frequency.value.value;
  if (!(hz > 0)) return bad("frequency", "not-positive", said.frequency, "a frequency above 0");
  if (hz < 0.95 * band.low.value || hz > 1.05 * band.high.value)
    return bad(
      "frequency",
      "outside-the-band",
      printValue(hz, "frequency"),
      `a frequency on ${band.label}, ${printValue(band.low.value, "frequency")} to ${printValue(band.high.value, "frequency")}; else choose the band that it is on`,
    );
  return good({ value: reading.value.value, hz, approach: ({ up: 1, down: -1, "not-said": 0 } as const)[said.approach] });
}

/** The set-point that is meant, however it is spelt: one that is there, or a new one. */
export function setPointMeant(view: JobView, said: Pick<TypedBeat, "band" | "setPoint">): string {
  const named = said.setPoint.trim();
  return setPointsOf(view, said.band).find((p) => p.toLowerCase() === named.toLowerCase()) ?? named;
}

/**
 * One zero beat as an entry, as it is typed at the bench. What is odd about it stands in its warnings.
 *
 * @param view the job
 * @param said what was typed: scale reading, frequency, side, band, set-point
 * @param stamp time, person, id
 * @returns the entry, or the issue at the field that is wrong
 */
export function zeroBeat(view: JobView, said: TypedBeat, stamp: Stamp): Read<Entry> {
  const band = view.set.bands.find((b) => b.id === said.band);
  if (!band) return bad("band", "no-band", said.band, `one of ${view.set.bands.map((b) => `${b.id} (${b.label})`).join(", ")}`);
  const beat = beatOf(said, band);
  if (!beat.ok) return beat;
  const { value, hz, approach } = beat.value;
  const setPoint = setPointMeant(view, said);
  const at = `bands.${said.band}:${setPoint}`;
  const bench = benchOf(view, at);
  const ends = scaleEnds({ ...bench, points: () => [...bench.points(at), { reading: value, frequencyHz: hz, approach: 0 }] });
  const margin = 0.05 * (ends.high - ends.low);
  if (value < ends.low - margin || value > ends.high + margin)
    return bad(
      "reading",
      "off-the-scale",
      said.reading,
      `a reading on the scale, ${ends.low} to ${ends.high}; where the scale has other ends, keep them on the sheet dial (scaleLow, scaleHigh)`,
    );
  const odd = rhythmOf(bench, approach === -1 ? -1 : 1)?.odd(value, hz);
  const beats: ZeroBeats = { reading: [value], frequencyHz: [hz], approach: [approach] };
  return good(
    typedDial(view, { state: "as-left", thermal: said.thermal, band: said.band, setPoint, beats, warnings: odd ? [odd] : [] }, stamp),
  );
}
