import { type DialFit, hzAt, slopeInZ } from "./fitted";

/**
 * Whether the law goes one way along its points.
 *
 * @param fit the fit
 * @returns false where it turns round or stands still
 * @source definition
 */
export function isMonotone(fit: DialFit): boolean {
  let last = hzAt(fit, fit.low);
  const sign = Math.sign(hzAt(fit, fit.high) - last);
  for (let i = 1; i <= 60; i++) {
    const hz = hzAt(fit, fit.low + ((fit.high - fit.low) * i) / 60);
    if (sign * (hz - last) <= 0) return false;
    last = hz;
  }
  return true;
}

/**
 * How far along a scale a law that leans on expectations may speak: from its points outwards while it goes on one way, at no less than a seventh of the
 * slope that it has among them.
 *
 * @param fit the fit
 * @param scale ends of the scale, divisions
 * @param withinHz frequencies that the dial is expected to keep within, Hz
 * @returns readings, the lower first
 * @source house rule: beyond, the law would turn round, and a reading would have two frequencies
 */
export function spoken(
  fit: DialFit,
  scale: readonly [number, number],
  withinHz: readonly [number, number] = [0, Number.POSITIVE_INFINITY],
): readonly [number, number] {
  const steps = 60;
  const typical = slopeInZ(fit, (fit.low + fit.high) / 2);
  const step = (scale[1] - scale[0]) / steps;
  const sound = (r: number): boolean => {
    const hz = hzAt(fit, r);
    return slopeInZ(fit, r) / typical > 1 / 7 && hz > withinHz[0] && hz < withinHz[1];
  };
  let [from, to] = [fit.low, fit.high];
  while (from - step >= scale[0] - 1e-9 && sound(from - step)) from -= step;
  while (to + step <= scale[1] + 1e-9 && sound(to + step)) to += step;
  return [from, to];
}
