import { stateSize } from "./supply-ladder";
import { numberCount, numbersOf } from "./supply-numbers";
import type { Resting, Seeker } from "./supply-rest";

/** How far each number is moved to see what it does, as a share of it. */
const share = 0.03;

/**
 * Where supplies like one that is solved come to rest, to the second order in their numbers. A slope is worked out when a number first differs, a bend
 * when two of them first do.
 *
 * @source Taylor's series of the state at rest, its terms by differences of the map of a period
 */
export class Slopes {
  /** how the state must move for each unit that a period leaves it by, here, and at the supply that was asked for last; undefined where nothing makes up for it */
  private readonly inverse: Float64Array | undefined;
  readonly slope: Float64Array | undefined;
  private readonly known = new Uint8Array(numberCount);
  private readonly knownBend = new Uint8Array(numberCount * numberCount);
  /** for each number, moved by its share: where the supply then rests but for what bends, and what a period leaves of that */
  private readonly moves = new Float64Array(numberCount * stateSize);
  /** and how the slope turns */
  private readonly turns = new Float64Array(numberCount * stateSize * stateSize);
  private readonly bent = new Float64Array(numberCount * stateSize);
  /** for each two of them: what the state bends besides; the half of it where they are one */
  private readonly bends = new Float64Array(numberCount * numberCount * stateSize);
  /** the numbers of the supply that is solved */
  private readonly home = new Float64Array(numberCount);
  private readonly numbers = new Float64Array(numberCount);
  private readonly from = new Float64Array(stateSize);
  private readonly rest = new Float64Array(stateSize);
  private readonly up = new Float64Array(stateSize);
  private readonly down = new Float64Array(stateSize);
  private readonly moved = new Uint8Array(numberCount);
  private readonly times = new Float64Array(numberCount);
  private readonly straight = new Float64Array(stateSize);
  private readonly bow = new Float64Array(stateSize);

  constructor(
    private readonly seeker: Seeker,
    private readonly at: Resting,
  ) {
    numbersOf(at.supply, this.home);
    this.from.set(at.state);
    this.leaves([], 1, this.rest);
    this.inverse = seeker.slopeHere()?.slice();
    this.slope = this.inverse?.slice();
  }

  /**
   * Where a like supply should come to rest.
   *
   * @param to its numbers
   * @param into the state, overwritten; that of the solved one where the other is too far from it
   */
  stateOf(to: Float64Array, into: Float64Array): void {
    const { at, straight, bow } = this;
    const count = this.takeMoved(to);
    this.add(count);
    if (this.inverse) this.slope?.set(this.inverse);
    let near = true;
    for (let i = 0; i < stateSize; i++) {
      // far from this supply its bends say nothing, and farther its slopes neither
      const v = straight[i] + (Math.abs(bow[i]) <= 0.5 * Math.abs(straight[i]) + 1 ? bow[i] : 0);
      into[i] = at.state[i] + v;
      if (!(Math.abs(v) <= 0.5 * Math.abs(at.state[i]) + 1)) near = false;
    }
    if (!near) into.set(at.state);
    else this.turn(count);
  }

  /** Which numbers differ, and by how many of their shares; a number that is 0 here has none. Works out what is not known of them yet. */
  private takeMoved(to: Float64Array): number {
    const { moved, times, home } = this;
    let count = 0;
    for (let k = 0; k < numberCount; k++) {
      if (home[k] === 0 || to[k] === home[k]) continue;
      if (this.known[k] === 0) this.takeSlope(k);
      for (let b = 0; b < count; b++) if (this.knownBend[k * numberCount + moved[b]] === 0) this.takeBend(k, moved[b]);
      moved[count] = k;
      times[count] = (to[k] - home[k]) / (share * home[k]);
      count += 1;
    }
    return count;
  }
  private add(count: number): void {
    const { moved, times, moves, bends, straight, bow } = this;
    // each by itself: put together in a list they would be numbers on the heap
    let s0 = 0;
    let s1 = 0;
    let s2 = 0;
    let s3 = 0;
    let s4 = 0;
    let c0 = 0;
    let c1 = 0;
    let c2 = 0;
    let c3 = 0;
    let c4 = 0;
    for (let a = 0; a < count; a++) {
      const t = times[a];
      const own = moved[a] * stateSize;
      s0 += moves[own] * t;
      s1 += moves[own + 1] * t;
      s2 += moves[own + 2] * t;
      s3 += moves[own + 3] * t;
      s4 += moves[own + 4] * t;
      let b0 = 0;
      let b1 = 0;
      let b2 = 0;
      let b3 = 0;
      let b4 = 0;
      const row = moved[a] * numberCount;
      for (let b = 0; b <= a; b++) {
        const other = times[b];
        const pair = (row + moved[b]) * stateSize;
        b0 += bends[pair] * other;
        b1 += bends[pair + 1] * other;
        b2 += bends[pair + 2] * other;
        b3 += bends[pair + 3] * other;
        b4 += bends[pair + 4] * other;
      }
      c0 += b0 * t;
      c1 += b1 * t;
      c2 += b2 * t;
      c3 += b3 * t;
      c4 += b4 * t;
    }
    straight[0] = s0;
    straight[1] = s1;
    straight[2] = s2;
    straight[3] = s3;
    straight[4] = s4;
    bow[0] = c0;
    bow[1] = c1;
    bow[2] = c2;
    bow[3] = c3;
    bow[4] = c4;
  }

  /** The slope at the supply that is asked for, to the first order. */
  private turn(count: number): void {
    const { moved, times, turns, slope } = this;
    if (!slope) return;
    for (let row = 0; row < slope.length; row += stateSize) {
      let s0 = slope[row];
      let s1 = slope[row + 1];
      let s2 = slope[row + 2];
      let s3 = slope[row + 3];
      let s4 = slope[row + 4];
      for (let a = 0; a < count; a++) {
        const own = moved[a] * slope.length + row;
        const t = times[a];
        s0 += turns[own] * t;
        s1 += turns[own + 1] * t;
        s2 += turns[own + 2] * t;
        s3 += turns[own + 3] * t;
        s4 += turns[own + 4] * t;
      }
      slope[row] = s0;
      slope[row + 1] = s1;
      slope[row + 2] = s2;
      slope[row + 3] = s3;
      slope[row + 4] = s4;
    }
  }

  /** What a period leaves of a state that follows some numbers, each moved by its share, up or down. */
  private leaves(moved: readonly number[], sign: 1 | -1, into: Float64Array): void {
    const { numbers, from, at, home } = this;
    numbers.set(home);
    from.set(at.state);
    for (const k of moved) {
      numbers[k] += sign * share * home[k];
      for (let i = 0; i < stateSize; i++) from[i] += sign * this.moves[k * stateSize + i];
    }
    this.seeker.leaves(numbers, at.supply.fullWave, from, into);
  }
  private takeSlope(k: number): void {
    const { up, down, rest } = this;
    const own = k * stateSize;
    this.leaves([k], 1, up);
    this.leaves([k], -1, down);
    this.moves.set(
      this.makesUp((i) => (up[i] - down[i]) / 2),
      own,
    );
    this.leaves([k], -1, down);
    this.takeTurn(k, up);
    this.bent.set(up, own);
    this.bends.set(
      this.makesUp((i) => (up[i] + down[i]) / 2 - rest[i]),
      (k * numberCount + k) * stateSize,
    );
    this.known[k] = 1;
  }
  /** Writes besides what a period leaves there. */
  private takeTurn(k: number, left: Float64Array): void {
    const { inverse, turns } = this;
    this.leaves([k], 1, left);
    const there = this.seeker.slopeHere();
    if (inverse && there) for (let i = 0; i < inverse.length; i++) turns[k * inverse.length + i] = there[i] - inverse[i];
  }
  private takeBend(j: number, k: number): void {
    const { up, bent, rest } = this;
    const pair = j * numberCount + k;
    this.leaves([j, k], 1, up);
    const over = (i: number): number => up[i] - bent[j * stateSize + i] - bent[k * stateSize + i] + rest[i];
    this.bends.set(this.makesUp(over), pair * stateSize);
    this.knownBend[pair] = 1;
  }
  /** How the state must move to make up for what a period leaves. */
  private makesUp(left: (place: number) => number): Float64Array {
    const { inverse } = this;
    const out = new Float64Array(stateSize);
    if (inverse)
      for (let k = 0; k < stateSize; k++) {
        const miss = left(k);
        for (let i = 0; i < stateSize; i++) out[i] -= inverse[i * stateSize + k] * miss;
      }
    return out;
  }
}
