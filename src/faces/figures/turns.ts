/** How far a line may pass from a point that it leaves out, px: a fifth is seen by nobody. */
export const leftOutPx = 0.2;

/**
 * The points that a line needs: those where it turns. A point is left out where the line joined without it passes it within a fifth of a px; each of several
 * heights at once, such as the two sides of a band.
 *
 * @param points from left to right
 * @param x of a point, px
 * @param heights of a point, px
 * @returns some of the points, the first and the last among them
 */
export function turnsOf<P>(points: readonly P[], x: (p: P) => number, heights: readonly ((p: P) => number)[]): readonly P[] {
  if (points.length < 3) return points;
  const kept = [points[0]];
  // slopes, for each height, of all lines from the point that was kept last that pass every point since then closely enough
  const least = heights.map(() => Number.NEGATIVE_INFINITY);
  const most = heights.map(() => Number.POSITIVE_INFINITY);
  let from = points[0];
  for (let i = 1; i < points.length; i++) {
    const here = points[i];
    let run = x(here) - x(from);
    const passes = run > 0 && heights.every((y, k) => (y(here) - y(from)) / run >= least[k] && (y(here) - y(from)) / run <= most[k]);
    if (!passes && points[i - 1] !== from) {
      from = points[i - 1];
      kept.push(from);
      least.fill(Number.NEGATIVE_INFINITY);
      most.fill(Number.POSITIVE_INFINITY);
      run = x(here) - x(from);
    }
    for (const [k, y] of heights.entries()) {
      const rise = y(here) - y(from);
      if (!(run > 0) || !Number.isFinite(rise)) {
        // straight up or nowhere: nothing is left out there
        [least[k], most[k]] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
        continue;
      }
      least[k] = Math.max(least[k], (rise - leftOutPx) / run);
      most[k] = Math.min(most[k], (rise + leftOutPx) / run);
    }
  }
  return [...kept, points[points.length - 1]];
}
