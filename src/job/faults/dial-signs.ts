import { chiSquareQuantile } from "../../numerics/chi-square";
import { type Asked, ask as tracking } from "../../sheets/tracking/ask";
import { type Alone, aloneOf, blame, gangAlone } from "../../sheets/tracking/blame";
import { tracked } from "../../sheets/tracking/circuit";
import { printValue } from "../../units/print";
import { ofKind, placeIn } from "../place-in";
import { lastRead } from "../readings-in";
import type { JobView } from "../view";
import { readOf } from "./read-of";
import type { Sign } from "./sign";

/** A dial is a fault by itself where all parts right explain its marks less often than once in a thousand. Common practice, no source. */
const sureOf = 0.999;
/** A band that is narrower than a gang covers is spread by parts of its own, of which nothing is known here. */
const leastRatio = 1.3;

const size = ({ part, share, u }: Alone): string =>
  `the ${part} ${printValue(Math.abs(share), "fraction", Math.max(u, 1e-3))} too ${share > 0 ? "large" : "small"}`;
/** What the pattern over the band says by itself: the parts that could each do it alone, with a bent gang where that could too. */
function patternSaid(x: Asked, t: NonNullable<ReturnType<typeof tracked>>): string {
  const alone = aloneOf(x, t).map(size);
  const all = [...alone, ...(gangAlone(x, t) ? ["a bent gang"] : [])];
  return all.length === 0 ? "more than one part is off, or the pointer has slipped" : all.join(", or ");
}
/** Entry that wrote the last marks of a band. */
const writtenOf = (view: JobView, at: string): string =>
  [
    ofKind(view.inForce, "rows").findLast((e) => e.path === `${at}.trackingReadings`)?.id,
    lastRead(view.inForce).findLast(({ reading }) => reading.as === "dial" && `bands.${reading.band}` === at)?.id,
  ].reduce((a, b) => (placeIn(view.inForce, b) > placeIn(view.inForce, a) ? b : a)) ?? "";

/**
 * Dials that are off by their own marks, band by band: where they are off most, and which part's pattern that is.
 *
 * @param view the job as it stands
 * @returns a sign for each band whose marks all parts right don't explain
 * @source sheets/tracking: least squares, chi square
 */
export const dialSigns = (view: JobView): readonly Sign[] =>
  view.set.bands.flatMap((b): readonly Sign[] => {
    const at = `bands.${b.id}`;
    const entry = writtenOf(view, at);
    const x = entry === "" ? undefined : readOf<Asked>(view, tracking, at);
    if (!x || b.spread || x.readings.length < 3 || x.high / x.low < leastRatio) return [];
    const t = tracked(x);
    const found = t && blame(x, t);
    if (!t || !found || found.unmoved <= chiSquareQuantile(sureOf, found.count)) return [];
    const off = (r: (typeof x.readings)[number]): number => (Number.isFinite(r.received) ? r.dial / r.received - 1 : 0);
    const worst = x.readings.reduce((w, r) => (Math.abs(off(r)) > Math.abs(off(w)) ? r : w));
    const says = `its dial is off, most at ${printValue(worst.received, "frequency", worst.received / 2000)}, where it says ${printValue(worst.dial, "frequency", worst.dial / 2000)}: ${patternSaid(x, t)}`;
    return [{ place: at, point: "its marks", says, entry }];
  });
