import type { SupplySolved } from "./supply-ladder";
import { numbersOf, type Supply } from "./supply-numbers";
import { type Resting, Seeker } from "./supply-rest";
import { Slopes } from "./supply-slopes";

/**
 * Perveance of a vacuum diode from one published drop.
 *
 * @param drop V at
 * @param ampere A per plate
 * @returns K of i = K v^1.5, A/V^1.5
 * @source Child's law; Langmuir 1913
 */
export const perveanceOf = (drop: number, ampere: number): number => ampere / drop ** 1.5;

/**
 * Resistance of a winding as one plate sees it.
 *
 * @param secondaryOhm of the half that conducts
 * @param primaryOhm of the primary
 * @param ratio rms volts of that half over those of the primary
 * @returns ohm
 * @source reflected impedance; Schade 1943 uses it so
 */
export const sourceOhmOf = (secondaryOhm: number, primaryOhm: number, ratio: number): number => secondaryOhm + ratio ** 2 * primaryOhm;

/** A solved supply that others like it are solved from. */
export interface SupplyAtRest extends SupplySolved {
  readonly start: Start;
}

/** What a like supply is sought from: where this one came to rest, and on what it was sought, which serves the other too once this one is done with it. */
class Start {
  private slopes: Slopes | undefined;

  constructor(
    readonly seeker: Seeker,
    readonly resting: Resting,
  ) {}

  /** Where a like supply should come to rest, in the seeker's own start, by slopes that are worked out when first asked for; gives the slope there. */
  towards(like: Supply): Float64Array | undefined {
    this.slopes ??= new Slopes(this.seeker, this.resting);
    this.slopes.stateOf(numbersOf(like, this.seeker.wanted), this.seeker.start);
    return this.slopes.slope;
  }
}

/**
 * Steady state of a supply: the state that one period gives back, sought by Newton on the map of a period. What its tubes draw follows along: the
 * tangent of their law is taken anew in each round.
 *
 * @param s the supply
 * @param how steps in a period; `like` is a solved supply of the same shape and steps to begin from, which spares most of the work
 * @returns DC, ripple and currents; undefined where no steady state was found (a load that draws more than the supply can give)
 * @source the network's own equations, trapezoidal rule; Schade 1943 and RDH4 chapter 30 give the same as charts
 */
export function solveSupply(s: Supply, how: { readonly steps?: number; readonly like?: SupplyAtRest } = {}): SupplyAtRest | undefined {
  const steps = how.steps ?? 192;
  const like = how.like?.start.seeker.fits(s, steps) ? how.like.start : undefined;
  const seeker = like?.seeker ?? new Seeker(s, steps);
  // the slopes are worked out on the same ladder, so they come first
  const slope = like?.towards(s);
  seeker.load(s);
  // what is charged over the crest and draws nothing rests anywhere: such an answer is not one of the start that was given
  const fromLike = like !== undefined && seeker.byNewton(seeker.start, slope) && seeker.state()[0] <= Math.SQRT2 * s.plateV;
  const found = fromLike || seeker.byNewton(firstGuess(s, seeker.start), undefined) || seeker.byPeriods(firstGuess(s, seeker.start));
  if (!found) return undefined;
  const solved = seeker.solved(s);
  return solved.volts.every((v) => v >= 0)
    ? Object.assign(solved, { start: new Start(seeker, { supply: s, state: seeker.state() }) })
    : undefined;
}

function firstGuess(s: Supply, x: Float64Array): Float64Array {
  x.fill(0);
  const total = s.first.ampere + s.sections.reduce((a, b) => a + b.ampere + (b.tube?.ampere ?? 0), 0);
  let v = s.first.farad > 0 ? 1.1 * s.plateV : 0.85 * s.plateV;
  x[0] = v;
  for (const [i, own] of s.sections.entries()) {
    v = Math.max(0, v - own.ohm * total);
    x[i + 1] = v;
    if (own.henry > 0) x[3 + i] = 1e3 * total;
  }
  return x;
}
