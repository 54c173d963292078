import { intervalFinder, symmetricIntervalInPlace } from "../numerics/order";
import { firstOrderShares } from "../numerics/shares";
import type { AnsweredCurve } from "./answered";
import type { AnySheet } from "./contract";
import type { Drawn, Group } from "./draw";
import type { Figure, Share } from "./results";
import type { Worked } from "./run";

/**
 * Results with their intervals and with the parts of their variance that each input explains.
 *
 * @param sheet the sheet
 * @param worked what it gave over all draws
 * @param groups inputs that shares are counted by; none to leave the shares out
 * @returns results by name
 * @source JCGM 101:2008 clause 7.7; shares by regression, see firstOrderShares
 */
export function figuresOf(sheet: AnySheet, worked: Worked, groups: readonly Group[]): Record<string, Figure> {
  const names = Object.keys(sheet.results);
  const shares = firstOrderShares(
    groups.map((g) => g.streams),
    names.map((n) => worked.byDraw[n]),
  );
  const named = (of: readonly number[]): Share[] => groups.map((g, i) => ({ inputs: g.names, share: of[i] }));
  return Object.fromEntries(names.map((n, i) => [n, figureOf(sheet, n, worked, named(shares[i]))]));
}

function figureOf(sheet: AnySheet, name: string, worked: Worked, all: readonly Share[]): Figure {
  const { dimension, meaning, known: to, exact } = sheet.results[name];
  const { best, byDraw, whyNot } = worked;
  const [own, draws, reason] = [best[name], byDraw[name], whyNot[name]];
  const head = { dimension, meaning, ...(to === undefined ? {} : { known: to }), ...(exact ? { exact } : {}) };
  const valid = finiteOf(draws);
  const value = typeof own === "number" && Number.isFinite(own) ? own : null;
  const why = typeof own === "number" ? (value === null ? (reason ?? "no value at these inputs") : reason) : own.none;
  const without = 1 - valid.length / draws.length;
  if (valid.length === 0) return { ...head, value, low: null, high: null, without, why: why ?? "no value", shares: [] };
  const least = 3 / Math.sqrt(draws.length);
  const shares = all.filter((s) => s.share >= least).sort((a, b) => b.share - a.share);
  const { low, high } = symmetricIntervalInPlace(valid);
  return { ...head, value, low, high, without, ...(without > 0 && why ? { why } : {}), shares };
}

function finiteOf(draws: Float64Array): Float64Array {
  const out = new Float64Array(draws.length);
  let n = 0;
  for (let i = 0; i < draws.length; i++) if (Number.isFinite(draws[i])) out[n++] = draws[i];
  return out.subarray(0, n);
}

const toDb = (p: number): number => 10 * Math.log10(Math.max(p, 1e-30));

/**
 * Curves with their bands; what is held as a power is turned into dB after the quantiles.
 *
 * @param sheet the sheet
 * @param worked what it gave over all draws
 * @returns curves by name
 * @source JCGM 101:2008 clause 7.7, point by point
 */
export function curvesOf(sheet: AnySheet, worked: Worked): Record<string, AnsweredCurve> {
  const { axes, nominal, points, bands, draws } = worked;
  const intervalAt = intervalFinder(draws);
  return Object.fromEntries(
    Object.entries(axes).map(([k, x]) => {
      const { x: xDimension, y: yDimension, meaning, holds } = sheet.curves[k];
      const show = holds === "power" ? toDb : (v: number) => v;
      const low = nominal[k].slice();
      const high = nominal[k].slice();
      for (let p = 0; k in points && p < x.length; p++) {
        const i = intervalAt(points[k], p * draws);
        low[p] = i.low;
        high[p] = i.high;
      }
      const band = bands.has(k) ? { band: { low: low.map(show), high: high.map(show) } } : {};
      return [k, { meaning, xDimension, yDimension, x: x.slice(), y: nominal[k].map(show), ...band }];
    }),
  );
}

/**
 * Whether something holds over the draws: yes in 95 % of them, no in 5 % at most, else open.
 *
 * @param worked what the sheet gave
 * @param drawn puts each draw into the plain inputs; the best values stand there again afterwards
 * @param plain the plain inputs: a draw is put into them only where they are looked at
 * @returns asks something that may hold, with inputs and results of each draw, NaN where there is none
 * @source house rule
 */
export function verdictsOver<X extends object>(
  worked: Worked,
  drawn: Drawn,
  plain: X,
): (holds: (x: X, y: Record<string, number>) => boolean) => "yes" | "no" | "open" {
  let i = 0;
  let there = -1;
  // read where it is looked at: a finding looks at one or two of them
  const y: Record<string, number> = {};
  for (const [name, draws] of Object.entries(worked.byDraw)) see(y, name, () => draws[i]);
  const x = {};
  for (const [name, value] of Object.entries(plain)) {
    const draws = drawn.of(name);
    if (draws) see(x, name, () => draws[i]);
    else
      see(x, name, () => {
        // what is drawn may stand inside it
        if (there !== i && typeof value === "object") {
          drawn.put(i);
          there = i;
        }
        return value;
      });
  }
  return (holds) => {
    let yes = 0;
    for (i = 0; i < worked.draws; i++) if (holds(x as X, y)) yes++;
    if (there >= 0) drawn.put(-1);
    there = -1;
    return yes >= 0.95 * worked.draws ? "yes" : yes <= 0.05 * worked.draws ? "no" : "open";
  };
}
/** A member that is worked out each time it is looked at. */
const see = (of: object, name: string, get: () => unknown): void => void Object.defineProperty(of, name, { enumerable: true, get });
