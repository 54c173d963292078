import { type DialFit, dialAt, readingFor } from "./fitted";

/**
 * The marker that would tell you most about the law: where its doubt, and that of its surroundings, is largest.
 *
 * @param fit the fit
 * @param lowHz where the law is wanted
 * @param highHz to there
 * @param spacingHz markers to choose from are its multiples
 * @returns frequency of the marker, Hz; undefined where each one is taken already
 * @source where the law's own doubt is largest
 */
export function bestNextMarker(fit: DialFit, lowHz: number, highHz: number, spacingHz: number): number | undefined {
  let best: { readonly hz: number; readonly doubt: number } | undefined;
  // of very many markers every so-manieth will do
  const stride = Math.max(1, Math.ceil((highHz - lowHz) / spacingHz / 120));
  const first = Math.ceil(lowHz / spacingHz - 1e-9);
  // counted, since multiples so high that a stride does not change them would never come to the end
  for (let i = 0; i <= 121; i++) {
    const hz = (first + i * stride) * spacingHz;
    if (!(hz <= highHz * (1 + 1e-12))) break;
    if (fit.points.some((p) => Math.abs(p.frequencyHz - hz) < 1)) continue;
    const reading = readingFor(fit, hz);
    const doubt = reading === undefined ? Number.POSITIVE_INFINITY : dialAt(fit, reading).uHz;
    if (!best || doubt > best.doubt) best = { hz, doubt };
  }
  return best?.hz;
}
