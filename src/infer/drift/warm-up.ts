import { posterior, transposedSolveInPlace } from "../../numerics/bayes-linear";
import { judgeMisfit, type Misfit } from "../../numerics/misfit";
import { drawParticles } from "../../numerics/particles";
import { normalStream } from "../../numerics/random";
import { type DriftLog, lineAlone, thinned } from "../../readings/drift-log";

/** One warm-up that the readings leave possible: hertz as a function of seconds since switching on. */
export interface WarmUp {
  readonly endHz: number;
  readonly parts: readonly (Pace & { readonly hz: number })[];
}
/** How one part dies away: exp(-(t/tau)^power), or as a tail (1 + t/tau)^-power, which goes on for longest. */
interface Pace {
  readonly tauS: number;
  readonly power: number;
  readonly tail?: true;
}
/** Slowest time constant thought of: no chassis takes longer. Assumed, no source. */
const slowestS = 3 * 3600;
const fastestS = 30;
/** Least power of a stretched warm-up. Assumed. */
const leastPower = 0.35;
/** Powers of a tail: less goes on for days, more is an exponential as far as a log tells. Assumed. */
const tailPowers = [0.8, 3] as const;
/** What of a part is left after so long, as a share. */
const leftOf = ({ tauS, power, tail }: Pace, atS: number): number =>
  tail ? (1 + atS / tauS) ** -power : Math.exp(-(power === 1 ? atS / tauS : (atS / tauS) ** power));

/** The same at all times of a log. */
function putLeft({ tauS, power, tail }: Pace, timeS: Float64Array, into: Float64Array): void {
  if (tail) for (let i = 0; i < into.length; i++) into[i] = (1 + timeS[i] / tauS) ** -power;
  else if (power === 1) for (let i = 0; i < into.length; i++) into[i] = Math.exp(-timeS[i] / tauS);
  else for (let i = 0; i < into.length; i++) into[i] = Math.exp(-((timeS[i] / tauS) ** power));
}

/**
 * What of a warm-up is still to come at a time.
 *
 * @param w the warm-up
 * @param atS time since switching on, s
 * @returns Hz, over what it ends at
 * @source derived
 */
export function toComeHz(w: WarmUp, atS: number): number {
  let hz = 0;
  for (const p of w.parts) hz += p.hz * leftOf(p, atS);
  return hz;
}
/** How fast one part moves at a time of a second or more, Hz/s. Source: the derivative of what is left. */
function speedOf({ hz, tauS, power, tail }: WarmUp["parts"][number], atS: number): number {
  const x = atS / tauS;
  if (tail) return (-hz * power * (1 + x) ** (-power - 1)) / tauS;
  if (power === 1) return (-hz * Math.exp(-x)) / tauS;
  const left = x ** power;
  return (-hz * power * left * Math.exp(-left)) / atS;
}
/**
 * How fast it moves at a time.
 *
 * @param w the warm-up
 * @param atS time since switching on, s; what is under a second is taken as one
 * @returns Hz/s
 * @source the derivative of what is left
 */
export function speedHzPerS(w: WarmUp, atS: number): number {
  const at = Math.max(atS, 1);
  let speed = 0;
  for (const p of w.parts) speed += speedOf(p, at);
  return speed;
}

/**
 * Time from which it moves no more than so fast, s.
 *
 * @param w the warm-up
 * @param limitHzPerS speed
 * @param fromS first moment looked at
 * @returns the time; `fromS` where it never moves faster
 * @source bisection on the speed between steps of 4 %, from the far end
 */
export function settledAfterS(w: WarmUp, limitHzPerS: number, fromS: number): number {
  const first = Math.max(10, fromS);
  const steps = Math.ceil(Math.log((40 * slowestS) / first) / Math.log(1.04));
  let fast = first * 1.04 ** steps;
  let k = steps;
  for (; k >= 0 && Math.abs(speedHzPerS(w, fast)) <= limitHzPerS; k--) fast /= 1.04;
  if (k < 0) return fromS;
  let calm = fast * 1.04;
  for (let i = 0; i < 40; i++) {
    const mid = (fast + calm) / 2;
    if (Math.abs(speedHzPerS(w, mid)) > limitHzPerS) fast = mid;
    else calm = mid;
  }
  return calm;
}

const dot = (a: Float64Array, b: Float64Array): number => {
  let s = 0;
  for (let i = 0; i < a.length; i++) s += a[i] * b[i];
  return s;
};
type Shape = readonly Pace[];
/** Three time constants, or a fast one and a stretched one, or a fast one and a tail: unknowns without the noise, which stands last. */
const laws: readonly ((at: Float64Array) => Shape)[] = [
  (at) => [0, 1, 2].map((k) => ({ tauS: Math.exp(at[k]), power: 1 })),
  (at) => [
    { tauS: Math.exp(at[0]), power: 1 },
    { tauS: Math.exp(at[1]), power: at[2] },
  ],
  (at) => [
    { tauS: Math.exp(at[0]), power: 1 },
    { tauS: Math.exp(at[1]), power: at[2], tail: true },
  ],
];
/** How many time constants of each law stand in rising order. */
const risingOf = [3, 2, 2] as const;
const tau = [Math.log(fastestS), Math.log(slowestS)] as const;
/** Ends of the unknowns of each law. */
const endsOf = (noise: readonly [number, number]): readonly (readonly (readonly [number, number])[])[] => [
  [tau, tau, tau, noise],
  [tau, tau, [leastPower, 1], noise],
  [tau, tau, tailPowers, noise],
];
/** Time constants of different bodies are at least twice each other. Assumed. */
const farApart = (at: Float64Array, count: number): boolean => {
  for (let k = 1; k < count; k++) if (at[k] - at[k - 1] < Math.LN2) return false;
  return true;
};
/** A law whose best fit is less likely than another's by more than this, in logarithms, is left out. */
const leftOutAt = 5;

/** One law at one place of its unknowns: amplitudes as the readings have them. */
interface Solved {
  readonly parts: Shape;
  /** prior size of end, amplitudes and what was logged besides */
  readonly size: Float64Array;
  readonly found: ReturnType<typeof posterior>;
}
/** A log ready for its amplitudes to be solved at any time constants, and what those leave of it. */
function modelOf(log: { readonly timeS: Float64Array; readonly hz: Float64Array; readonly besides: readonly Float64Array[] }) {
  const { timeS, hz, besides } = log;
  const n = timeS.length;
  const mean = hz.reduce((s, v) => s + v, 0) / n;
  const y = hz.map((v) => v - mean);
  const range = y.reduce((m, v) => Math.max(m, v), 0) - y.reduce((m, v) => Math.min(m, v), 0) || 1e-6;
  const rough = Math.sqrt(y.reduce((s, v, i) => s + (i > 0 ? (v - y[i - 1]) ** 2 : 0), 0) / (2 * n)) || 1e-9;
  const columns: Float64Array[] = Array.from({ length: 4 }, () => new Float64Array(n));
  columns[0].fill(1);
  const square = dot(y, y);
  const sizes = besides.map((b) => range / (b.reduce((m, v) => Math.max(m, Math.abs(v)), 0) || 1));
  const used = (parts: Shape): readonly Float64Array[] => [...columns.slice(0, 1 + parts.length), ...besides];
  const solve = (law: (typeof laws)[number], at: Float64Array): Solved => {
    const parts = law(at);
    for (let k = 0; k < parts.length; k++) putLeft(parts[k], timeS, columns[1 + k]);
    const own = used(parts);
    const cols = own.length;
    const weight = Math.exp(-2 * at[at.length - 1]);
    const matrix = new Float64Array(cols * cols);
    const vector = new Float64Array(cols);
    for (let j = 0; j < cols; j++) {
      for (let k = 0; k <= j; k++) matrix[j * cols + k] = matrix[k * cols + j] = weight * dot(own[j], own[k]);
      vector[j] = weight * dot(own[j], y);
    }
    const size = Float64Array.from([30 * range, ...parts.map(() => range), ...sizes]);
    const normal = { size: cols, matrix, vector, square: weight * square, logVariance: -n * Math.log(weight) };
    return { parts, size, found: posterior(normal, size) };
  };
  /** what the amplitudes leave of the readings, moved by `z` of their own doubt */
  const amplitudes = ({ size, found }: Solved, z: Float64Array): Float64Array => {
    if (!found) return size.map(() => 0);
    const x = z.slice();
    transposedSolveInPlace(found.factor, x, size.length);
    return x.map((v, j) => size[j] * (v + found.mean[j]));
  };
  /** readings less the best amplitudes of the shapes solved last, whose columns still stand */
  const rest = (s: Solved): Float64Array => {
    const x = amplitudes(s, new Float64Array(s.size.length));
    const own = used(s.parts);
    return y.map((v, i) => own.reduce((r, c, j) => r - x[j] * c[i], v));
  };
  const noise: readonly [number, number] = [Math.log(Math.max(1e-6 * range, rough / 300)), Math.log(Math.max(rough * 3, range))];
  return { n, mean, noise, solve, amplitudes, rest };
}

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
  const until = timeS[timeS.length - 1];
  const model = modelOf({ timeS, hz, besides: besidesOf(rows) });
  const ends = endsOf(model.noise);
  const drawn = laws.map((law, k) => {
    const particles = drawParticles({
      low: ends[k].map((e) => e[0]),
      high: ends[k].map((e) => e[1]),
      rising: risingOf[k],
      count: particlesCount,
      seed: 1,
      name: `warm-up ${k}`,
      logLikelihood: (at) =>
        farApart(at, risingOf[k]) ? (model.solve(law, at).found?.log ?? Number.NEGATIVE_INFINITY) : Number.NEGATIVE_INFINITY,
    });
    let rest = new Float64Array(0);
    let least = Number.POSITIVE_INFINITY;
    for (const p of particles) {
      const left = model.rest(model.solve(law, p.at));
      const square = dot(left, left);
      if (square < least) [least, rest] = [square, left as Float64Array<ArrayBuffer>];
    }
    return { law, k, particles, rest, least: Math.max(least, 1e-300) };
  });
  const best = drawn.reduce((b, d) => (d.least < b.least ? d : b));
  const kept = drawn.filter((d) => 0.5 * model.n * Math.log(d.least / best.least) <= leftOutAt);
  const possible = Array.from({ length: particlesCount }, (_, i) => i).flatMap((i) =>
    kept.map(({ law, k, particles }) => {
      const solved = model.solve(law, particles[i].at);
      const x = model.amplitudes(solved, normalStream(1, `warm-up amplitudes ${k} ${i}`, solved.size.length));
      return { endHz: model.mean + x[0], parts: solved.parts.map((q, j) => ({ ...q, hz: x[1 + j] })) };
    }),
  );
  const sorted = [...possible].sort((a, b) => toComeHz(a, until) - toComeHz(b, until));
  const at = (p: number): WarmUp => sorted[Math.min(sorted.length - 1, Math.floor(p * sorted.length))];
  const misfit = judgeMisfit({ residuals: best.rest, parameters: 5 });
  const half = (toComeHz(at(0.975), until) - toComeHz(at(0.025), until)) / 2;
  const whole = Math.abs(toComeHz(at(0.5), timeS[0]));
  const noEnd =
    misfit.verdict === "law-fails"
      ? "law-fails"
      : !misfit.mayExtrapolate
        ? "pattern"
        : until < shortestS || half > openFrom * whole
          ? "open"
          : undefined;
  return { possible, middle: at(0.5), misfit, noEnd };
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
