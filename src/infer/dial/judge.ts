import { lawFailsAt } from "../../numerics/misfit";
import { uniformStream } from "../../numerics/random";
import { type Conversion, oscillatorHz } from "../../physics/dial-law";
import type { DialPoint } from "../../readings/zero-beats";
import { good, type Issue, type Read } from "../../units/issue";
import { evidenceOf } from "./evidence";
import { fitDial, noisePriorSigma } from "./fit";
import { backlashOf, type DialFit, dialAt, dialSlope, readingFor } from "./fitted";
import { type DialAssumed, enoughPoints } from "./frame";

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
/** times the stated noise that readings may scatter by */
const scatterTimes = [2, 4, 8];
/** what it costs to say that readings scatter by more than was stated: one dial in thirty does; common practice, no source */
const scatterLog = Math.log(30);
const scatterCost = (times: number): number => Math.min(scatterLog, 0.5 * (Math.log(times) / noisePriorSigma) ** 2);
/** A law must bend through its readings so much better than a stiff one with more scatter, in logarithms of the evidence, before its bends are believed. */
const bendLog = 5;

/** How well a dial's readings are explained by one law: as stated, odd ones paid for, and with more scatter. */
interface OneLaw {
  readonly stated: number;
  readonly scattered: number;
  /** whether what is missed is to be told as scatter: it explains better than odd readings do, and not much worse than bends */
  readonly scatters: boolean;
}
function oneLaw(all: readonly DialPoint[], kept: readonly DialPoint[], c: Conversion, assumed: DialAssumed): OneLaw {
  const most = (of: readonly number[]): number => Math.max(...of);
  // a backlash far from what was expected is no scatter
  const backlashes = new Set(all.map((p) => p.approach)).size > 1 ? [1, 10] : [1];
  const log = (points: readonly DialPoint[], times: number, stiff: boolean): number =>
    most(
      backlashes.map(
        (b) =>
          evidenceOf(points, c, { ...assumed, readingNoise: times * assumed.readingNoise, backlashU: b * assumed.backlashU }, { stiff })
            ?.log ?? Number.NEGATIVE_INFINITY,
      ),
    ) - scatterCost(times);
  const cost = oddLog * (all.length - kept.length);
  const stated = most([log(all, 1, false), log(kept, 1, false) - cost]);

  const stiff = most(scatterTimes.map((t) => log(all, t, true)));
  const odd = cost > 0 ? log(kept, 1, false) - cost : Number.NEGATIVE_INFINITY;
  const scattered = most([stiff, ...scatterTimes.flatMap((t) => [log(all, t, false), log(kept, t, false) - cost])]);
  // few readings can be bent through, or called odd, whatever they are
  const scatters =
    all.length < fewReadings
      ? stiff > log(all, 1, true) && stiff > odd - rivalLog
      : stiff > most([log(all, 1, true), odd, stated - bendLog]);
  return { stated, scattered, scatters };
}
/** With fewer readings than this a law that misses them is widened, whether it could bend through them or not. House rule, no source. */
const fewReadings = 10;
/** Few readings tell their own scatter to about a half, so the law fails at twice what it does elsewhere. House rule, no source. */
const fewFailAt = 2 * lawFailsAt;
const tooScattered = (count: number, times: number): Issue => ({
  path: "points",
  code: "scattered",
  read: `${count} points off any one law by some ${times.toPrecision(1)} times the reading noise that was stated`,
  expected:
    "zero beats that lie on one law: so few don't tell a slipped pointer or a wrong marker from readings that scatter. Read one marker several times over, take more markers, and look at the cord",
});
/** A rival must explain the readings so much better, in logarithms of the evidence, before it is believed: a thousand times. */
const rivalLog = 7;
/** what an odd point costs: one in thirty is odd, and may then stand anywhere on a hundred divisions; common practice, no source */
const oddLog = Math.log(30 * 100);

/**
 * Whether the points are better explained by markers miscounted from one of them on, or by a scale that slipped. Either leaves a law that looks
 * well and is wrong by a marker's spacing, so nothing is answered until it is mended.
 */
function rivalOf(
  points: readonly DialPoint[],
  all: readonly number[],
  kept: readonly number[],
  law: OneLaw,
  c: Conversion,
  assumed: DialAssumed,
  spacingHz: number,
): Issue | undefined {
  const cost = oddLog * (all.length - kept.length);
  const base = law.stated;
  if (!Number.isFinite(base) || all.length < enoughPoints + 1) return undefined;
  let best: { readonly log: number; readonly issue: Issue } | undefined;
  let alsoCounted = false;
  const consider = (log: number, issue: () => Issue): void => {
    if (log > base + rivalLog && log > (best?.log ?? Number.NEGATIVE_INFINITY)) best = { log, issue: issue() };
  };
  // a slip may make points look odd, and an odd point may hide a slip: each is sought with all, with those that fit, and where all seem to scatter
  // without each that may be the odd one
  const fewer = kept.length < all.length ? [[kept, cost] as const] : law.scatters ? withoutOne(points, all) : [];
  for (const [which, paid] of [[all, 0] as const, ...fewer]) {
    const own = at(points, which);
    const stride = own.length > 60 ? 2 : 1;
    const byFrequency = own.map((_, i) => i).sort((a, b) => own[a].frequencyHz - own[b].frequencyHz);
    const row = (i: number): number => which[i] + 1;
    for (let k = 2; k <= own.length - 2; k += stride) {
      for (const steps of [-1, 1]) {
        const moved = new Set(byFrequency.slice(k));
        const relabelled = own.map((p, i) => (moved.has(i) ? { ...p, frequencyHz: p.frequencyHz + steps * spacingHz } : p));
        if (steps < 0 && relabelled[byFrequency[k]].frequencyHz <= relabelled[byFrequency[k - 1]].frequencyHz) continue;
        const e = evidenceOf(relabelled, c, assumed);
        if (!e) continue;
        alsoCounted ||= e.log - paid > base + rivalLog;
        const [below, above] = [byFrequency[k - 1], byFrequency[k]];
        consider(e.log - paid, () => ({
          path: `points rows ${row(below)} and ${row(above)}`,
          code: "miscounted",
          read: `${(own[below].frequencyHz / 1e6).toFixed(3)} and ${(own[above].frequencyHz / 1e6).toFixed(3)} MHz`,
          expected: `markers counted right: between these two a marker was ${steps > 0 ? "missed" : "counted twice"}, so all above or all below are one marker off. Tell one of them from a station or a coarser marker, and write the others anew`,
        }));
      }
      const slip = evidenceOf(own, c, assumed, { slippedFrom: k });
      if (slip)
        consider(slip.log - paid, () => ({
          path: `points row ${row(k)}`,
          code: "slipped",
          read: String(own[k].reading),
          expected: `one scale throughout: from this row on it reads ${Math.abs(slip.slipDiv).toFixed(1)} divisions ${slip.slipDiv > 0 ? "higher" : "lower"} than before. The pointer or cord slipped, or the main dial was moved; set it back or take the earlier ones again, under a set-point of their own`,
        }));
    }
  }
  if (!best || best.log < law.scattered) return undefined;
  const { issue } = best;
  // on a coarse scale a marker's spacing is a division or two, and both look alike; and few readings that scatter look like either
  const counted = issue.code === "slipped" && alsoCounted;
  const scattered = best.log < law.scattered + rivalLog;
  return {
    ...issue,
    code: `${issue.code}${counted ? "-or-miscounted" : ""}${scattered ? "-or-scattered" : ""}`,
    expected: [
      issue.expected,
      ...(counted ? ["Or a marker was missed or counted twice about there: tell one from a station first"] : []),
      ...(scattered
        ? [
            "Or the readings scatter by far more than was stated: these are too few to tell. Read some of them again, and the same one several times",
          ]
        : []),
    ].join(". "),
  };
}

/** Up to so many points each may be the odd one; of more only those whose marker stands at two readings. Keeps the search short. */
const mostLeftOut = 16;
const withoutOne = (points: readonly DialPoint[], all: readonly number[]): (readonly [number[], number])[] =>
  all
    .filter((i) => all.length <= mostLeftOut || all.some((j) => j !== i && points[j].frequencyHz === points[i].frequencyHz))
    .map((i) => [all.filter((j) => j !== i), oddLog] as const);

const at = (points: readonly DialPoint[], which: readonly number[]): DialPoint[] => which.map((i) => points[i]);
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
        expected: "one frequency at one reading: take one of the two back",
      });
    atReading.set(p.reading, i);
  }
  return out;
}

/** How far a point lies off the law, in standard deviations of what the law expects of it. */
function sigmasOf(fit: DialFit, p: DialPoint, inside: boolean): number {
  const law = dialAt(fit, p.reading, p.approach);
  const slope = dialSlope(fit, p.reading);
  const noise = Math.abs(slope) * Math.hypot(fit.readingNoise, p.approach === 0 ? fit.scaling.backlash / 2 : 0);
  // a point that takes part in the fit has pulled the law towards itself
  const spread = inside ? Math.sqrt(Math.max(noise ** 2 - law.uHz ** 2, 0.2 * noise ** 2)) : Math.hypot(noise, law.uHz);
  return (p.frequencyHz - law.hz) / spread;
}

/** Points that a cubic through random few of them fits, but for a quarter. */
function straightOnes(points: readonly DialPoint[], among: readonly number[], c: Conversion, assumed: DialAssumed): number[] {
  const n = among.length;
  const readings = among.map((i) => points[i].reading);
  const [low, high] = [Math.min(...readings), Math.max(...readings)];
  const place = (r: number): number => (2 * r - low - high) / (high - low || 1);
  // a straight-line-frequency capacitor is a cubic in f, one of straight-line capacitance in 1/f^2: each has its turn
  const links = [(f: number) => f ** -2, Math.log, (f: number) => f].map((link) => {
    const y = among.map((i) => link(oscillatorHz(points[i].frequencyHz, c)));
    const [y0, y1] = [Math.min(...y), Math.max(...y)];
    return y.map((v) => (2 * v - y0 - y1) / (y1 - y0 || 1));
  });
  const x = readings.map(place);
  const most = Math.ceil(0.75 * n);
  const chance = uniformStream(1, "trimmed subsets", 400 * 4);
  let best = Number.POSITIVE_INFINITY;
  let residuals: number[] = [];
  for (let k = 0; k < 400; k++) {
    const chosen = new Set<number>();
    for (let j = 0; j < 4; j++) chosen.add(Math.min(n - 1, Math.floor(chance[4 * k + j] * n)));
    if (chosen.size < 4 || new Set([...chosen].map((i) => x[i])).size < 4) continue;
    const through = [...chosen];
    for (const z of links) {
      const off = x.map((v, i) => z[i] - lagrange(through, x, z, v));
      const trimmed = off
        .map((v) => v * v)
        .sort((a, b) => a - b)
        .slice(0, most)
        .reduce((s, v) => s + v, 0);
      if (trimmed < best) {
        best = trimmed;
        residuals = off;
      }
    }
  }
  if (residuals.length === 0) return [...among];
  // z runs over 2 along the scale: what a division is worth, and what a cubic may miss by
  const division = 2 / (high - low || 1);
  const limit = Math.max(12 * Math.sqrt(best / most), 8 * assumed.readingNoise * division);
  return among.filter((_, i) => Math.abs(residuals[i]) <= limit);
}
function lagrange(through: readonly number[], x: readonly number[], z: readonly number[], v: number): number {
  let sum = 0;
  for (const i of through) {
    let term = z[i];
    for (const j of through) if (j !== i) term *= (v - x[j]) / (x[i] - x[j]);
    sum += term;
  }
  return sum;
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
