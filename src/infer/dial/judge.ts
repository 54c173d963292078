import { lawFailsAt } from "../../numerics/misfit";
import type { Conversion } from "../../physics/dial-law";
import type { DialPoint } from "../../readings/zero-beats";
import { bad, good, type Issue, type Read } from "../../units/issue";
import { fitDial } from "./fit";
import type { DialFit } from "./fitted";
import { type DialAssumed, enoughPoints } from "./frame";
import { explain, type OddPoint, sigmasOf } from "./odd";
import { fewReadings, type Judged, oneLaw, pointsAt } from "./one-law";
import { rivalOf } from "./rival";
import { straightOnes } from "./trimmed";

export interface JudgedDial {
  readonly fit: DialFit;
  readonly odd: readonly OddPoint[];
  /** points that were left out because they repeat another exactly, by place */
  readonly repeats: readonly number[];
}
const oddSigmas = 4;
const fewestForOdd = 7;
const mostRounds = 4;

/** Spacing of the markers, and ends of the scale. */
interface Scale {
  readonly spacingHz: number;
  readonly scale?: readonly [number, number];
}
/**
 * Fits a dial with odd points found and left out, each with its likely cause.
 *
 * @param points zero beats in the order in which they were taken
 * @param conversion IF and side of the oscillator
 * @param assumed noise and backlash to expect
 * @param how spacing of the markers, and ends of the scale
 * @returns fit and odd points, or located issues
 * @source trimmed least squares over random subsets (Rousseeuw 1984) finds a start that a quarter of wrong points can't pull; then residuals of
 * the fit itself against what it predicts there
 */
export function judgeDial(points: readonly DialPoint[], conversion: Conversion, assumed: DialAssumed, how: Scale): Read<JudgedDial> {
  const issues = pointIssues(points, how.scale);
  if (issues.length > 0) return { ok: false, issues };
  const judged = judge({ points, conversion, assumed, spacingHz: how.spacingHz });
  const twice = judged.ok ? [] : writtenTwice(points);
  if (judged.ok || twice.length === 0) return judged;
  return { ok: false, issues: judged.issues.map((i) => ({ ...i, expected: `${i.expected}. ${twice.join(". ")}` })) };
}
/** Markers that stand at two readings from one side: nothing refuses them, yet where points fit no law they are the first to look at. */
function writtenTwice(points: readonly DialPoint[]): string[] {
  const readings = points.map((p) => p.reading);
  const apart = 0.02 * (Math.max(...readings) - Math.min(...readings));
  return points.flatMap((p, i) => {
    const j = points.findIndex((q) => q.frequencyHz === p.frequencyHz && q.approach === p.approach);
    return j < i && Math.abs(points[j].reading - p.reading) > apart
      ? [
          `Look first at rows ${j + 1} and ${i + 1}: both are ${(p.frequencyHz / 1e6).toFixed(3)} MHz, at ${points[j].reading} and ${p.reading}`,
        ]
      : [];
  });
}
/** A fit, and the places of the points that it was made from. */
interface Kept {
  readonly fit: DialFit;
  readonly kept: readonly number[];
}
function judge(j: Judged): Read<JudgedDial> {
  const { points } = j;
  const repeats = points.flatMap((p, i) => (points.findIndex((q) => same(p, q)) < i ? [i] : []));
  const unique = points.map((_, i) => i).filter((i) => !repeats.includes(i));
  const strict = strictFit(j, unique);
  if (!strict.ok) return strict;
  const law = oneLaw(j, unique, strict.value.kept);
  const rival = rivalOf(j, unique, strict.value.kept, law);
  if (rival) return { ok: false, issues: [rival] };
  const found = law.scatters && unique.length > enoughPoints ? scatteredFit(j, unique) : good(strict.value);
  if (!found.ok) return found;
  const { fit, kept } = found.value;
  const out = unique.filter((i) => !kept.includes(i));
  if (points.length >= fewestForOdd && out.length > 0.3 * points.length)
    return bad(
      "points",
      "not-one-law",
      `${out.length} of ${points.length} points off any single law`,
      "zero beats of one band and one set-point: two may be mixed, or a marker was missed in counting",
    );
  return good({ fit, odd: out.map((i) => explain(fit, points, i, j.spacingHz)), repeats });
}
/** One law through the points that fit it, found round by round. */
function strictFit({ points, conversion, assumed }: Judged, unique: readonly number[]): Read<Kept> {
  let kept = unique.length >= fewestForOdd ? straightOnes(points, unique, conversion, assumed.readingNoise) : unique;
  let fit = fitDial(pointsAt(points, kept), conversion, assumed);
  for (let round = 0; fit.ok && round < mostRounds; round++) {
    const { value } = fit;
    const next = unique.filter((i) => Math.abs(sigmasOf(value, points[i], kept.includes(i))) < oddSigmas);
    if (next.length < enoughPoints || next.join() === kept.join()) break;
    kept = next;
    fit = fitDial(pointsAt(points, kept), conversion, assumed);
  }
  if (fit.ok) return good({ fit: fit.value, kept });
  const orWrong = (i: Issue): Issue =>
    i.code === "not-one-law" ? { ...i, expected: `${i.expected}; or a marker was written with a wrong frequency` } : i;
  return { ok: false, issues: fit.issues.map(orWrong) };
}
/** One law through all readings with more scatter than was stated; refused where few readings miss it by far. */
function scatteredFit({ points, conversion, assumed }: Judged, unique: readonly number[]): Read<Kept> {
  const scatter = { ...assumed, scatter: true };
  const all = fitDial(pointsAt(points, unique), conversion, scatter);
  if (!all.ok) return all;
  const kept = unique.filter((i) => Math.abs(sigmasOf(all.value, points[i], true)) < oddSigmas);
  const fit = fitDial(pointsAt(points, kept), conversion, scatter);
  if (!fit.ok) return fit;
  const times = fit.value.readingNoise / assumed.readingNoise;
  return unique.length < fewReadings && times > fewFailAt ? tooScattered(unique.length, times) : good({ fit: fit.value, kept });
}
/** Few readings tell their own scatter to about a half, so the law fails at twice what it does elsewhere. House rule, no source. */
const fewFailAt = 2 * lawFailsAt;
const tooScattered = (count: number, times: number) =>
  bad(
    "points",
    "scattered",
    `${count} points off any single law by about ${times.toPrecision(1)} times the stated reading noise`,
    "zero beats that lie on one law: this few can't tell a slipped pointer or a wrong marker from scattered readings. Read one marker several times, take more markers, and check the cord",
  );

const same = (a: DialPoint, b: DialPoint): boolean =>
  a.reading === b.reading && a.frequencyHz === b.frequencyHz && a.approach === b.approach;

/** What is wrong with the points themselves, each by its place in the list. */
function pointIssues(points: readonly DialPoint[], scale: readonly [number, number] | undefined): Issue[] {
  const out: Issue[] = [];
  const atReading = new Map<number, number>();
  for (const [i, p] of points.entries()) {
    const path = `points row ${i + 1}`;
    if (scale && (p.reading < scale[0] || p.reading > scale[1]))
      out.push({ path, code: "off-the-scale", read: String(p.reading), expected: `a reading from ${scale[0]} to ${scale[1]}` });
    if (!(p.frequencyHz > 0)) out.push({ path, code: "not-positive", read: String(p.frequencyHz), expected: "a frequency above 0" });
    const other = atReading.get(p.reading);
    if (other !== undefined && points[other].approach === p.approach && points[other].frequencyHz !== p.frequencyHz)
      out.push({
        path,
        code: "two-at-one",
        read: `${p.reading} again, as row ${other + 1}`,
        expected: "one frequency per reading: take one of the two back",
      });
    atReading.set(p.reading, i);
  }
  return out;
}
