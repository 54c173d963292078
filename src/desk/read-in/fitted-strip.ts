import { slugsTouched } from "../../infer/strip/attempt";
import { fitStrip, fittedWidthHz, type StripFit } from "../../infer/strip/fit";
import type { Entry, Reading } from "../../job/document";
import { type JobView, viewOf } from "../../job/view";
import { sweepNoise } from "../../readings/level-noise";
import { history, slugsByHistory } from "../../set/addresses/history";
import { lookUp } from "../../set/paths";
import type { DescribedStrip } from "../../set/strip";
import { good, type Read } from "../../units/issue";
import { printValue } from "../../units/print";
import { standardUncertainty } from "../../units/quantity";

/** The strip as stated and measured, without what earlier fits made of it: a fit starts from that, so that no sweep counts twice. */
function priorStrip(view: JobView): DescribedStrip {
  const fitted = (e: Entry): boolean => e.kind === "values" && Object.values(e.values).every((q) => q.origin === "fitted");
  return viewOf({ ...view.document, entries: view.document.entries.filter((e) => !fitted(e)) }).set.strip;
}

/** The fitted strip's width at -6 dB against the one cut from the sweep itself: said where they don't meet. */
function disagreement(reading: Reading, fit: StripFit, strip: DescribedStrip): string[] {
  const direct = reading.figures.find((f) => f.name === "width at -6 dB")?.quantity;
  if (!direct) return [];
  const fitted = fittedWidthHz(strip, fit, 6);
  const u = Math.hypot(standardUncertainty(direct.spread), 0.02 * direct.value * fit.misfit.widenRatio);
  if (!(Math.abs(fitted - direct.value) > 2 * u)) return [];
  return [
    `width at -6 dB is ${printValue(direct.value, "frequency", direct.value / 100)} in the sweep itself and ${printValue(fitted, "frequency", fitted / 100)} by the fitted strip: trust the sweep for the width`,
  ];
}

/** A strip that a sweep was fitted by; or why none was made of a sweep that is kept all the same. */
export interface StripMade {
  readonly fit?: StripFit;
  readonly warnings: readonly string[];
}
/**
 * Fits the strip of a job to a sweep of it.
 *
 * @param view the job, for the strip as described and for what is known of its slugs
 * @param reading the sweep
 * @returns the fit with what is odd about it, or the located issue where the sweep itself can't be used
 */
export function stripMadeOf(view: JobView, reading: Reading): Read<StripMade> {
  const prior = priorStrip(view);
  const frequencyHz = Float64Array.from(reading.columns.frequencyHz);
  const levelDb = Float64Array.from(reading.columns.levelDb);
  const stated = reading.columns.levelUDb;
  const noiseDb = sweepNoise(stated ? { levelDb, levelUDb: Float64Array.from(stated) } : { levelDb });
  const [told, past] = [lookUp(view.set, "alignment.slugsTouched"), lookUp(view.set, history.slugsTurned.address)];
  const slugs = slugsTouched.find((s) => s === told) ?? slugsByHistory(typeof past === "string" ? past : undefined) ?? "perhaps";
  const fit = fitStrip(prior, { frequencyHz, levelDb, noiseDb }, `fit-${reading.id}`, [reading.id], slugs);
  if (fit.ok) return good({ fit: fit.value, warnings: disagreement(reading, fit.value, prior) });
  const [issue] = fit.issues;
  if (issue.code !== "no-law" && issue.code !== "too-few") return fit;
  // the sweep is what it is: kept with its own figures, and no strip made of it
  return good({ warnings: [`no strip was fitted: ${issue.read}; wanted is ${issue.expected}`] });
}

type Estimated = Extract<Entry, { kind: "estimate" }>["estimate"];
/** An estimate as a job keeps it. */
export const storedEstimate = ({ estimate: e }: StripFit): Estimated => ({
  ...e,
  names: [...e.names],
  values: [...e.values],
  logarithmic: [...e.logarithmic],
  covariance: e.covariance.map((row) => [...row]),
  fromReadings: [...e.fromReadings],
});
