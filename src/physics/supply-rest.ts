import { eliminateInPlace } from "../numerics/linear";
import { Ladder, stateSize } from "./supply-ladder";
import { numberCount, numbersOf, type Supply } from "./supply-numbers";

/** Changes of a period that count as none, V, and mA of a choke. */
const settledV = 1e-4;

/** Where a supply comes to rest: the state that one period gives back. */
export interface Resting {
  readonly supply: Supply;
  readonly state: readonly number[];
}

/** Seeks where a supply of one shape comes to rest. Its buffers serve all supplies of that shape, one after the other. */
export class Seeker {
  private readonly ladder: Ladder;
  /** places of the state that this shape has: its nodes, and the branches that are chokes */
  private readonly places: readonly number[];
  private readonly shape: number;
  /** for those who ask: a start, and the numbers of a supply that is sought */
  readonly start = new Float64Array(stateSize);
  readonly wanted = new Float64Array(numberCount);
  private readonly loaded = new Float64Array(numberCount);
  private readonly x = new Float64Array(stateSize);
  private readonly end = new Float64Array(stateSize);
  private readonly miss = new Float64Array(stateSize);
  private readonly step = new Float64Array(stateSize);
  private readonly told = new Float64Array(stateSize);
  private readonly asked = new Float64Array(stateSize);
  private readonly inverse = new Float64Array(stateSize * stateSize);
  private readonly change = new Float64Array(stateSize * stateSize);
  private readonly matrix = new Float64Array(stateSize * stateSize);
  private readonly column = new Float64Array(stateSize);
  private known = false;

  constructor(s: Supply, steps: number) {
    this.ladder = new Ladder(steps);
    this.shape = shapeOf(s);
    this.places = placesOf(s);
  }

  /** Whether a supply has this one's shape: as many sections, and chokes where this one has them. */
  fits(s: Supply, steps: number): boolean {
    return steps === this.ladder.steps && shapeOf(s) === this.shape;
  }

  /** Takes a supply in. */
  load(s: Supply): void {
    this.ladder.load(numbersOf(s, this.loaded), s.fullWave);
  }

  /** What the last period was like. */
  solved(s: Supply) {
    return this.ladder.solved(s.sections.length + 1);
  }

  /**
   * Where the supply that was loaded comes to rest, from a start: by Newton on the map of a period, its slope mended by what each step did.
   *
   * @param start a state, and what is known of the slope there
   * @returns where; undefined where it does not settle
   * @source Broyden 1965, the "good" update in its inverse form, from memory
   */
  byNewton(start: Float64Array, slope: Float64Array | undefined): boolean {
    const { x, end, step, miss, ladder } = this;
    x.set(start);
    if (slope) this.inverse.set(slope);
    this.known = slope !== undefined;
    let last = Number.POSITIVE_INFINITY;
    for (let round = 0; round < 40; round++) {
      ladder.tune(x);
      ladder.run(x, end);
      const worst = this.worst();
      if (!Number.isFinite(worst)) return false;
      if (this.known && worst < settledV) return true;
      // a choke that runs dry bends the map: some periods as they come bring it near, then Newton goes on
      if (worst > 2 * last && worst > 1) {
        this.wait(12);
        last = Number.POSITIVE_INFINITY;
        this.known = false;
        continue;
      }
      if (!this.known || worst > 0.5 * last) this.known = this.takeSlope();
      else if (round > 0) this.mendSlope();
      if (!this.known) return false;
      last = worst;
      for (const k of this.places) miss[k] = x[k] - end[k];
      this.times(miss, step);
      for (const k of this.places) x[k] += step[k];
    }
    return false;
  }

  /** Period after period, as the supply itself comes to rest. */
  byPeriods(start: Float64Array): boolean {
    this.x.set(start);
    this.known = false;
    for (let round = 0; round < 3000; round++) {
      this.ladder.tune(this.x);
      this.ladder.run(this.x, this.end);
      const worst = this.worst();
      this.x.set(this.end);
      if (!Number.isFinite(worst)) return false;
      if (worst < 10 * settledV) return true;
    }
    return false;
  }

  /** Where the supply that was loaded came to rest. */
  state(): readonly number[] {
    const [a, b, c, d, e] = this.x;
    return [a, b, c, d, e];
  }

  /** By how much a period leaves a state, of a supply that is given by its numbers. */
  leaves(numbers: Float64Array, fullWave: boolean, from: Float64Array, into: Float64Array): void {
    const { x, end, ladder } = this;
    x.set(from);
    ladder.load(numbers, fullWave);
    ladder.tune(x);
    ladder.run(x, end);
    into.fill(0);
    for (const k of this.places) into[k] = end[k] - x[k];
  }

  /** How the state that a period left last must move for each unit that it was left by, row by row; undefined where nothing makes up for it. */
  slopeHere(): Float64Array | undefined {
    return this.takeSlope() ? this.inverse : undefined;
  }

  /** How far the last period leaves the state from itself. */
  private worst(): number {
    let worst = 0;
    for (const k of this.places) {
      const off = Math.abs(this.end[k] - this.x[k]);
      // not a number is worse than any
      if (!(off <= worst)) worst = off;
    }
    return worst;
  }
  private wait(periods: number): void {
    for (let k = 0; k < periods; k++) {
      this.x.set(this.end);
      this.ladder.tune(this.x);
      this.ladder.run(this.x, this.end);
    }
  }
  /** inverse times a vector. */
  private times(v: Float64Array, into: Float64Array): void {
    const { inverse } = this;
    for (let i = 0; i < stateSize; i++) {
      const row = i * stateSize;
      into[i] = inverse[row] * v[0] + inverse[row + 1] * v[1] + inverse[row + 2] * v[2] + inverse[row + 3] * v[3] + inverse[row + 4] * v[4];
    }
  }
  /** The slope by differences, inverted; false where it has no inverse. */
  private takeSlope(): boolean {
    const { places, x, end, told, change, matrix, column } = this;
    const n = places.length;
    this.inverse.fill(0);
    for (let j = 0; j < n; j++) {
      const at = places[j];
      const kept = x[at];
      x[at] = kept + 0.05;
      this.ladder.tune(x);
      this.ladder.run(x, told);
      x[at] = kept;
      for (let k = 0; k < n; k++) change[k * n + j] = (told[places[k]] - end[places[k]]) / 0.05 - (k === j ? 1 : 0);
    }
    this.ladder.tune(x);
    for (let j = 0; j < n; j++) {
      matrix.set(change);
      column.fill(0);
      column[j] = 1;
      eliminateInPlace(matrix, column, n);
      for (let k = 0; k < n; k++) this.inverse[places[k] * stateSize + places[j]] = column[k];
    }
    return this.inverse.every(Number.isFinite);
  }
  /** Broyden's update: the slope that explains what the last step did, and is else as it was. */
  private mendSlope(): void {
    const { places, step, miss, x, end, told, asked, inverse } = this;
    // the map's value less the state moved from -miss to end - x
    for (const k of places) asked[k] = end[k] - x[k] + miss[k];
    this.times(asked, told);
    let size = 0;
    for (const k of places) size += step[k] * told[k];
    if (size === 0) return;
    for (const k of places) {
      let sum = 0;
      for (const i of places) sum += step[i] * inverse[i * stateSize + k];
      asked[k] = sum / size;
    }
    for (const i of places) for (const k of places) inverse[i * stateSize + k] += (step[i] - told[i]) * asked[k];
  }
}

/** Sections and chokes of a supply, as one number. */
function shapeOf({ sections }: Supply): number {
  let shape = sections.length;
  for (let k = 0; k < sections.length; k++) if (sections[k].henry > 0) shape += 4 << k;
  return shape;
}
const placesOf = (s: Supply): readonly number[] => [
  ...Array.from({ length: s.sections.length + 1 }, (_, k) => k),
  ...s.sections.flatMap((x, k) => (x.henry > 0 ? [3 + k] : [])),
];
