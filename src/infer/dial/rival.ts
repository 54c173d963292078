import type { DialPoint } from "../../readings/zero-beats";
import type { Issue } from "../../units/issue";
import { evidenceOf } from "./evidence";
import { enoughPoints } from "./frame";
import { type Judged, type OneLaw, oddLog, pointsAt, rivalLog } from "./one-law";

/** Another account of the readings: how well it explains them, and what it means. */
interface Rival {
  readonly log: number;
  readonly counted: boolean;
  readonly issue: () => Issue;
}

/**
 * Whether the points are better explained by markers miscounted from one of them on, or by a scale that slipped. Either leaves a law that looks
 * well and is wrong by a marker's spacing, so nothing is answered until it is mended.
 *
 * @param j what is judged
 * @param all places of the points that repeat no other
 * @param kept places of those that fit one law
 * @param law how well one law explains them
 * @returns the likelier account, located; undefined where one law explains them as well
 * @source Bayesian model comparison, Rasmussen and Williams (2006) 5.4; what is believed is a house rule, its rates on invented dials in docs/proof-fits.md
 */
export function rivalOf(j: Judged, all: readonly number[], kept: readonly number[], law: OneLaw): Issue | undefined {
  const cost = oddLog * (all.length - kept.length);
  if (!Number.isFinite(law.stated) || all.length < enoughPoints + 1) return undefined;
  // a slip may make points look odd, and an odd point may hide a slip: each is sought with all, with those that fit, and where all seem to scatter
  // without each that may be the odd one
  const fewer = kept.length < all.length ? [[kept, cost] as const] : law.scatters ? withoutOne(j.points, all) : [];
  const believed = [[all, 0] as const, ...fewer].flatMap(([which, paid]) =>
    rivals(j, which)
      .filter((r) => r.log - paid > law.stated + rivalLog)
      .map((r) => ({ ...r, log: r.log - paid })),
  );
  if (believed.length === 0) return undefined;
  const best = believed.reduce((a, b) => (b.log > a.log ? b : a));
  if (best.log < law.scattered) return undefined;
  const issue = best.issue();
  // on a coarse scale a marker's spacing is a division or two, and both look alike; and few readings that scatter look like either
  const counted = !best.counted && believed.some((r) => r.counted);
  const scattered = best.log < law.scattered + rivalLog;
  return {
    ...issue,
    code: `${issue.code}${counted ? "-or-miscounted" : ""}${scattered ? "-or-scattered" : ""}`,
    expected: [
      issue.expected,
      ...(counted ? ["Or a marker was missed or counted twice near there: identify one from a station first"] : []),
      ...(scattered
        ? [
            "Or the readings scatter far more than stated: there are too few to tell. Read some of them again, and one of them several times",
          ]
        : []),
    ].join(". "),
  };
}

/** Up to so many points each may be the odd one; of more only those whose marker stands at two readings. Keeps the search short. */
const mostLeftOut = 16;
const withoutOne = (points: readonly DialPoint[], all: readonly number[]): (readonly [number[], number])[] =>
  all
    .filter((i) => all.length <= mostLeftOut || all.some((j) => j !== i && points[j].frequencyHz === points[i].frequencyHz))
    .map((i) => [all.filter((j) => j !== i), oddLog] as const);

/** Every place from which on markers may be miscounted, or the scale have slipped. */
function rivals(j: Judged, which: readonly number[]): Rival[] {
  const own = pointsAt(j.points, which);
  const stride = own.length > 60 ? 2 : 1;
  const byFrequency = own.map((_, i) => i).sort((a, b) => own[a].frequencyHz - own[b].frequencyHz);
  const out: (Rival | undefined)[] = [];
  for (let k = 2; k <= own.length - 2; k += stride) {
    for (const steps of [-1, 1] as const) out.push(miscounted(j, own, which, { byFrequency, k, steps }));
    out.push(slipped(j, own, which, k));
  }
  return out.flatMap((r) => r ?? []);
}
interface Moved {
  readonly byFrequency: readonly number[];
  /** the first of those that moved, by frequency */
  readonly k: number;
  readonly steps: -1 | 1;
}
function miscounted(j: Judged, own: readonly DialPoint[], which: readonly number[], { byFrequency, k, steps }: Moved): Rival | undefined {
  const moved = new Set(byFrequency.slice(k));
  const relabelled = own.map((p, i) => (moved.has(i) ? { ...p, frequencyHz: p.frequencyHz + steps * j.spacingHz } : p));
  const [below, above] = [byFrequency[k - 1], byFrequency[k]];
  if (steps < 0 && relabelled[above].frequencyHz <= relabelled[below].frequencyHz) return undefined;
  const e = evidenceOf(relabelled, j.conversion, j.assumed);
  return (
    e && {
      log: e.log,
      counted: true,
      issue: () => ({
        path: `points rows ${which[below] + 1} and ${which[above] + 1}`,
        code: "miscounted",
        read: `${(own[below].frequencyHz / 1e6).toFixed(3)} and ${(own[above].frequencyHz / 1e6).toFixed(3)} MHz`,
        expected: `markers counted right: between these two a marker was ${steps > 0 ? "missed" : "counted twice"}, so all above or all below are one marker off. Identify one from a station or a coarser marker, then correct the others`,
      }),
    }
  );
}
function slipped(j: Judged, own: readonly DialPoint[], which: readonly number[], k: number): Rival | undefined {
  const e = evidenceOf(own, j.conversion, j.assumed, { slippedFrom: k });
  return (
    e && {
      log: e.log,
      counted: false,
      issue: () => ({
        path: `points row ${which[k] + 1}`,
        code: "slipped",
        read: String(own[k].reading),
        expected: `one scale throughout: from this row on it reads ${Math.abs(e.slipDiv).toFixed(1)} divisions ${e.slipDiv > 0 ? "higher" : "lower"} than before. The pointer or cord slipped, or the main dial was moved; set it back, or take the earlier ones again under their own set-point`,
      }),
    }
  );
}
