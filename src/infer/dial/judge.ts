import { lawFailsAt } from "../../numerics/misfit";
import type { Conversion } from "../../physics/dial-law";
import type { DialPoint } from "../../readings/zero-beats";
import { good, type Issue, type Read } from "../../units/issue";
import { fitDial } from "./fit";
import { backlashOf, type DialFit, dialAt, dialSlope, readingFor } from "./fitted";
import { type DialAssumed, enoughPoints } from "./frame";
import { at, fewReadings, oneLaw, rivalOf } from "./rivals";
import { pointIssues, straightOnes, writtenTwice } from "./start";

export type OddCause = "neighbour" | "wrong-side" | "unexplained";
export interface OddPoint {
  /** place in the list of points, from 0 */
  readonly index: number;
  readonly point: DialPoint;
  /** what the law says at that reading, Hz, and how far the point is off in standard deviations */
  readonly lawHz: number;
  readonly sigmas: number;
  readonly cause: OddCause;
  /** frequency that it would be, where it was taken for its neighbour, Hz */
  readonly likelyHz?: number;
  /** divisions that it lies off */
  readonly offDiv: number;
}
export interface JudgedDial {
  readonly fit: DialFit;
  readonly odd: readonly OddPoint[];
  /** points that were left out because they repeat another exactly, by place */
  readonly repeats: readonly number[];
}
const oddSigmas = 4;
const fewestForOdd = 7;

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
export function judgeDial(
  points: readonly DialPoint[],
  conversion: Conversion,
  assumed: DialAssumed,
  how: { readonly spacingHz: number; readonly scale?: readonly [number, number] },
): Read<JudgedDial> {
  const judged = judgeUnsaid(points, conversion, assumed, how);
  const twice = judged.ok ? [] : writtenTwice(points);
  if (judged.ok || twice.length === 0) return judged;
  return { ok: false, issues: judged.issues.map((i) => ({ ...i, expected: `${i.expected}. ${twice.join(". ")}` })) };
}
function judgeUnsaid(
  points: readonly DialPoint[],
  conversion: Conversion,
  assumed: DialAssumed,
  how: { readonly spacingHz: number; readonly scale?: readonly [number, number] },
): Read<JudgedDial> {
  const issues = pointIssues(points, how.scale);
  if (issues.length > 0) return { ok: false, issues };
  const repeats = points.flatMap((p, i) => (points.findIndex((q) => same(p, q)) < i ? [i] : []));
  let kept = points.map((_, i) => i).filter((i) => !repeats.includes(i));
  if (kept.length >= fewestForOdd) kept = straightOnes(points, kept, conversion, assumed);
  let fit = fitDial(at(points, kept), conversion, assumed);
  for (let round = 0; fit.ok && round < 4; round++) {
    const { value } = fit;
    const next = points
      .map((_, i) => i)
      .filter((i) => !repeats.includes(i) && Math.abs(sigmasOf(value, points[i], kept.includes(i))) < oddSigmas);
    if (next.length < enoughPoints || next.join() === kept.join()) break;
    kept = next;
    fit = fitDial(at(points, kept), conversion, assumed);
  }
  if (!fit.ok)
    return {
      ok: false,
      issues: fit.issues.map((i) =>
        i.code === "not-one-law" ? { ...i, expected: `${i.expected}; or a marker was written with a wrong frequency` } : i,
      ),
    };
  const unique = points.map((_, i) => i).filter((i) => !repeats.includes(i));
  const law = oneLaw(at(points, unique), at(points, kept), conversion, assumed);
  const rival = rivalOf(points, unique, kept, law, conversion, assumed, how.spacingHz);
  if (rival) return { ok: false, issues: [rival] };
  if (law.scatters && unique.length > enoughPoints) {
    const wide = { ...assumed, scatter: true };
    const whole = fitDial(at(points, unique), conversion, wide);
    if (!whole.ok) return whole;
    kept = unique.filter((i) => Math.abs(sigmasOf(whole.value, points[i], true)) < oddSigmas);
    fit = fitDial(at(points, kept), conversion, wide);
    if (!fit.ok) return fit;
    if (unique.length < fewReadings && fit.value.readingNoise > fewFailAt * assumed.readingNoise)
      return { ok: false, issues: [tooScattered(unique.length, fit.value.readingNoise / assumed.readingNoise)] };
  }
  const { value } = fit;
  const out = points.map((_, i) => i).filter((i) => !kept.includes(i) && !repeats.includes(i));
  if (points.length >= fewestForOdd && out.length > 0.3 * points.length)
    return {
      ok: false,
      issues: [
        {
          path: "points",
          code: "not-one-law",
          read: `${out.length} of ${points.length} points off any one law`,
          expected: "zero beats of one band and one set-point: two may be mixed, or a marker was missed in counting",
        },
      ],
    };
  return good({ fit: value, odd: out.map((i) => explain(value, points, i, how.spacingHz)), repeats });
}
/** Few readings tell their own scatter to about a half, so the law fails at twice what it does elsewhere. House rule, no source. */
const fewFailAt = 2 * lawFailsAt;
const tooScattered = (count: number, times: number): Issue => ({
  path: "points",
  code: "scattered",
  read: `${count} points off any one law by some ${times.toPrecision(1)} times the reading noise that was stated`,
  expected:
    "zero beats that lie on one law: so few don't tell a slipped pointer or a wrong marker from readings that scatter. Read one marker several times over, take more markers, and look at the cord",
});
const same = (a: DialPoint, b: DialPoint): boolean =>
  a.reading === b.reading && a.frequencyHz === b.frequencyHz && a.approach === b.approach;

/** How far a point lies off the law, in standard deviations of what the law expects of it. */
function sigmasOf(fit: DialFit, p: DialPoint, inside: boolean): number {
  const law = dialAt(fit, p.reading, p.approach);
  const slope = dialSlope(fit, p.reading);
  const noise = Math.abs(slope) * Math.hypot(fit.readingNoise, p.approach === 0 ? fit.scaling.backlash / 2 : 0);
  // a point that takes part in the fit has pulled the law towards itself
  const spread = inside ? Math.sqrt(Math.max(noise ** 2 - law.uHz ** 2, 0.2 * noise ** 2)) : Math.hypot(noise, law.uHz);
  return (p.frequencyHz - law.hz) / spread;
}

/** Divisions that a point lies off the law. */
const offOf = (fit: DialFit, p: DialPoint): number => (p.frequencyHz - dialAt(fit, p.reading, p.approach).hz) / dialSlope(fit, p.reading);

/** The marker that a point is, where the law says another one than was written, and says it clearly. */
function neighbourOf(fit: DialFit, p: DialPoint, spacingHz: number): number | undefined {
  const { hz } = dialAt(fit, p.reading, p.approach);
  const spread = Math.abs((p.frequencyHz - hz) / sigmasOf(fit, p, false));
  const steps = Math.round((hz - p.frequencyHz) / spacingHz);
  const likely = p.frequencyHz + steps * spacingHz;
  return steps !== 0 && Math.abs(steps) <= 5 && Math.abs(likely - hz) < 3.5 * spread && 5 * spread < spacingHz ? likely : undefined;
}

function explain(fit: DialFit, points: readonly DialPoint[], index: number, spacingHz: number): OddPoint {
  const point = points[index];
  const law = dialAt(fit, point.reading, point.approach);
  const sigmas = sigmasOf(fit, point, false);
  const offDiv = offOf(fit, point);
  const common = { index, point, lawHz: law.hz, sigmas, offDiv };
  const neighbour = neighbourOf(fit, point, spacingHz);
  if (neighbour !== undefined) return { ...common, cause: "neighbour", likelyHz: neighbour };
  const lash = backlashOf(fit);
  const expected = (point.approach || fit.side) * lash.value;
  if (Math.abs(Math.abs(offDiv) - Math.abs(expected)) < 3 * Math.hypot(lash.u, fit.readingNoise) && offDiv * expected > 0)
    return { ...common, cause: "wrong-side" };
  return { ...common, cause: "unexplained" };
}

/**
 * The marker that would tell most about the law: where its doubt, and that of its surroundings, is largest.
 *
 * @param fit the fit
 * @param lowHz where the law is wanted
 * @param highHz to there
 * @param spacingHz markers to choose from are its multiples
 * @returns frequency of the marker; undefined where each one is taken already
 */
export function bestNextMarker(fit: DialFit, lowHz: number, highHz: number, spacingHz: number): number | undefined {
  let best: { readonly hz: number; readonly doubt: number } | undefined;
  // of very many markers every so-manieth will do
  const stride = Math.max(1, Math.ceil((highHz - lowHz) / spacingHz / 120));
  const first = Math.ceil(lowHz / spacingHz - 1e-9);
  // counted, since multiples so high that a stride does not change them would never come to the end
  for (let i = 0; i <= 121; i++) {
    const hz = (first + i * stride) * spacingHz;
    if (!(hz <= highHz * (1 + 1e-12))) break;
    if (fit.points.some((p) => Math.abs(p.frequencyHz - hz) < 1)) continue;
    const reading = readingFor(fit, hz);
    const doubt = reading === undefined ? Number.POSITIVE_INFINITY : dialAt(fit, reading).uHz;
    if (!best || doubt > best.doubt) best = { hz, doubt };
  }
  return best?.hz;
}
