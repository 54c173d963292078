import { meanAndDeviation } from "./order";

/** Orthonormal columns, each as long as the draws that it was made for, and none of them constant. */
interface Basis {
  readonly columns: readonly Float64Array[];
  /** columns before any fell out as dependent on others, with the constant */
  readonly unknowns: number;
}

/**
 * First-order shares of the variance of results that each input, or each correlated group, explains: the adjusted coefficient of
 * determination of a regression on functions of it alone. One orthonormal basis an input serves every result.
 *
 * One input: a cubic in its value and six cosines of its rank, so that an even or wavy dependence is seen too (a cubic alone finds 0.03
 * where the Ishigami function has 0.44). A group: a cubic in each of its independent streams, added up.
 *
 * @param groups draws of each input, or of each stream of a group; all of one length
 * @returns for draws of a result (entries that are not finite are left out), the share of each group between 0 and 1, in their order
 * @source first-order (Sobol) index by regression, Saltelli et al., Global Sensitivity Analysis (2008), from memory; checked on closed forms
 */
export function shareFinder(groups: readonly (readonly Float64Array[])[]): (result: Float64Array) => number[] {
  const raw = groups.map(streamsOf);
  const known: { readonly rows: Int32Array; readonly bases: readonly Basis[] }[] = [];
  const basesOver = (rows: Int32Array): readonly Basis[] => {
    const before = known.find((k) => k.rows.length === rows.length && k.rows.every((r, i) => r === rows[i]));
    if (before) return before.bases;
    const bases = raw.map((streams) => orthonormal(functionsOf(streams, rows)));
    known.push({ rows, bases });
    return bases;
  };
  return (result) => {
    const rows = finiteRows(result);
    const y = Float64Array.from(rows, (r) => result[r]);
    const { mean, deviation } = meanAndDeviation(y);
    if (!(deviation > 0)) return groups.map(() => 0);
    for (let i = 0; i < y.length; i++) y[i] = (y[i] - mean) / deviation;
    return basesOver(rows).map((basis) => adjustedShare(basis, y));
  };
}

/** Adjusted coefficient of determination of a standardised result on a basis; 0 where there are too few draws to tell. */
function adjustedShare({ columns, unknowns }: Basis, y: Float64Array): number {
  const rows = y.length;
  if (rows < 4 * unknowns) return 0;
  let explained = 0;
  for (const q of columns) {
    let dot = 0;
    for (let i = 0; i < rows; i++) dot += q[i] * y[i];
    explained += dot * dot;
  }
  const total = rows - 1;
  const adjusted = 1 - (total - explained) / (rows - unknowns);
  return Math.max(0, Math.min(1, adjusted));
}

function finiteRows(result: Float64Array): Int32Array {
  let count = 0;
  const rows = new Int32Array(result.length);
  for (let i = 0; i < result.length; i++) if (Number.isFinite(result[i])) rows[count++] = i;
  return rows.subarray(0, count);
}

/** What the functions of an input are made of: its standardised values and, where it stands by itself, its ranks as angles. */
interface Stream {
  readonly z: Float64Array;
  readonly angle?: Float64Array;
}
const streamsOf = (group: readonly Float64Array[]): Stream[] =>
  group.map((x) => {
    const { mean, deviation } = meanAndDeviation(x);
    const z = deviation > 0 ? x.map((v) => (v - mean) / deviation) : new Float64Array(x.length);
    return group.length > 1 ? { z } : { z, angle: ranksOf(x).map((r) => Math.PI * r) };
  });
/** The functions of an input, or of the streams of a group, that a result may follow, over some of the draws. */
function functionsOf(streams: readonly Stream[], rows: Int32Array): Float64Array[] {
  const over = (of: (i: number) => number): Float64Array => {
    const out = new Float64Array(rows.length);
    for (let i = 0; i < rows.length; i++) out[i] = of(rows[i]);
    return out;
  };
  const cubics = streams.flatMap(({ z }) => [over((i) => z[i]), over((i) => z[i] * z[i] - 1), over((i) => z[i] * (z[i] * z[i] - 3))]);
  const { angle } = streams[0];
  return angle ? [...cubics, ...[1, 2, 3, 4, 5, 6].map((k) => over((i) => Math.cos(k * angle[i])))] : cubics;
}

/** Rank of each number among them, between 0 and 1; equal ones alike. */
function ranksOf(x: Float64Array): Float64Array {
  const sorted = x.slice().sort();
  return x.map((v) => {
    let [low, high] = [0, sorted.length];
    while (low < high) {
      const mid = (low + high) >> 1;
      if (sorted[mid] < v) low = mid + 1;
      else high = mid;
    }
    return (low + 0.5) / x.length;
  });
}

/** Modified Gram-Schmidt against the constant and each other, in place; a function that the others already give falls out. */
function orthonormal(functions: readonly Float64Array[]): Basis {
  const columns: Float64Array[] = [];
  for (const q of functions) {
    const before = norm(q);
    center(q);
    for (const other of columns) subtractPart(q, other);
    const left = norm(q);
    if (!(left > 1e-9 * before)) continue;
    for (let i = 0; i < q.length; i++) q[i] /= left;
    columns.push(q);
  }
  return { columns, unknowns: functions.length + 1 };
}

function norm(q: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < q.length; i++) sum += q[i] * q[i];
  return Math.sqrt(sum);
}
function center(q: Float64Array): void {
  let sum = 0;
  for (let i = 0; i < q.length; i++) sum += q[i];
  const mean = sum / q.length;
  for (let i = 0; i < q.length; i++) q[i] -= mean;
}
function subtractPart(q: Float64Array, of: Float64Array): void {
  let dot = 0;
  for (let i = 0; i < q.length; i++) dot += q[i] * of[i];
  for (let i = 0; i < q.length; i++) q[i] -= dot * of[i];
}
