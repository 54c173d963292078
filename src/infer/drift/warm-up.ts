import { rootBetween } from "../../numerics/root";

/** One warm-up that the readings leave possible: hertz as a function of seconds since switching on. */
export interface WarmUp {
  readonly endHz: number;
  readonly parts: readonly (Pace & { readonly hz: number })[];
}
/** How one part dies away: exp(-(t/tau)^power), or as a tail (1 + t/tau)^-power, which goes on for longest. */
export interface Pace {
  readonly tauS: number;
  readonly power: number;
  readonly tail?: true;
}
/** Slowest time constant thought of: no chassis takes longer. Assumed, no source. */
export const slowestS = 3 * 3600;
/** What of a part is left after so long, as a share. */
const leftOf = ({ tauS, power, tail }: Pace, atS: number): number =>
  tail ? (1 + atS / tauS) ** -power : Math.exp(-(power === 1 ? atS / tauS : (atS / tauS) ** power));

/**
 * What of a warm-up is still to come at a time.
 *
 * @param w the warm-up
 * @param atS time since switching on, s
 * @returns Hz, over what it ends at
 * @source derived
 */
export function toComeHz(w: WarmUp, atS: number): number {
  let hz = 0;
  for (const p of w.parts) hz += p.hz * leftOf(p, atS);
  return hz;
}
/** How fast one part moves at a time of a second or more, Hz/s. Source: the derivative of what is left. */
function speedOf({ hz, tauS, power, tail }: WarmUp["parts"][number], atS: number): number {
  const x = atS / tauS;
  if (tail) return (-hz * power * (1 + x) ** (-power - 1)) / tauS;
  if (power === 1) return (-hz * Math.exp(-x)) / tauS;
  const left = x ** power;
  return (-hz * power * left * Math.exp(-left)) / atS;
}
/**
 * How fast it moves at a time.
 *
 * @param w the warm-up
 * @param atS time since switching on, s; what is under a second is taken as one
 * @returns Hz/s
 * @source the derivative of what is left
 */
export function speedHzPerS(w: WarmUp, atS: number): number {
  const at = Math.max(atS, 1);
  let speed = 0;
  for (const p of w.parts) speed += speedOf(p, at);
  return speed;
}

/** The most that it can move at a time, were all parts of one sign, Hz/s; it only falls, as each part's own speed does at powers up to 1 and as a tail. */
function mostHzPerS(w: WarmUp, atS: number): number {
  let speed = 0;
  for (const p of w.parts) speed += Math.abs(speedOf(p, atS));
  return speed;
}

/**
 * Time from which it moves no more than so fast, s.
 *
 * @param w the warm-up
 * @param limitHzPerS speed
 * @param fromS first moment looked at
 * @returns the time, to a part in 10^9; `fromS` where it never moves faster
 * @source root of the speed between steps of 4 %, from where all parts together can't reach the limit any more inward
 */
export function settledAfterS(w: WarmUp, limitHzPerS: number, fromS: number): number {
  const first = Math.max(10, fromS);
  const stepS = (k: number): number => first * 1.04 ** k;
  let k = -1;
  for (let above = Math.ceil(Math.log((40 * slowestS) / first) / Math.log(1.04)) + 1; above - k > 1; ) {
    const mid = (k + above) >> 1;
    if (mostHzPerS(w, stepS(mid)) > limitHzPerS) k = mid;
    else above = mid;
  }
  const over = (atS: number): number => Math.abs(speedHzPerS(w, atS)) - limitHzPerS;
  while (k >= 0 && over(stepS(k)) <= 0) k--;
  return k < 0 ? fromS : rootBetween(over, stepS(k), stepS(k + 1), 1e-9 * stepS(k));
}
