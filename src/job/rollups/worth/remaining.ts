import { middle, type Range } from "../../../standards/minutes";
import { waitsOfSteps } from "../../open-steps";
import type { JobView } from "../../view";
import { type AsItStands, plus, takesFor } from "./costs";
import { leftOf } from "./steps";
import type { Tie } from "./ties";

/** What is left of a job: hands on it, and what the set takes besides by itself, min: the middle, and from low to high. */
export interface Remaining {
  readonly steps: number;
  readonly hands: number;
  readonly range: Range;
  readonly itself: Range;
  /** of the hands: finding and mending what is traced now */
  readonly faults: number;
}
/** How far people are slow or fast at everything alike, as a correlation of any two pieces of work. Common practice, no source. */
const together = 0.5;

/**
 * The remaining work with its range: every open step, what the traced faults are expected to take, and opening and warming the set once.
 *
 * @param view the job
 * @param ties faults whose causes are sought
 * @param now how the set stands
 * @returns min
 * @source JCGM 100:2008 5.2.2, sum of correlated values; each even over its own range
 */
export function remainingOf(view: JobView, ties: readonly Tie[], now: AsItStands): Remaining {
  const open = [...waitsOfSteps(view).keys()];
  const left = view.steps.filter((s) => open.includes(s.id)).map((s) => leftOf(view, s));
  const faults = ties.reduce((sum, t) => sum + t.minutes, 0);
  const ranges: Range[] = [
    ...left.map((t) => t.hands),
    ...ties.map((t): Range => [t.minutes / 2, 1.5 * t.minutes]),
    ...(open.length > 0 && !now.open ? [takesFor(view, "turn", "open").hands] : []),
  ];
  const hands = ranges.reduce((sum, r) => sum + middle(r), 0);
  const us = ranges.map(([low, high]) => (high - low) / Math.sqrt(12));
  const [square, sum] = [us.reduce((s, u) => s + u * u, 0), us.reduce((s, u) => s + u, 0)];
  const half = 1.96 * Math.sqrt((1 - together) * square + together * sum ** 2);
  const least = ranges.reduce((s, [low]) => s + low, 0);
  const most = ranges.reduce((s, [, high]) => s + high, 0);
  return {
    steps: open.length,
    hands,
    range: [Math.max(least, hands - half), Math.min(most, hands + half)],
    itself: left.reduce<Range>((s, t) => plus(s, t.itself), [0, 0]),
    faults,
  };
}
