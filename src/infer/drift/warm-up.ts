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

/**
 * Time from which it moves no more than so fast, s.
 *
 * @param w the warm-up
 * @param limitHzPerS speed
 * @param fromS first moment looked at
 * @returns the time; `fromS` where it never moves faster
 * @source bisection on the speed between steps of 4 %, from the far end
 */
export function settledAfterS(w: WarmUp, limitHzPerS: number, fromS: number): number {
  const first = Math.max(10, fromS);
  const steps = Math.ceil(Math.log((40 * slowestS) / first) / Math.log(1.04));
  let fast = first * 1.04 ** steps;
  let k = steps;
  for (; k >= 0 && Math.abs(speedHzPerS(w, fast)) <= limitHzPerS; k--) fast /= 1.04;
  if (k < 0) return fromS;
  let calm = fast * 1.04;
  for (let i = 0; i < 40; i++) {
    const mid = (fast + calm) / 2;
    if (Math.abs(speedHzPerS(w, mid)) > limitHzPerS) fast = mid;
    else calm = mid;
  }
  return calm;
}
