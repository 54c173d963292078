import { judgeMisfit, type Misfit } from "../../numerics/misfit";
import { drawParticles } from "../../numerics/particles";
import { normalStream } from "../../numerics/random";
import { type DriftLog, lineAlone, thinned } from "../../readings/drift-log";
import { toComeHz, type WarmUp } from "./warm-up";
import { dot, farApart, laws, modelOf, type WarmUpLaw } from "./warm-up-model";

/** A law whose best fit is less likely than another's by more than this, in logarithms, is left out. */
const leftOutAt = 5;
/** What a log tells of its warm-up. */
export interface WarmUpTold {
  /** warm-ups that the log leaves possible, of equal weight, the laws in turn */
  readonly possible: readonly WarmUp[];
  /** the one in the middle by what is still to come after the last reading */
  readonly middle: WarmUp;
  readonly misfit: Misfit;
  /** why no end is given; undefined where it is */
  readonly noEnd: "law-fails" | "pattern" | "open" | undefined;
}
/** Particles of each law. */
const particlesCount = 300;
const mostRows = 240;
/** A chassis takes 30 to 60 minutes to warm: a shorter log may not show it at all. Common practice, no source. */
const shortestS = 2400;
/** The end is given where 95 % of it lie within this part of the drift, either way. House rule, no source. */
const openFrom = 0.25;

/**
 * Warm-ups that a log leaves possible: three time constants, or a fast one and a stretched one or a tail. A log seldom tells these laws apart, so all
 * stand with equal weight unless one fits clearly worse. Line and room, where they were logged, move it besides, the line at once and through the heaters,
 * the room with the lag of a cabinet.
 *
 * @param log a log without issues
 * @returns possible warm-ups, and whether they agree on an end
 * @source Bayesian averaging with amplitudes integrated out (Rasmussen and Williams 2.1, as in numerics/bayes-linear); coverage in docs/proof-fits.md
 */
export function tellWarmUp(log: DriftLog): WarmUpTold {
  const rows = thinned(log, mostRows);
  const { timeS, hz } = rows;
  const model = modelOf({ timeS, hz, besides: besidesOf(rows) });
  const drawn = laws.map((law, k) => drawnBy(law, k, model));
  const best = drawn.reduce((b, d) => (d.least < b.least ? d : b));
  const kept = drawn.filter((d) => 0.5 * model.n * Math.log(d.least / best.least) <= leftOutAt);
  const possible = Array.from({ length: particlesCount }, (_, i) => i).flatMap((i) =>
    kept.map(({ law, k, particles }) => {
      const solved = model.solve(law, particles[i].at);
      const x = model.amplitudes(solved, normalStream(1, `warm-up amplitudes ${k} ${i}`, solved.size.length));
      return { endHz: model.mean + x[0], parts: solved.parts.map((q, j) => ({ ...q, hz: x[1 + j] })) };
    }),
  );
  const misfit = judgeMisfit({ residuals: best.rest, parameters: 5 });
  return { possible, misfit, ...endOf(possible, timeS, misfit) };
}

type Model = ReturnType<typeof modelOf>;
/** Places of one law's unknowns that the log leaves possible, and what the best of them leaves of the readings. */
function drawnBy(law: WarmUpLaw, k: number, model: Model) {
  const ends = [...law.ends, model.noise];
  const particles = drawParticles({
    low: ends.map((e) => e[0]),
    high: ends.map((e) => e[1]),
    rising: law.rising,
    count: particlesCount,
    seed: 1,
    name: `warm-up ${k}`,
    logLikelihood: (at) =>
      farApart(at, law.rising) ? (model.solve(law, at).found?.log ?? Number.NEGATIVE_INFINITY) : Number.NEGATIVE_INFINITY,
  });
  let rest = new Float64Array(0);
  let least = Number.POSITIVE_INFINITY;
  for (const p of particles) {
    const left = model.rest(model.solve(law, p.at));
    const square = dot(left, left);
    if (square < least) [least, rest] = [square, left as Float64Array<ArrayBuffer>];
  }
  return { law, k, particles, rest, least: Math.max(least, 1e-300) };
}

/** The warm-up in the middle by what is still to come, and why no end is given, where none is. */
function endOf(possible: readonly WarmUp[], timeS: Float64Array, misfit: Misfit): Pick<WarmUpTold, "middle" | "noEnd"> {
  const until = timeS[timeS.length - 1];
  const sorted = [...possible].sort((a, b) => toComeHz(a, until) - toComeHz(b, until));
  const at = (p: number): WarmUp => sorted[Math.min(sorted.length - 1, Math.floor(p * sorted.length))];
  const middle = at(0.5);
  if (misfit.verdict === "law-fails") return { middle, noEnd: "law-fails" };
  if (!misfit.mayExtrapolate) return { middle, noEnd: "pattern" };
  const half = (toComeHz(at(0.975), until) - toComeHz(at(0.025), until)) / 2;
  const whole = Math.abs(toComeHz(middle, timeS[0]));
  return { middle, noEnd: until < shortestS || half > openFrom * whole ? "open" : undefined };
}

/** Columns that move it besides heat: line at once and by its heaters, room through the cabinet. Lags are common practice, no source. */
function besidesOf(log: DriftLog): Float64Array[] {
  const { timeS } = log;
  const lagged = (v: Float64Array, lagS: number): Float64Array => {
    const out = Float64Array.from(v);
    for (let i = 1; i < v.length; i++)
      out[i] = out[i - 1] + (1 - Math.exp(-(timeS[i] - timeS[i - 1]) / lagS)) * ((v[i] + v[i - 1]) / 2 - out[i - 1]);
    const mean = out.reduce((s, x) => s + x, 0) / out.length;
    return out.map((x) => x - mean);
  };
  const line = lineAlone(log);
  const room = log.roomK?.length === timeS.length && log.roomK.every(Number.isFinite) ? log.roomK : undefined;
  return [...(line ? [line, lagged(line, 240)] : []), ...(room ? [480, 900, 1500].map((s) => lagged(room, s)) : [])];
}
