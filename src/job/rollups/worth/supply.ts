import { answer } from "../../../ask/answer";
import { resolveInputs } from "../../../ask/resolve";
import { outcomesOf } from "../../../infer/outcomes";
import { type WorthOfTest, worthOfTests } from "../../../infer/worth/by-tests";
import type { Asked } from "../../../sheets/b-plus/ask";
import { hereOf, hypothesesAt, readAt, testsMade } from "../../../sheets/b-plus/measured";
import { bPlus } from "../../../sheets/b-plus/sheet";
import { onScale, type SupplyTest, supplyTestList } from "../../../sheets/b-plus/tests";
import { type Case, weighCases } from "../../../sheets/b-plus/weigh";
import { described } from "../../../sheets/inputs/supply-law";
import { middle, supplyMendTakes } from "../../../standards/minutes";
import { printChance, printValue } from "../../../units/print";
import { faultsOf, isOpenFault } from "../../faults/faults";
import { benchOf, type JobView } from "../../view";
import { type Choice, percent } from "./choice";
import { takesFor } from "./costs";
import { leastChance, leastShare, sought, type Tie } from "./ties";

/** What a person does about each cause. Common practice, no source. */
const mendedBy = {
  rectifier: ["weak-rectifier"],
  filterCapacitor: ["leaky-filter", "first-capacitor"],
  filterChoke: ["choke-open"],
  bleeder: ["bleeder-open"],
  load: ["heavy-load", "light-load"],
  restoring: ["silicon"],
  tap: ["line"],
  winding: ["one-half", "no-supply"],
} as const satisfies Readonly<Record<string, readonly string[]>>;
type Mend = keyof typeof mendedBy;
const mends = Object.keys(mendedBy) as readonly Mend[];
const partOf: Readonly<Record<Mend, string>> = {
  rectifier: "rectifier",
  filterCapacitor: "first-filter-capacitor",
  filterChoke: "filter-choke",
  bleeder: "bleeder",
  load: "",
  restoring: "series-resistor",
  tap: "",
  winding: "",
};

/** A case that is less likely is not carried through the tests. */
const leastCase = 1e-5;
/** With a chance of a short or a leak over this the supply is not switched on for a test before ohms were taken cold. House rule. */
const mostHarm = 0.03;
/** B+ under this part of what is due may be a short. The same as the question on B+ has. */
const deepPart = 0.75;
const place = "supplies";
const asked = { draws: 200, points: 11 } as const;

/** The supply's tie, and what is said before all else. */
export interface SupplyTie extends Tie {
  readonly stop: readonly string[];
}
interface Weighed {
  readonly x: Asked;
  readonly cases: readonly Case[];
  readonly ids: readonly string[];
  readonly expected: number;
  readonly seen: number;
}
/** Causes of the B+ that was read, size by size; nothing where none was read, or it is as it should be. */
function weighedOf(view: JobView): Weighed | undefined {
  const bench = benchOf(view, "");
  const inputs = resolveInputs(bPlus, bench);
  if (!inputs.ok || inputs.value.missing.length > 0) return undefined;
  const x = inputs.value.plain as Asked;
  const d = described(x);
  const a = x.measuredFirst === undefined ? undefined : answer(bPlus, bench, asked);
  const figure = a?.ok ? a.value.results.bPlusFirst : undefined;
  if (!d || x.measuredFirst === undefined || !figure || figure.value === null) return undefined;
  const { cases } = weighCases(hypothesesAt(x, d), readAt(x, d, figure, x.measuredFirst));
  const all = cases.filter((c) => c.h.id !== "as-described" && c.p > leastCase);
  const whole = all.reduce((sum, c) => sum + c.p, 0);
  // what reads as it should is no tie; what none of the usual causes explains is not weighed
  if (!(whole > 0.5)) return undefined;
  const told = all.map((c) => ({ ...c, p: c.p / whole }));
  return { x, cases: told, ids: [...new Set(told.map((c) => c.h.id))], expected: figure.value, seen: x.measuredFirst };
}
/** What a test may show, by the causes' places. */
function shownBy(t: SupplyTest, { x, cases, ids }: Weighed) {
  const here = hereOf(x, described(x)!);
  const known = cases.flatMap(({ h, s, p }) =>
    (t.predict(here, h.id, s) ?? []).map(({ v, part }) => ({ at: onScale(t, v), k: ids.indexOf(h.id), p: p * part })),
  );
  return known.length > 0 ? outcomesOf(known, t.error, ids.length) : undefined;
}

/** What each of the two likeliest causes that a test tells apart should read. */
function foretold(t: SupplyTest, { x, cases, ids }: Weighed): string {
  const here = hereOf(x, described(x)!);
  const reads = ids
    .flatMap((id) => {
      const own = cases.filter((c) => c.h.id === id).sort((a, b) => b.p - a.p);
      const chance = own.reduce((sum, c) => sum + c.p, 0);
      const [told] = [...(t.predict(here, id, own[0].s) ?? [])].sort((a, b) => b.part - a.part);
      return told && chance >= 0.03 ? [{ says: own[0].h.says(own[0].s.size).split(/[:(,]/)[0].trim(), v: told.v, chance }] : [];
    })
    .sort((a, b) => b.chance - a.chance);
  const [first, ...others] = reads;
  const apart = first && others.find((o) => Math.abs(onScale(t, o.v) - onScale(t, first.v)) > 3 * t.error);
  if (!apart) return "";
  const say = (v: number): string =>
    t.reads === "fraction" ? (v > 0.5 ? "diodes" : "the tube") : v >= 1e8 ? "over 100 MΩ" : printValue(Number(v.toPrecision(2)), t.reads);
  return `: ${say(first.v)} if ${first.says}, ${say(apart.v)} if ${apart.says}`;
}
const hazards = ["b-plus", "line", "stored-charge"] as const;
const about = "cause of the fault at the supply";
const written = { resistance: "OHMS", voltage: ", VOLTS", capacitance: ", , FARADS", fraction: ", , , 1 OR 0" } as const;
function testChoice(view: JobView, t: SupplyTest, w: WorthOfTest, weighed: Weighed): Choice {
  const { what, hands, itself } = takesFor(view, "supplyTest", t.id);
  const saves = w.saves >= 1 ? `, and saves about ${Math.round(w.saves)} min of mending` : "";
  return {
    id: `test:${place}:${t.id}`,
    kind: "test",
    does: what,
    place: "supply",
    why: `removes ${percent(w.share)} of the uncertainty about the cause${saves}${foretold(t, weighed)}`,
    how: t.how,
    removes: [{ of: about, share: w.share }],
    wants: t.state,
    warm: false,
    hazards,
    takes: { hands, itself },
    about: place,
    with: `set JOB "${place}.tests=${t.id}, ${written[t.reads]}"`,
  };
}
function mendChoice(view: JobView, mend: Mend, chance: number, fault: string): Choice {
  const { what, hands, itself } = takesFor(view, "supplyMend", mend);
  return {
    id: `mend:${place}:${mend}`,
    kind: "mend",
    does: what,
    place: "supply",
    why: `most likely what is wrong (${printChance(chance)}), and no test saves more time than it takes`,
    removes: [{ of: about, share: chance }],
    wants: "open-dead",
    warm: false,
    hazards,
    takes: { hands, itself },
    about: fault,
    with: partOf[mend] ? `mend JOB ${partOf[mend]} --at ${place} --fault ${fault}` : `fault JOB ${fault}`,
  };
}

/**
 * What is worth doing about an open fault at the supply: rectifier, filter capacitor, choke, bleeder, load, winding and line as its causes, each with its
 * chance by the B+ that was read and the tests that were made.
 *
 * @param view the job
 * @returns tests and mends; undefined where no such fault is sought, B+ was not read, or reads as it should
 * @source Heckerman, Breese and Rommelse 1995; outcomes by the supply's own equations
 */
export function supplyTieOf(view: JobView): SupplyTie | undefined {
  const fault = faultsOf(view).find((f) => f.place === place && isOpenFault(f) && sought.includes(f.state));
  const weighed = fault && weighedOf(view);
  if (!fault || !weighed) return undefined;
  const { x, cases, ids } = weighed;
  const made = testsMade(x);
  const harm = cases.reduce((sum, c) => sum + (c.h.harmful ? c.p : 0), 0);
  const clear = "first-ohm" in made || harm < mostHarm;
  const minutes = (kind: "supplyTest" | "supplyMend", id: string): number => middle(takesFor(view, kind, id).hands);
  const open = supplyTestList.filter((t) => !(t.id in made) && (clear || !t.onlyClear));
  const worth = worthOfTests({
    chances: ids.map((id) => cases.reduce((sum, c) => sum + (c.h.id === id ? c.p : 0), 0)),
    mends: mends.map((m) => {
      const own: readonly string[] = mendedBy[m];
      return { id: m, causes: ids.flatMap((id, k) => (own.includes(id) ? [k] : [])), minutes: minutes("supplyMend", m) };
    }),
    tests: open.flatMap((t) => {
      const outcomes = shownBy(t, weighed);
      return outcomes ? [{ id: t.id, minutes: minutes("supplyTest", t.id), outcomes }] : [];
    }),
    otherwiseMinutes: middle(supplyMendTakes.get("otherwise")!.hands),
  });
  const [top] = worth.mends;
  const { first } = worth.plan;
  const mend = top && top.chance >= leastChance && first && "repair" in first && first.repair.id === top.mend;
  const tests = worth.tests.flatMap((w) => {
    const t = open.find((o) => o.id === w.id);
    return t && w.share >= leastShare ? [testChoice(view, t, w, weighed)] : [];
  });
  return {
    fault,
    minutes: worth.minutes,
    choices: [...(mend ? [mendChoice(view, top.mend, top.chance, fault.id)] : []), ...tests],
    stop:
      weighed.seen < deepPart * weighed.expected && !("first-ohm" in made)
        ? [
            `Switch off: B+ is ${printValue(weighed.seen, "voltage", 3)} where about ${printValue(weighed.expected, "voltage", 3)} is expected. A short or a leak may be burning something: ohms cold first, on again only behind a bulb.`,
          ]
        : [],
  };
}
