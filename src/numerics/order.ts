/**
 * The k-th smallest of the first `count` numbers; reorders `values` in place.
 *
 * @param values numbers, no NaN
 * @param k rank from 0
 * @param count how many of `values` take part
 * @returns the k-th smallest
 * @source Hoare's selection, textbook algorithm
 */
export function selectInPlace(values: Float64Array, k: number, count = values.length): number {
  let left = 0;
  let right = count - 1;
  while (left < right) {
    const pivot = values[(left + right) >> 1];
    let i = left;
    let j = right;
    while (i <= j) {
      while (values[i] < pivot) i++;
      while (values[j] > pivot) j--;
      if (i <= j) {
        const t = values[i];
        values[i++] = values[j];
        values[j--] = t;
      }
    }
    if (k <= j) right = j;
    else if (k >= i) left = i;
    else break;
  }
  return values[k];
}

export interface Interval {
  readonly low: number;
  readonly high: number;
}

/**
 * Probabilistically symmetric coverage interval of a sample.
 *
 * @param values sample; reordered in place
 * @param coverageRatio e.g. 0.95
 * @param count how many of `values` take part
 * @returns low and high, in the sample's unit
 * @source JCGM 101:2008 clause 7.7 (q = pM, r = (M - q)/2), symmetric interval
 */
export function symmetricIntervalInPlace(values: Float64Array, coverageRatio = 0.95, count = values.length): Interval {
  const ends = endsOf(count, coverageRatio);
  return { low: selectInPlace(values, ends.low, count), high: selectInPlace(values, ends.high, count) };
}

/** Places of an interval's ends among so many values in their order. Source: JCGM 101:2008 clause 7.7. */
function endsOf(count: number, coverageRatio: number): { readonly low: number; readonly high: number } {
  const inside = Math.min(count - 1, Math.floor(coverageRatio * count + 0.5));
  const r = Math.max(0, Math.floor((count - inside + 1) / 2) - 1);
  return { low: r, high: Math.min(count - 1, r + inside) };
}

/** So many of a sample, evenly taken, say about where its ends lie; samples under four times as many are put in order as they are. */
const scouts = 128;

/** Values of a sample out at one of its ends, with their places in it: of the last sample, and of the one that is looked at. */
interface Tail {
  readonly values: Float64Array;
  readonly places: Int32Array;
  /** places of as many as make up the end of the last sample */
  readonly last: Int32Array;
}
const tailFor = (count: number, most: number): Tail => ({
  values: new Float64Array(count),
  places: new Int32Array(count),
  last: new Int32Array(most),
});

/**
 * Finds the intervals of many samples of one length, such as the points of a curve. What lay out there in one sample says about where the ends of the
 * next lie, some of a sample where none went before; then only what lies out there is put in order. The same to the last bit as one by one.
 *
 * @param count values in each sample
 * @param coverageRatio e.g. 0.95
 * @returns gives the interval of a sample: `count` values from `from` on in a list, which stays as it is
 * @source JCGM 101:2008 clause 7.7, as symmetricIntervalInPlace; sampled bounds after Floyd and Rivest 1975, Commun. ACM 18, 165
 */
export function intervalFinder(count: number, coverageRatio = 0.95): (all: Float64Array, from: number) => Interval {
  const { low, high } = endsOf(count, coverageRatio);
  const some = new Float64Array(scouts);
  const [under, over] = [tailFor(count, low + 1), tailFor(count, count - high)];
  let isFirst = true;
  // where in those few the ends are to be expected, and four standard deviations further in
  const inward = (places: number): number => Math.ceil((places * scouts) / count + 4 * Math.sqrt((places * scouts) / count) + 1);
  const [underAt, overAt] = [inward(low + 1), scouts - 1 - inward(count - high)];
  const isSmall = count < 4 * scouts || underAt >= overAt;
  /** The ends of a sample by bounds that are thought to hold them; nothing where they do not. */
  const within = (all: Float64Array, from: number, most: number, least: number): Interval | undefined => {
    let unders = 0;
    let overs = 0;
    const { values: uv, places: up } = under;
    const { values: ov, places: op } = over;
    const end = from + count;
    for (let i = from; i < end; i++) {
      const v = all[i];
      if (v > most && v < least) continue;
      if (v <= most) {
        uv[unders] = v;
        up[unders++] = i - from;
      } else if (v >= least) {
        ov[overs] = v;
        op[overs++] = i - from;
      }
    }
    const fromHigh = overs - (count - high);
    if (unders <= low || fromHigh < 0) return undefined;
    const ends = { low: selectInPlace(under.values, low, unders), high: selectInPlace(over.values, fromHigh, overs) };
    keep(under, unders, (place) => all[from + place] <= ends.low);
    keep(over, overs, (place) => all[from + place] >= ends.high);
    isFirst = false;
    return ends;
  };
  const byLast = (all: Float64Array, from: number): Interval | undefined => {
    let most = Number.NEGATIVE_INFINITY;
    for (const i of under.last) if (all[from + i] > most) most = all[from + i];
    let least = Number.POSITIVE_INFINITY;
    for (const i of over.last) if (all[from + i] < least) least = all[from + i];
    return within(all, from, most, least);
  };
  const byScouts = (all: Float64Array, from: number): Interval | undefined => {
    for (let i = 0; i < scouts; i++) some[i] = all[from + Math.floor((i * count) / scouts)];
    return within(all, from, selectInPlace(some, underAt), selectInPlace(some, overAt));
  };
  const whole = new Float64Array(count);
  return (all, from) => {
    const found = isSmall ? undefined : ((isFirst ? undefined : byLast(all, from)) ?? byScouts(all, from));
    if (found) return found;
    for (let i = 0; i < count; i++) whole[i] = all[from + i];
    return symmetricIntervalInPlace(whole, coverageRatio);
  };
}
/** Keeps as many places as make up an end, of those that lie out there. */
function keep({ places, last }: Tail, count: number, isOut: (place: number) => boolean): void {
  let kept = 0;
  for (let i = 0; i < count && kept < last.length; i++) if (isOut(places[i])) last[kept++] = places[i];
}

/**
 * Shortest coverage interval of a sample.
 *
 * @param values sample
 * @param coverageRatio e.g. 0.95
 * @returns low and high, in the sample's unit
 * @source JCGM 101:2008 clause 7.7.4
 */
export function shortestInterval(values: Float64Array, coverageRatio = 0.95): Interval {
  const sorted = values.slice().sort();
  const inside = Math.min(sorted.length - 1, Math.floor(coverageRatio * sorted.length + 0.5));
  let best = 0;
  for (let r = 1; r + inside < sorted.length; r++) {
    if (sorted[r + inside] - sorted[r] < sorted[best + inside] - sorted[best]) best = r;
  }
  return { low: sorted[best], high: sorted[best + inside] };
}

/** With more numbers than this in one bin it is quicker to sort them all. */
const mostInBin = 64;

/**
 * Rank of each number among all: how many are smaller. Numbers go into bins of one width, and only those of one bin are held against each other.
 *
 * @param x numbers, no NaN
 * @returns ranks from 0; equal numbers have one
 * @source textbook bucket sort
 */
export function ranksOf(x: Float64Array): Int32Array {
  const n = x.length;
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < n; i++) {
    if (x[i] < least) least = x[i];
    if (x[i] > most) most = x[i];
  }
  const scale = (n - 1) / (most - least);
  if (!Number.isFinite(scale)) return ranksBySorting(x);
  const bin = new Int32Array(n);
  const starts = new Int32Array(n + 1);
  for (let i = 0; i < n; i++) {
    bin[i] = (x[i] - least) * scale;
    if (++starts[bin[i] + 1] > mostInBin) return ranksBySorting(x);
  }
  for (let b = 0; b < n; b++) starts[b + 1] += starts[b];
  const ends = starts.slice(0, n);
  const byBin = new Float64Array(n);
  for (let i = 0; i < n; i++) byBin[ends[bin[i]]++] = x[i];
  const ranks = new Int32Array(n);
  for (let i = 0; i < n; i++) {
    const from = starts[bin[i]];
    const to = starts[bin[i] + 1];
    let rank = from;
    for (let k = from; k < to; k++) if (byBin[k] < x[i]) rank++;
    ranks[i] = rank;
  }
  return ranks;
}
function ranksBySorting(x: Float64Array): Int32Array {
  const sorted = x.slice().sort();
  return Int32Array.from(x, (v) => {
    let low = 0;
    let high = sorted.length;
    while (low < high) {
      const mid = (low + high) >> 1;
      if (sorted[mid] < v) low = mid + 1;
      else high = mid;
    }
    return low;
  });
}

/**
 * Median of a list.
 *
 * @param values at least one number
 * @returns the median, the mean of the middle two where the count is even
 * @source textbook definition
 */
export function median(values: ArrayLike<number>): number {
  const copy = Float64Array.from(values);
  const half = copy.length >> 1;
  const upper = selectInPlace(copy, half);
  return copy.length % 2 ? upper : (upper + selectInPlace(copy, half - 1)) / 2;
}
