/**
 * Troubleshooting by chance and cost: causes with their chances, repairs that each mend some of them, observations that tell them apart, all in minutes.
 *
 * Of the published method's assumptions, these hold here: the chances are of one cause at a time (the ranking that they come from weighs one fault of a
 * stage, and says where no single fault explains the readings); after each repair one sees whether it helped, since the stage is read again; and there is a
 * last resort of known cost, tracing it from the beginning. These do not, and what comes of it is counted in docs/worth.md: a repair may mend several
 * causes (a new tube does), so that chance over cost is a rule of thumb and no longer the best order; what an act takes hangs on the state that the
 * one before left the set in; an observation errs, so its outcomes are weighed by Bayes' rule and never rule a cause out; and observations are weighed one
 * step ahead, which is not the whole tree. Two faults at once are not weighed at all.
 */

/** Something that is looked at, and mended where it is the cause. Causes are named by their place among the chances. */
export interface Repair {
  readonly id: string;
  readonly mends: readonly number[];
  /** what it takes to look whether it is this, spent either way: all of it where one changes the part and sees whether that helped */
  readonly lookMinutes: number;
  /** what is spent besides where it was this */
  readonly mendMinutes: number;
}
/** What an observation may show: how likely, and the chances of the causes once it has. */
export interface Outcome {
  readonly chance: number;
  readonly chances: ArrayLike<number>;
}
export interface Observation {
  readonly id: string;
  readonly minutes: number;
  /** what it may show, by the chances of the causes now */
  readonly outcomes: (chances: ArrayLike<number>) => readonly Outcome[];
}
export interface Trouble {
  /** of the causes, one of which it is: they sum to 1 */
  readonly chances: ArrayLike<number>;
  readonly repairs: readonly Repair[];
  readonly observations: readonly Observation[];
  /** what it takes where none of the repairs helps, or where one gives up on them */
  readonly otherwiseMinutes: number;
}

/** Under this chance nothing is left. */
const nothingLeft = 1e-12;
const sumOf = (chances: ArrayLike<number>): number => {
  let sum = 0;
  for (let k = 0; k < chances.length; k++) sum += chances[k];
  return sum;
};
const chanceOf = (r: Repair, left: ArrayLike<number>): number => r.mends.reduce((s, k) => s + left[k], 0);

/**
 * Expected minutes of repairs in an order, until one of them helps.
 *
 * @param chances of the causes, summing to 1
 * @param order of the repairs
 * @param otherwiseMinutes spent where none of them helps
 * @returns min
 * @source Heckerman, Breese and Rommelse 1995, expected cost of repair: each look is paid for by the chance that nothing before it helped
 */
export function expectedMinutes(chances: ArrayLike<number>, order: readonly Repair[], otherwiseMinutes: number): number {
  const left = Float64Array.from(chances);
  let minutes = 0;
  for (const r of order) {
    minutes += sumOf(left) * r.lookMinutes + chanceOf(r, left) * r.mendMinutes;
    for (const k of r.mends) left[k] = 0;
  }
  return minutes + sumOf(left) * otherwiseMinutes;
}

export interface Order {
  readonly order: readonly Repair[];
  readonly minutes: number;
}
/**
 * Repairs by chance over cost, the largest first, and where to stop: the chance is what is left for a repair once those before it have not helped.
 *
 * @param chances of the causes
 * @param repairs to be ordered
 * @param otherwiseMinutes spent where one stops, or where none of them helps
 * @returns the order and its expected minutes
 * @source Kadane and Simon 1977; Heckerman, Breese and Rommelse 1995: the best order where each cause has one repair and the last resort comes last
 */
export function byChanceOverCost(chances: ArrayLike<number>, repairs: readonly Repair[], otherwiseMinutes: number): Order {
  const left = Float64Array.from(chances);
  const open = [...repairs];
  const order: Repair[] = [];
  let remaining = sumOf(left);
  let spent = 0;
  let best = { count: 0, minutes: remaining * otherwiseMinutes };
  while (open.length > 0 && remaining > nothingLeft) {
    let at = -1;
    let most = 0;
    for (let i = 0; i < open.length; i++) {
      const p = chanceOf(open[i], left);
      const ratio = p <= nothingLeft ? 0 : p / open[i].lookMinutes;
      if (ratio > most) [at, most] = [i, ratio];
    }
    if (at < 0) break;
    const [r] = open.splice(at, 1);
    spent += remaining * r.lookMinutes + chanceOf(r, left) * r.mendMinutes;
    for (const k of r.mends) left[k] = 0;
    remaining = sumOf(left);
    order.push(r);
    const minutes = spent + remaining * otherwiseMinutes;
    if (minutes < best.minutes) best = { count: order.length, minutes };
  }
  return { order: order.slice(0, best.count), minutes: best.minutes };
}

/** An observation made now, and repairs by chance over cost after it. */
export interface Weighed {
  readonly observation: Observation;
  /** its own minutes with those expected after it */
  readonly minutes: number;
  /** how much less that is than repairing at once; under 0 where it is not worth its minutes */
  readonly saves: number;
}
export interface Plan {
  /** repairs at once, by chance over cost */
  readonly atOnce: Order;
  /** every observation, the one that saves most first */
  readonly weighed: readonly Weighed[];
  /** what to do now: the best observation where one saves anything, else the first repair; neither where nothing of it is worth its minutes */
  readonly first: { readonly observation: Observation } | { readonly repair: Repair } | undefined;
  readonly minutes: number;
}
/**
 * What to do now, and the expected minutes: the repairs at once, against one observation made first.
 *
 * @param trouble causes, repairs, observations
 * @returns the plan
 * @source Heckerman, Breese and Rommelse 1995, and Breese and Heckerman 1996: one step of observation looked ahead, then repairs by chance over cost
 */
export function planOf(trouble: Trouble): Plan {
  const { chances, repairs, otherwiseMinutes } = trouble;
  const atOnce = byChanceOverCost(chances, repairs, otherwiseMinutes);
  const weighed = trouble.observations
    .map((observation): Weighed => {
      const after = observation
        .outcomes(chances)
        .reduce((s, o) => s + o.chance * byChanceOverCost(o.chances, repairs, otherwiseMinutes).minutes, 0);
      const minutes = observation.minutes + after;
      return { observation, minutes, saves: atOnce.minutes - minutes };
    })
    .sort((a, b) => b.saves - a.saves);
  const [top] = weighed;
  if (top && top.saves > 0) return { atOnce, weighed, first: { observation: top.observation }, minutes: top.minutes };
  const [repair] = atOnce.order;
  return { atOnce, weighed, first: repair && { repair }, minutes: atOnce.minutes };
}

/**
 * An observation of a few outcomes, by how likely each is under each cause.
 *
 * @param id its name
 * @param minutes that it takes
 * @param likelihoods of each outcome, by cause: those of one cause sum to 1
 * @returns the observation
 * @source Bayes' rule
 */
export const observationOf = (id: string, minutes: number, likelihoods: readonly ArrayLike<number>[]): Observation => ({
  id,
  minutes,
  outcomes: (chances) =>
    likelihoods.flatMap((likelihood) => {
      const joint = Array.from(chances, (p, k) => p * likelihood[k]);
      const chance = sumOf(joint);
      return chance > nothingLeft ? [{ chance, chances: joint.map((p) => p / chance) }] : [];
    }),
});
