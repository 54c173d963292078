import { causesOf, foresee } from "../stage/next-tests";
import type { Ranking } from "../stage/rank-causes";
import type { Tolerances } from "../stage/reading-doubt";
import { type Test, tests } from "../stage/tests";
import { worthOfTests } from "./by-tests";
import type { Plan } from "./plan";

/** What a person does about each cause: one act may mend several, as a new tube does whatever ailed the old one. */
const mendedBy = {
  cathodeResistor: ["cathode-resistor-drifted", "cathode-open"],
  screenResistor: ["screen-resistor-drifted", "screen-resistor-open"],
  plateFeed: ["plate-feed-drifted", "plate-open"],
  screenBypass: ["screen-bypass-leaky"],
  cathodeBypass: ["cathode-bypass-shorted"],
  decoupling: ["decoupling-leaky"],
  tube: ["weak-tube", "dead-tube", "tube-gassy", "heater-cathode-leak"],
  coupling: ["coupling-leaky"],
  gridReturn: ["return-positive", "avc-bypass-leaky"],
  oscillation: ["oscillating"],
  supply: ["supply-off"],
} as const;
export type Mend = keyof typeof mendedBy;
export const mends = Object.keys(mendedBy) as readonly Mend[];
/**
 * What mends a cause.
 *
 * @param cause of a stage's faults
 * @returns the act; undefined where there is nothing to mend
 * @source common practice, no source
 */
export const mendOf = (cause: string): Mend | undefined => mends.find((m) => mendedBy[m].some((c) => c === cause));

/** Minutes of each act at the set as it stands. */
export interface StageMinutes {
  readonly test: (t: Test) => number;
  /** a mend, and reading the stage again after it */
  readonly mend: (m: Mend | "otherwise") => number;
}
/** What a test is worth at a stage. */
export interface TestWorth {
  readonly test: Test;
  readonly minutes: number;
  /** of the expected minutes to the mend, its own paid for; under 0 where mending at once is shorter */
  readonly saves: number;
  /** part of the uncertainty about what is to be mended that it is expected to remove, of 1 */
  readonly share: number;
  /** what it should read by the likeliest cause, and by the likeliest that it tells from it, SI; empty where it tells none of them apart */
  readonly foretells: readonly { readonly cause: string; readonly says: string; readonly reads: number }[];
}
export interface StageWorth {
  /** to the mend, by the plan */
  readonly minutes: number;
  /** chance of each act to be the one that mends it; what needs none is left out */
  readonly mends: readonly { readonly mend: Mend; readonly chance: number }[];
  /** best first */
  readonly tests: readonly TestWorth[];
  readonly plan: Plan;
}

/** A cause less likely than this is not told of a test. */
const tellsFrom = 0.03;
/** Two readings this many of the test's errors apart are told from each other. */
const toldApart = 3;

/**
 * What each follow-up test at a stage is worth, by what its causes foretell of it and what it takes to mend each.
 *
 * @param ranking of the causes by what was read
 * @param tolerances of a sound stage
 * @param made tests that were made, by id
 * @param takes minutes of each act
 * @returns the plan with its tests, most worth a minute first
 * @source Heckerman, Breese and Rommelse 1995; outcomes by the stage's own physics; shares as expected information, Lindley 1956
 */
export function worthAtStage(
  ranking: Ranking,
  tolerances: Tolerances,
  made: Readonly<Record<string, unknown>>,
  takes: StageMinutes,
): StageWorth {
  const { likely } = ranking;
  const ids = causesOf(likely);
  const total = likely.reduce((s, l) => s + l.p, 0);
  const chances = ids.map((id) => likely.reduce((s, l) => s + (l.c.fault.id === id ? l.p : 0), 0) / total);
  const seen = tests.flatMap((test) => {
    const shown = test.id in made ? undefined : foresee(test, likely, tolerances);
    return shown ? [{ test, outcomes: shown.map((o) => ({ chance: o.chance / total, chances: o.chances })) }] : [];
  });
  const worth = worthOfTests({
    chances,
    mends: mends.map((m) => ({ id: m, causes: ids.flatMap((id, k) => (mendOf(id) === m ? [k] : [])), minutes: takes.mend(m) })),
    tests: seen.map(({ test, outcomes }) => ({ id: test.id, minutes: takes.test(test), outcomes })),
    otherwiseMinutes: takes.mend("otherwise"),
  });
  return {
    ...worth,
    tests: worth.tests.flatMap(({ id, ...rest }): TestWorth[] => {
      const own = seen.find((s) => s.test.id === id);
      return own ? [{ test: own.test, ...rest, foretells: foretellsOf(own.test, ranking) }] : [];
    }),
  };
}

/**
 * What a test should read by the likeliest cause, and by the likeliest one that it tells from it, each at its likeliest size; nothing where it tells none
 * of the likelier causes from the first.
 */
function foretellsOf(test: Test, { likely, causes }: Ranking): TestWorth["foretells"] {
  const read = causes
    .filter((c) => c.probability >= tellsFrom)
    .flatMap(({ fault }) => {
      const [own] = likely.filter((l) => l.c.fault.id === fault.id).sort((a, b) => b.p - a.p);
      const reads = own?.c.foretold(test);
      return reads === undefined ? [] : [{ cause: fault.id, says: fault.says.split(":")[0], reads }];
    });
  const [first, ...others] = read;
  const apart = others.find((o) => Math.abs(test.toScale(o.reads) - test.toScale(first.reads)) > toldApart * test.error);
  return apart ? [first, apart] : [];
}
