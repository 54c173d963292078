import { meanAndDeviation } from "./order";

/** Results that have values in the same draws, standardised. */
interface Alike {
  readonly rows: Int32Array;
  readonly at: number[];
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
  // one after the other in the same place: functions over all draws, then over those of a set
  const most = groups.reduce((m, g) => Math.max(m, columnsOf(g)), 0);
  const all = new Float64Array(most * draws);
  const some = new Float64Array(most * draws);
  for (const [g, group] of groups.entries()) {
    const columns = columnsOf(group);
    functionsOf(group, all);
    for (const { rows, at, y } of sets) {
      const n = rows.length;
      // too few draws tell nothing
      if (n < 4 * (columns + 1)) continue;
      // those with values in all draws come last, so that what is made of the functions there may take their place
      const own = n === draws ? all : some;
      if (own === some) for (let c = 0; c < columns; c++) for (let i = 0; i < n; i++) some[c * n + i] = all[c * draws + rows[i]];
      const left = orthonormal(own, columns, n);
      for (const [k, i] of at.entries()) shares[i][g] = adjustedShare(own, left, columns + 1, y[k]);
    }
  }
  return shares;
}

/** Results by the draws that they have values in, the fewest first; those that do not vary are left out. */
function alikeOf(results: readonly Float64Array[]): Alike[] {
  const sets: Alike[] = [];
  for (const [i, result] of results.entries()) {
    const rows = finiteRows(result);
    const y = pick(result, rows);
    const { mean, deviation } = meanAndDeviation(y);
    if (!(deviation > 0)) continue;
    for (let k = 0; k < y.length; k++) y[k] = (y[k] - mean) / deviation;
    let set = sets.find((s) => s.rows.length === rows.length && s.rows.every((r, k) => r === rows[k]));
    if (!set) {
      set = { rows, at: [], y: [] };
      sets.push(set);
    }
    set.at.push(i);
    set.y.push(y);
  }
  return sets.sort((a, b) => a.rows.length - b.rows.length);
}

/** Adjusted coefficient of determination of a standardised result on so many orthonormal columns, none of them constant. */
function adjustedShare(columns: Float64Array, count: number, unknowns: number, y: Float64Array): number {
  const n = y.length;
  let explained = 0;
  for (let c = 0; c < count; c++) explained += dot(columns, c * n, y, 0, n) ** 2;
  const adjusted = 1 - (n - 1 - explained) / (n - unknowns);
  return Math.max(0, Math.min(1, adjusted));
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
/** The functions of an input, or of the streams of a group, that a result may follow, over all draws, one column after the other. */
function functionsOf(group: readonly Float64Array[], into: Float64Array): void {
  for (const [g, x] of group.entries()) {
    const n = x.length;
    const { mean, deviation } = meanAndDeviation(x);
    const at = powers * g * n;
    for (let i = 0; i < n; i++) {
      const z = deviation > 0 ? (x[i] - mean) / deviation : 0;
      into[at + i] = z;
      into[at + n + i] = z * z - 1;
      into[at + 2 * n + i] = z * (z * z - 3);
    }
  }
  if (group.length === 1) cosinesOf(group[0], into, powers * group[0].length);
}
/** Cosines of the ranks of an input as angles from 0 to pi, and of their multiples: cos (k + 1) a = 2 cos a cos k a - cos (k - 1) a. */
function cosinesOf(x: Float64Array, into: Float64Array, at: number): void {
  const n = x.length;
  const sorted = x.slice().sort();
  for (let i = 0; i < n; i++) {
    // rank among them, between 0 and 1; equal ones alike
    let low = 0;
    let high = n;
    while (low < high) {
      const mid = (low + high) >> 1;
      if (sorted[mid] < x[i]) low = mid + 1;
      else high = mid;
    }
    const first = Math.cos((Math.PI * (low + 0.5)) / n);
    let before = 1;
    let last = first;
    for (let k = 0; k < cosines; k++) {
      into[at + k * n + i] = last;
      const next = 2 * first * last - before;
      before = last;
      last = next;
    }
  }
}

/**
 * Modified Gram-Schmidt against the constant and each other, in place; a column that the others already give falls out. Gives how many are left:
 * the first so many.
 */
function orthonormal(columns: Float64Array, count: number, n: number): number {
  let left = 0;
  for (let c = 0; c < count; c++) {
    const from = c * n;
    const to = left * n;
    const size = Math.sqrt(dot(columns, from, columns, from, n));
    let sum = 0;
    for (let i = 0; i < n; i++) sum += columns[from + i];
    const mean = sum / n;
    for (let i = 0; i < n; i++) columns[to + i] = columns[from + i] - mean;
    for (let other = 0; other < to; other += n) {
      const part = dot(columns, to, columns, other, n);
      for (let i = 0; i < n; i++) columns[to + i] -= part * columns[other + i];
    }
    const rest = Math.sqrt(dot(columns, to, columns, to, n));
    if (!(rest > 1e-9 * size)) continue;
    for (let i = 0; i < n; i++) columns[to + i] /= rest;
    left++;
  }
  return left;
}

/** Four sums side by side: one alone waits for each of its steps. */
function dot(a: Float64Array, from: number, b: Float64Array, at: number, n: number): number {
  let s0 = 0;
  let s1 = 0;
  let s2 = 0;
  let s3 = 0;
  let i = 0;
  for (; i + 3 < n; i += 4) {
    s0 += a[from + i] * b[at + i];
    s1 += a[from + i + 1] * b[at + i + 1];
    s2 += a[from + i + 2] * b[at + i + 2];
    s3 += a[from + i + 3] * b[at + i + 3];
  }
  for (; i < n; i++) s0 += a[from + i] * b[at + i];
  return s0 + s1 + (s2 + s3);
}
