import { meanAndDeviation } from "./mean";
import { ranksOf } from "./order";
import { remembering } from "./remember";
import { type Room, roomFor, wide } from "./vectors";

/** Results that have values in the same draws, standardised. */
interface Alike {
  readonly rows: Int32Array;
  /** which of the results */
  readonly which: number[];
  readonly y: Float64Array[];
}

/**
 * First-order shares of the variance of results that each input, or each correlated group, explains: the adjusted coefficient of
 * determination of a regression on functions of it alone. One orthonormal basis an input serves every result, and is left as soon as all have
 * been held against it, so that it stays near the processor.
 *
 * One input: a cubic in its value and six cosines of its rank, so that an even or wavy dependence is seen too (a cubic alone finds 0.03
 * where the Ishigami function has 0.44). A group: a cubic in each of its independent streams, added up.
 *
 * @param groups draws of each input, or of each stream of a group; all of one length
 * @param results draws of each result, as long; entries that are not finite are left out
 * @returns for each result the share of each group between 0 and 1, in their order
 * @source first-order (Sobol) index by regression, Saltelli et al., Global Sensitivity Analysis (2008), from memory; checked on closed forms
 */
export function firstOrderShares(groups: readonly (readonly Float64Array[])[], results: readonly Float64Array[]): number[][] {
  const shares = results.map(() => groups.map(() => 0));
  const sets = alikeOf(results);
  if (sets.length === 0) return shares;
  const draws = results[0].length;
  const most = groups.reduce((m, g) => Math.max(m, columnsOf(g)), 0);
  const all = new Float64Array(most * draws);
  // columns of an input over the draws of a set, then all results
  const room = roomFor((most + results.length) * strideOf(draws));
  for (const { which, y } of sets) for (const [k, i] of which.entries()) room.numbers.set(y[k], (most + i) * strideOf(draws));
  for (const [g, group] of groups.entries()) {
    const columns = columnsOf(group);
    const already = functionsOf(group, all);
    for (const { rows, which } of sets) {
      const n = rows.length;
      // too few draws tell nothing
      if (n < 4 * (columns + 1)) continue;
      for (let c = 0; c < columns; c++) putColumn(room.numbers, c * strideOf(n), all.subarray(c * draws, (c + 1) * draws), rows);
      const left = orthonormal(room, { count: columns, already: n === draws ? already : 0 }, n);
      for (const i of which) shares[i][g] = adjustedShare(explained(room, left, (most + i) * strideOf(draws), n), n, columns + 1);
    }
  }
  return shares;
}
const strideOf = (n: number): number => wide * Math.ceil(n / wide);
/** Some of the draws as a column, ended with zeros. */
function putColumn(into: Float64Array, to: number, all: Float64Array, rows: Int32Array): void {
  if (rows.length === all.length) into.set(all, to);
  else for (let i = 0; i < rows.length; i++) into[to + i] = all[rows[i]];
  into.fill(0, to + rows.length, to + strideOf(rows.length));
}

/** Results by the draws that they have values in; those that do not vary are left out. */
function alikeOf(results: readonly Float64Array[]): Alike[] {
  const sets: Alike[] = [];
  for (const [i, result] of results.entries()) {
    const rows = finiteRows(result);
    const y = pick(result, rows);
    const { mean, deviation } = meanAndDeviation(y);
    if (!(deviation > 0)) continue;
    for (let k = 0; k < y.length; k++) y[k] = (y[k] - mean) / deviation;
    let set = sets.find((s) => isSame(s.rows, rows));
    if (!set) {
      set = { rows, which: [], y: [] };
      sets.push(set);
    }
    set.which.push(i);
    set.y.push(y);
  }
  return sets;
}

/** How much of the sum of squares of a result the first so many orthonormal columns, none of them constant, explain. */
function explained(room: Room, columns: number, y: number, n: number): number {
  let sum = 0;
  for (let c = 0; c < columns; c++) sum += room.dot(c * strideOf(n), y, strideOf(n)) ** 2;
  return sum;
}
/** Adjusted coefficient of determination of a standardised result. */
const adjustedShare = (part: number, n: number, unknowns: number): number => Math.max(0, Math.min(1, 1 - (n - 1 - part) / (n - unknowns)));

function isSame(a: Int32Array, b: Int32Array): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}

function finiteRows(result: Float64Array): Int32Array {
  let count = 0;
  const rows = new Int32Array(result.length);
  for (let i = 0; i < result.length; i++) if (Number.isFinite(result[i])) rows[count++] = i;
  return rows.subarray(0, count);
}

/** Some of the draws. */
function pick(of: Float64Array, rows: Int32Array): Float64Array {
  const out = new Float64Array(rows.length);
  for (let i = 0; i < out.length; i++) out[i] = of[rows[i]];
  return out;
}

const [powers, cosines] = [3, 6] as const;
const columnsOf = (group: readonly Float64Array[]): number => powers * group.length + (group.length > 1 ? 0 : cosines);
/** The functions of an input, or of the streams of a group, that a result may follow, over all draws, one column after the other. Gives how many of the first are orthonormal. */
function functionsOf(group: readonly Float64Array[], into: Float64Array): number {
  const already = group.length === 1 ? cosinesOf(group[0], into) : 0;
  const first = group.length === 1 ? cosines : 0;
  for (const [g, x] of group.entries()) {
    const n = x.length;
    const { mean, deviation } = meanAndDeviation(x);
    const at = (first + powers * g) * n;
    const scale = deviation > 0 ? 1 / deviation : 0;
    for (let i = 0; i < n; i++) {
      const z = (x[i] - mean) * scale;
      into[at + i] = z;
      into[at + n + i] = z * z - 1;
      into[at + 2 * n + i] = z * (z * z - 3);
    }
  }
  return already;
}
/** Cosines of the ranks of an input as angles from 0 to pi, and of their multiples. Where no two values are equal they are orthonormal, and none has a mean. */
function cosinesOf(x: Float64Array, into: Float64Array): number {
  const n = x.length;
  const ranks = ranksOf(x);
  const byRank = cosinesByRank(n);
  for (let k = 0; k < cosines; k++) for (let i = 0; i < n; i++) into[k * n + i] = byRank[k * n + ranks[i]];
  let sum = 0;
  for (let i = 0; i < n; i++) sum += ranks[i];
  // equal values have one rank, the lowest: the sum is then smaller
  return n > cosines && 2 * sum === n * (n - 1) ? cosines : 0;
}
/** The same by rank among so many, of length one over all: cos (k + 1) a = 2 cos a cos k a - cos (k - 1) a. */
const cosinesByRank = remembering(
  (n: number) => String(n),
  (n) => {
    const out = new Float64Array(cosines * n);
    for (let rank = 0; rank < n; rank++) {
      const first = Math.cos((Math.PI * (rank + 0.5)) / n);
      let before = 1;
      let last = first;
      for (let k = 0; k < cosines; k++) {
        out[k * n + rank] = Math.sqrt(2 / n) * last;
        const next = 2 * first * last - before;
        before = last;
        last = next;
      }
    }
    return out;
  },
  2,
);

/**
 * Modified Gram-Schmidt against the constant and each other, in place; the first of them may be so already, and a column that the others already give
 * falls out. Gives how many are left: the first so many.
 */
function orthonormal(
  { numbers, dot, subtract }: Room,
  { count, already }: Readonly<Record<"count" | "already", number>>,
  n: number,
): number {
  const stride = strideOf(n);
  let left = already;
  for (let from = already * stride; from < count * stride; from += stride) {
    const to = left * stride;
    const size = Math.sqrt(dot(from, from, stride));
    let sum = 0;
    for (let i = 0; i < n; i++) sum += numbers[from + i];
    const mean = sum / n;
    for (let i = 0; i < n; i++) numbers[to + i] = numbers[from + i] - mean;
    for (let other = 0; other < to; other += stride) subtract(to, other, dot(to, other, stride), stride);
    const rest = Math.sqrt(dot(to, to, stride));
    if (!(rest > 1e-9 * size)) continue;
    const scale = 1 / rest;
    for (let i = 0; i < n; i++) numbers[to + i] *= scale;
    left++;
  }
  return left;
}
