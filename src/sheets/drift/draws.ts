import type { Chance } from "../../ask/contract";
import { noneOf, type ResultsOf } from "../../ask/declare";
import { toComeHz, type WarmUp } from "../../infer/drift/warm-up";
import { choleskyFactor } from "../../numerics/linear";
import type { Asked, ask } from "./ask";
import { compensation, type DriftTold, logOf, movesBy, steadyWhy } from "./solve";

const noLaw = "neither one nor two time constants explain the log";
/** Time constants and line of one draw, out of the fit of one or two time constants, where it holds. */
function constantsBy({ fit }: DriftTold, chance: Chance) {
  const n = Math.round(Math.sqrt(fit.covariance.length));
  const factor = choleskyFactor(fit.covariance, n) ?? new Float64Array(n * n);
  const streams = Array.from({ length: n }, (_, i) => chance.stream(`fit ${i}`));
  const amplitudes = fit.amplitudesHz.length;
  const { lineHzPerV, tauS } = fit;
  const byLine = lineHzPerV !== undefined && fit.misfit.verdict !== "law-fails";
  /** the fit's unknown `i` less its best value */
  const move = (i: number, draw: number): number => {
    let s = 0;
    if (draw >= 0) for (let k = 0; k <= i; k++) s += factor[i * n + k] * streams[k][draw];
    return s;
  };
  const tau = (k: number, draw: number): number => tauS[k] * Math.exp(Math.min(2, Math.max(-2, move(n - amplitudes + k, draw))));
  return (draw: number): { readonly fast?: number; readonly slow?: number; readonly lineHzPerV?: number } => {
    const line = byLine ? { lineHzPerV: lineHzPerV + move(1 + amplitudes, draw) } : {};
    if (!fit.misfit.mayExtrapolate) return line;
    const one = tau(0, draw);
    if (tauS.length < 2) return { ...line, slow: one };
    const two = tau(1, draw);
    return { ...line, fast: Math.min(one, two), slow: Math.max(one, two) };
  };
}

/** Log and middle warm-up over the log, relative to the last reading. */
function drawnLog(rows: Asked["driftLog"], d: DriftTold, points: number) {
  const { timeS, hz } = logOf(rows);
  const count = Math.min(points, 121);
  const axis = Float64Array.from({ length: count }, (_, i) => d.fromS + ((d.fit.untilS - d.fromS) * i) / (count - 1));
  const last = hz[hz.length - 1];
  let k = 0;
  const readings = axis.map((t) => {
    while (k < timeS.length - 1 && timeS[k + 1] <= t) k++;
    const part = k < timeS.length - 1 ? Math.min(1, Math.max(0, (t - timeS[k]) / (timeS[k + 1] - timeS[k]))) : 0;
    return hz[k] * (1 - part) + (hz[k + 1] ?? hz[k]) * part - last;
  });
  return { axis, readings, fitted: axis.map((t) => d.told.middle.endHz + toComeHz(d.told.middle, t) - last), moved: last - hz[0] };
}

const noLine = { none: "the line was not logged in every row, did not move, or moved along with the warm-up" };
/**
 * Everything about one log that its draws share, and what one draw comes to.
 *
 * @param rows of the log
 * @param d what they tell
 * @param points of a curve at most
 * @param chance normals for the unknowns of the fit
 * @returns axes in s, and results in SI of one draw after the other
 * @source derived
 */
export function drawsOf(rows: Asked["driftLog"], d: DriftTold, points: number, chance: Chance) {
  const { axis, readings, fitted, moved } = drawnLog(rows, d, points);
  const constantsOf = constantsBy(d, chance);
  const meanV = rows.reduce((s, r) => s + r.line, 0) / rows.length;
  const { possible, middle } = d.told;
  const warmUpOf = (draw: number): WarmUp => (draw < 0 ? middle : possible[draw % possible.length]);
  const movesOf = movesBy(rows, d);
  const noFast = { none: d.fit.misfit.mayExtrapolate ? "one time constant explains the log" : noLaw };
  const still = {
    ...{ slow: { none: steadyWhy }, atEnd: 0, whole: 0, left: 0, fitAfter: 0 },
    ...noneOf(["perKelvin", "needed", "otherEnd"] as const, steadyWhy),
  };
  type Into = { readonly log: Float64Array; readonly fit: Float64Array };
  const solve = (x: Asked, into: Into, draw: number): ResultsOf<typeof ask> => {
    into.log.set(readings);
    into.fit.set(fitted);
    const { fast = noFast, slow = { none: noLaw }, lineHzPerV } = constantsOf(draw);
    const byLine = lineHzPerV === undefined ? noLine : (lineHzPerV * meanV) / 100;
    const common = { inLog: moved, miss: d.fit.rmsHz, byLine, fast, slow };
    if (d.fit.steady) return { ...common, ...still };
    const moves = movesOf(x, warmUpOf(draw));
    return { ...common, ...moves, ...compensation(x, moves.perKelvin) };
  };
  return { axes: { log: axis, fit: axis }, varies: true, solve };
}
