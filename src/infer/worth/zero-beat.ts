import { type DialFit, lawRow, readingFor, slopeInZ, zAt } from "../dial/fitted";
import { dialTerms, leverageHz } from "../dial/scaling";
import { linearShrinking, type Shrinking } from "./doubt";

/** Covariance of the law's coefficients, row-major. */
function covarianceOf({ root }: DialFit): Float64Array {
  const out = new Float64Array(dialTerms * dialTerms);
  for (let i = 0; i < dialTerms; i++)
    for (let j = 0; j < dialTerms; j++)
      for (let k = 0; k <= Math.min(i, j); k++) out[i * dialTerms + j] += root[k * dialTerms + i] * root[k * dialTerms + j];
  return out;
}
/**
 * What one more zero beat is expected to leave of the law's variance at other frequencies. The length and size of the law's bends are taken as known as
 * they are now; in truth a beat tells a little of them too.
 *
 * @param fit the dial's law as it stands
 * @param atHz where the law is wanted, Hz
 * @param beatHz marker to be zero beat, Hz
 * @param zeroBeatHz standard uncertainty of finding the beat, Hz
 * @returns variance of the law at each frequency, Hz^2; undefined where the fit doesn't speak of one of them
 * @source linear-Gaussian conditional of the fit's own coefficients
 */
export function zeroBeatShrinking(
  fit: DialFit,
  atHz: readonly number[],
  beatHz: number,
  zeroBeatHz: number,
): readonly Shrinking[] | undefined {
  const beat = readingFor(fit, beatHz);
  if (beat === undefined) return undefined;
  const covariance = covarianceOf(fit);
  const leverageAt = (reading: number): number => leverageHz(zAt(fit, fit.mean, reading, fit.side), fit.scaling);
  const noise = (slopeInZ(fit, beat) * fit.readingNoise) ** 2 + (zeroBeatHz / leverageAt(beat)) ** 2;
  const seenBy = lawRow(fit, beat, fit.side);
  const out: Shrinking[] = [];
  for (const hz of atHz) {
    const reading = readingFor(fit, hz);
    if (reading === undefined) return undefined;
    const lever = leverageAt(reading);
    out.push(
      linearShrinking(
        covariance,
        lawRow(fit, reading, fit.side).map((x) => x * lever),
        seenBy,
        noise,
      ),
    );
  }
  return out;
}
