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

/**
 * Finds the intervals of many samples of one length, such as the points of a curve. Some of a sample say about where its ends lie; then only what
 * lies out there is put in order. The same to the last bit as one by one.
 *
 * @param count values in each sample
 * @param coverageRatio e.g. 0.95
 * @returns gives the interval of a sample: `count` values from `from` on in a list, which stays as it is
 * @source JCGM 101:2008 clause 7.7, as symmetricIntervalInPlace; sampled bounds after Floyd and Rivest 1975, Commun. ACM 18, 165
 */
export function intervalFinder(count: number, coverageRatio = 0.95): (all: Float64Array, from: number) => Interval {
  const { low, high } = endsOf(count, coverageRatio);
  const some = new Float64Array(scouts);
  const under = new Float64Array(count);
  const over = new Float64Array(count);
  // where in those few the ends are to be expected, and four standard deviations further in
  const inward = (places: number): number => Math.ceil((places * scouts) / count + 4 * Math.sqrt((places * scouts) / count) + 1);
  const [underAt, overAt] = [inward(low + 1), scouts - 1 - inward(count - high)];
  const isSmall = count < 4 * scouts || underAt >= overAt;
  return (all, from) => {
    if (!isSmall) {
      for (let i = 0; i < scouts; i++) some[i] = all[from + Math.floor((i * count) / scouts)];
      const most = selectInPlace(some, underAt);
      const least = selectInPlace(some, overAt);
      let unders = 0;
      let overs = 0;
      for (let i = from; i < from + count; i++) {
        const v = all[i];
        under[unders] = v;
        if (v <= most) unders++;
        over[overs] = v;
        if (v >= least) overs++;
      }
      const fromHigh = overs - (count - high);
      if (unders > low && fromHigh >= 0) return { low: selectInPlace(under, low, unders), high: selectInPlace(over, fromHigh, overs) };
    }
    for (let i = 0; i < count; i++) under[i] = all[from + i];
    return symmetricIntervalInPlace(under, coverageRatio);
  };
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

/**
 * Arithmetic mean and sample standard deviation (n - 1).
 *
 * @param values at least two numbers
 * @returns mean and deviation, in the values' unit
 * @source JCGM 100:2008 4.2.1 and 4.2.2
 */
export function meanAndDeviation(values: ArrayLike<number>): { mean: number; deviation: number } {
  let mean = 0;
  let sum = 0;
  for (let i = 0; i < values.length; i++) {
    const d = values[i] - mean;
    mean += d / (i + 1);
    sum += d * (values[i] - mean);
  }
  return { mean, deviation: Math.sqrt(sum / Math.max(1, values.length - 1)) };
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
