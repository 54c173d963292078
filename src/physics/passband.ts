/**
 * What a pass band is worth: peak and widths; its noise is in noise-band.ts, what is left of AM audio in am-audio.ts. Every figure comes from bracketing and closing in
 * on the exact response, never from a drawn grid.
 */
import { areApart } from "../numerics/apart";
import { rootBetween } from "../numerics/root";
import { looks, mostLooks, powersAt, type Response } from "./response";

/** Looks go out from a centre in steps: 4 Hz, then 12 % further each time for a peak, and come in by 7 % each time for an outermost crossing. */
const firstOffsetHz = 4;
const growth = 1.12;
const inward = 1.07;
/** How near a crossing is told, as a part of its distance. */
export const finestPart = 1e-9;
/** How far from a centre anything is looked for, as a part of it. */
export const farRatio = 0.45;
/** How far a peak may lie from a hint, as a part of it. */
const nearRatio = 0.1;

export interface Peak {
  readonly hz: number;
  readonly power: number;
}

/**
 * The highest point of a response.
 *
 * @param r response
 * @param hintsHz frequencies that a narrow peak may lie near
 * @returns frequency to about 0.01 Hz, and power there
 * @source Brent's search for a maximum from the best looks below and above the hints
 */
export function peakOf(r: Response, hintsHz: readonly number[]): Peak {
  const low = { hz: 0, power: 0, gap: 0 };
  const high = { hz: 0, power: 0, gap: 0 };
  for (const hint of hintsHz) {
    // what lies far from a second hint the first has looked at
    const reach = hint === hintsHz[0] ? hint * nearRatio : Math.max(100, 2 * Math.abs(hint - hintsHz[0]));
    lookRound(r, { hint, reach, low, high });
  }
  const [best, other] = low.power >= high.power ? [low, high] : [high, low];
  const peak = highestHz(r, best);
  // two humps of nearly one height: looks do not tell which is the higher one
  if (other.power < 0.9 * best.power || Math.abs(other.hz - peak.hz) < 1.5 * best.gap) return peak;
  const second = highestHz(r, other);
  return second.power > peak.power ? second : peak;
}
/** Looks at a hint and below and above it, as far as it reaches, and keeps the highest of either side. */
function lookRound(r: Response, { hint, reach, low, high }: { hint: number; reach: number; low: Look; high: Look }): void {
  const { hz, power } = looks;
  hz[0] = hint;
  let n = 1;
  for (let d = firstOffsetHz; d <= reach && n < mostLooks - 1; d *= growth) {
    hz[n++] = hint - d;
    hz[n++] = hint + d;
  }
  powersAt(r, hz, power, n);
  if (power[0] > low.power) put(low, hint, power[0], firstOffsetHz);
  for (let i = 1, d = firstOffsetHz; i < n; i += 2, d *= growth) {
    const gap = Math.max(firstOffsetHz, d * (growth - 1));
    if (power[i] > low.power) put(low, hz[i], power[i], gap);
    if (power[i + 1] > high.power) put(high, hz[i + 1], power[i + 1], gap);
  }
}
interface Look {
  hz: number;
  power: number;
  gap: number;
}
function put(look: Look, hz: number, power: number, gap: number): void {
  look.hz = hz;
  look.power = power;
  look.gap = gap;
}

const golden = (3 - Math.sqrt(5)) / 2;
const peakToHz = 0.005;
/** The maximum beside a look. Source: R. P. Brent, parabolas through the three best points, golden section where they fail. */
function highestHz(r: Response, { hz: from, power, gap }: Look): Peak {
  // one by one: numbers that change places in a list would each be made anew on the heap
  let a = from - 1.5 * gap;
  let b = from + 1.5 * gap;
  let x = from;
  let w = from;
  let v = from;
  let px = power;
  let pw = power;
  let pv = power;
  let step = 0;
  let before = 0;
  while (areApart(a, b, 4 * peakToHz) && Math.abs(x - (a + b) / 2) + (b - a) / 2 > 2 * peakToHz) {
    const middle = (a + b) / 2;
    const q1 = (x - w) * (px - pv);
    const q2 = (x - v) * (px - pw);
    const under = 2 * (q2 - q1);
    const parabola = under === 0 ? Number.NaN : -((x - v) * q2 - (x - w) * q1) / under;
    const taken = Math.abs(parabola) < Math.abs(before) / 2 && x + parabola > a && x + parabola < b;
    before = taken ? step : (x < middle ? b : a) - x;
    step = taken ? parabola : golden * before;
    const u = x + (Math.abs(step) >= peakToHz ? step : step < 0 ? -peakToHz : peakToHz);
    const pu = r.at(u);
    if (pu >= px) {
      if (u < x) b = x;
      else a = x;
      v = w;
      w = x;
      x = u;
      pv = pw;
      pw = px;
      px = pu;
    } else {
      if (u < x) a = u;
      else b = u;
      if (pu >= pw || w === x) {
        v = w;
        w = u;
        pv = pw;
        pw = pu;
      } else if (pu >= pv || v === x || v === w) {
        v = u;
        pv = pu;
      }
    }
  }
  return { hz: x, power: px };
}

/** Looks of one side are made so many at a time: those at the wide end serve all levels. */
const looksAtOnce = 32;
/** The powers of one side of a peak, from the far end inward. */
class Side {
  private readonly offset: number[] = [];
  private readonly power: number[] = [];
  private known = 0;

  constructor(private readonly sign: -1 | 1) {}
  /** Forgets what it saw. */
  clear(): void {
    this.known = 0;
  }
  crossingHz(r: Response, peak: Peak, level: number): number {
    const { offset, power } = this;
    let k = 0;
    while (k < this.known || this.lookOn(r, peak)) {
      if (!(power[k] <= level)) break;
      k++;
    }
    if (k === 0) return Number.NaN;
    const inside = k < this.known ? offset[k] : 0;
    const over = (d: number): number => Math.log(r.at(peak.hz + this.sign * d) / level);
    const known = [Math.log((k < this.known ? power[k] : peak.power) / level), Math.log(power[k - 1] / level)] as const;
    return peak.hz + this.sign * rootBetween(over, inside, offset[k - 1], finestPart * offset[k - 1], known);
  }
  /** Looks at the next few further in; false where there are none. */
  private lookOn(r: Response, peak: Peak): boolean {
    const from = this.known;
    let d = from === 0 ? peak.hz * farRatio : this.offset[from - 1] / inward;
    let n = 0;
    for (; n < looksAtOnce && from + n < mostLooks && (d > firstOffsetHz || from + n === 0); d /= inward) {
      this.offset[from + n] = d;
      looks.hz[n++] = peak.hz + this.sign * d;
    }
    powersAt(r, looks.hz, looks.power, n);
    for (let i = 0; i < n; i++) this.power[from + i] = looks.power[i];
    this.known += n;
    return n > 0;
  }
}

/** Where the sides of a pass band fall through levels; what was looked at for one level serves the others. */
export class Skirts {
  private readonly below = new Side(-1);
  private readonly above = new Side(1);
  private r!: Response;
  private peak!: Peak;

  /** Takes over a response and its peak. It asks the response anew at each level: as long as it is used, the response must stay as it is. */
  of(r: Response, peak: Peak): this {
    this.r = r;
    this.peak = peak;
    this.below.clear();
    this.above.clear();
    return this;
  }
  /** As `crossingHz` below. */
  crossingHz(levelDb: number, side: -1 | 1): number {
    return (side < 0 ? this.below : this.above).crossingHz(this.r, this.peak, this.peak.power * 10 ** (-levelDb / 10));
  }
  /** As `widthHz` below. */
  widthHz(levelDb: number): number {
    return this.crossingHz(levelDb, 1) - this.crossingHz(levelDb, -1);
  }
}

/**
 * Outermost frequency on one side of the peak where the response falls through a level.
 *
 * @param r response
 * @param peak its peak
 * @param levelDb level below the peak, dB, positive
 * @param side -1 below the peak, 1 above
 * @returns Hz, to a part in 10^9 of its distance; NaN where the response has not fallen that far 45 % away from the peak
 * @source definition of bandwidth at a level (outermost crossings, relative to the peak)
 */
export const crossingHz = (r: Response, peak: Peak, levelDb: number, side: -1 | 1): number =>
  new Skirts().of(r, peak).crossingHz(levelDb, side);

/**
 * Width between the outermost crossings of a level.
 *
 * @param r response
 * @param peak its peak
 * @param levelDb level below the peak, dB, positive
 * @returns Hz; NaN where a side does not reach the level
 * @source definition of bandwidth at a level
 */
export const widthHz = (r: Response, peak: Peak, levelDb: number): number => new Skirts().of(r, peak).widthHz(levelDb);

/**
 * How far a signal beside the pass band is down: the worse of the two sides, relative to the peak.
 *
 * @param r response
 * @param centreHz what the distance counts from, Hz
 * @param distanceHz distance, Hz
 * @param peakPower power at the peak
 * @returns dB, positive
 * @source definition
 */
export function rejectionDb(r: Response, centreHz: number, distanceHz: number, peakPower: number): number {
  return 10 * Math.log10(peakPower / Math.max(r.at(centreHz - distanceHz), r.at(centreHz + distanceHz)));
}
