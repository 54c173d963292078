import { median } from "../../numerics/order";

/** Where the level stands to the best that was seen. */
export type Place = "climbing" | "at the top" | "past the top" | "below the best";
/** How a level stands now. */
export interface TopNow {
  /** against the best so far, dB; 0 at the best */
  readonly underDb: number;
  readonly bestDb: number;
  readonly bestAtS: number;
  /** dB a second over the last one, and whether that is more than scatter makes */
  readonly slopeDbPerS: number;
  readonly trend: "rising" | "falling" | "steady";
  readonly place: Place;
  /** scatter of a figure, one standard deviation, dB */
  readonly scatterDb: number;
}
/** The level rose to a top and fell again. */
export interface Passage {
  readonly atS: number;
  readonly topDb: number;
  /** so far it had risen to it, dB */
  readonly roseDb: number;
}

/** Best is taken of medians over so long, so that a click is no best; longer where levels scatter by so much. */
const calmS = 0.3;
const noisyCalmS = 1;
const noisyDb = 0.2;
const trendS = 0.7;
const scatterS = 2;
/**
 * Least fall that counts as past the top, and in scatters of such a median: of a minute's 200 medians the highest and the lowest are five and a half
 * deviations apart (order statistics of the normal law). Source: common practice, no source.
 */
const leastFallDb = 0.3;
const fallScatters = 6;
const leastSlopeDbPerS = 0.2;

/**
 * Watches a level for its top: the best so far, the trend, and each passage over it.
 *
 * @source slope by least squares; scatter by the median of second differences, textbook
 */
export class TopWatch {
  readonly passages: Passage[] = [];
  private readonly levels: number[] = [];
  private best = Number.NEGATIVE_INFINITY;
  private bestAtS = 0;
  /** highest of this climb, and lowest before it */
  private high = Number.NEGATIVE_INFINITY;
  private highAtS = 0;
  private low = Number.POSITIVE_INFINITY;
  private under = 0;
  private seen = 0;
  private scatter = 0;
  private fallDb = leastFallDb;

  /**
   * @param everyS time from one level to the next
   * @param apart levels so many places apart have no sound in common
   */
  constructor(
    private readonly everyS: number,
    private readonly apart: number,
  ) {}
  private places(s: number): number {
    return Math.round(s / this.everyS);
  }
  take(atS: number, db: number): void {
    const { levels } = this;
    levels.push(db);
    if (levels.length > this.places(scatterS)) levels.shift();
    if (++this.seen % this.places(0.1) === 0) this.scatter = this.scatterOf();
    const spanS = this.scatter < noisyDb ? calmS : noisyCalmS;
    const span = this.places(spanS);
    if (this.seen < span) return;
    // a median of n has 1.25 times the deviation of their mean
    const own = Math.max(1, span / this.apart);
    this.fallDb = Math.max(leastFallDb, (fallScatters * 1.25 * this.scatter) / Math.sqrt(own));
    this.judge(atS - spanS / 2, median(levels.slice(-span)));
  }
  private judge(atS: number, calmDb: number): void {
    if (calmDb > this.best) [this.best, this.bestAtS] = [calmDb, atS];
    this.under = this.best - calmDb;
    if (calmDb > this.high) [this.high, this.highAtS] = [calmDb, atS];
    if (this.high - calmDb > this.fallDb) {
      if (this.high - this.low > this.fallDb) this.passages.push({ atS: this.highAtS, topDb: this.high, roseDb: this.high - this.low });
      [this.low, this.high, this.highAtS] = [calmDb, calmDb, atS];
    }
    // on the way down the climb to come begins lower
    if (calmDb < this.low) [this.low, this.high, this.highAtS] = [calmDb, calmDb, atS];
  }
  private scatterOf(): number {
    const { levels, apart } = this;
    const off: number[] = [];
    for (let i = apart; i + apart < levels.length; i += apart) off.push(Math.abs(levels[i] - (levels[i - apart] + levels[i + apart]) / 2));
    // 0.6745 of a deviation is the median of its size; a second difference has 1.5 times the variance
    return off.length > 3 ? median(off) / 0.6745 / Math.sqrt(1.5) : 0;
  }
  private slope(): { readonly dbPerS: number; readonly u: number } {
    const n = Math.min(this.levels.length, this.places(trendS));
    const y = this.levels.slice(-n);
    const [meanT, meanY] = [(n - 1) / 2, y.reduce((s, v) => s + v, 0) / Math.max(1, n)];
    let [up, across] = [0, 0];
    for (const [i, v] of y.entries()) {
      up += (i - meanT) * (v - meanY);
      across += (i - meanT) ** 2;
    }
    const own = Math.max(1, this.apart);
    return n < 3 ? { dbPerS: 0, u: 0 } : { dbPerS: up / across / this.everyS, u: (this.scatter * Math.sqrt(own / across)) / this.everyS };
  }
  /** As the last level left it; none before a few tenths of a second. */
  get now(): TopNow | undefined {
    const db = this.levels.at(-1);
    if (db === undefined || !Number.isFinite(this.best)) return undefined;
    const { dbPerS, u } = this.slope();
    const moves = Math.abs(dbPerS) > Math.max(leastSlopeDbPerS, 2 * u);
    const trend = !moves ? "steady" : dbPerS > 0 ? "rising" : "falling";
    const above = this.passages.length > 0 ? "past the top" : "below the best";
    const place = trend === "rising" ? "climbing" : this.under > this.fallDb ? above : "at the top";
    return {
      underDb: db - this.best,
      bestDb: this.best,
      bestAtS: this.bestAtS,
      slopeDbPerS: dbPerS,
      trend,
      place,
      scatterDb: this.scatter,
    };
  }
}

/**
 * A figure that stands still while it means the same: it moves once the level is further off than two thirds of its last digit.
 *
 * @source common practice, no source
 */
export class CalmFigure {
  private value = Number.NaN;
  private step = 0.1;
  /** The figure as it is shown, and its digits behind the point, by how much levels scatter, dB. */
  take(db: number, scatterDb: number): { readonly db: number; readonly digits: 0 | 1 } {
    const finer = scatterDb < 0.15;
    const coarser = scatterDb > 0.25;
    if (coarser) this.step = 1;
    else if (finer) this.step = 0.1;
    if (!(Math.abs(db - this.value) < 0.66 * this.step)) this.value = Math.round(db / this.step) * this.step;
    return { db: this.value === 0 ? 0 : this.value, digits: this.step < 1 ? 1 : 0 };
  }
}
