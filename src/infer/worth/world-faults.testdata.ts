import { lawFrom, type Node, type Stage } from "../../physics/tube-stage";
import { usualTakes } from "../../set/addresses/minutes";
import { rangeFor } from "../../standards/meters";
import { middle } from "../../standards/minutes";
import { tubePointOf } from "../../standards/receiving-tubes";
import { stageFromChart } from "../stage/from-chart";
import { type Ranking, ranker } from "../stage/rank-causes";
import { type Mend, mendOf, type StageMinutes, worthAtStage } from "./at-a-stage";

/** One invented fault of `samples/worlds/faults.json`, made in another language from first principles, with its truth. */
export interface WorldFault {
  readonly id: string;
  readonly stage: string;
  readonly tube: string;
  readonly marked: Readonly<Record<string, number>>;
  readonly chartLineV: number;
  readonly chartSupplyV: number;
  readonly lineV: number;
  readonly meter: string;
  readonly chart: readonly {
    readonly electrode: string;
    readonly chartV: number;
    readonly chartMeterOhm: number;
    readonly readV: number;
  }[];
  readonly followUps: readonly { readonly test: string; readonly at: string; readonly reads: number | null }[];
  readonly truth: { readonly fault: string };
}
/** A tube of the table for each of theirs: of the kind, not the same. */
const types: Readonly<Record<string, string>> = {
  "high-mu triode": "12AX7",
  "high-mu triode of steep slope": "12AT7",
  "medium-mu triode": "12AU7",
  "sharp-cutoff RF pentode": "6AU6",
  "remote-cutoff RF pentode": "6BA6",
  pentagrid: "6BE6",
  "output pentode": "6AQ5",
  "output pentode of steep slope": "6BQ5",
  "beam power tube": "6L6",
};
/** What mends each of theirs; nothing where volts and ohms at the pins can't show it: capacitors that are open, a grid that hangs free. */
export const mendsOfWorld: Readonly<Record<string, Mend>> = {
  couplingLeak: "coupling",
  cathodeResistor: "cathodeResistor",
  cathodeOpen: "cathodeResistor",
  cathodeBypassShort: "cathodeBypass",
  cathodeBypassLeak: "cathodeBypass",
  screenResistor: "screenResistor",
  screenOpen: "screenResistor",
  screenBypassLeak: "screenBypass",
  screenBypassShort: "screenBypass",
  plateLoad: "plateFeed",
  plateOpen: "plateFeed",
  weakTube: "tube",
  gas: "tube",
  feedResistor: "plateFeed",
  decouplingLeak: "decoupling",
  supplyLow: "supply",
};
/** Their readings of our tests. */
const readings: Readonly<Record<string, readonly [test: string, at: string]>> = {
  "screen-ohm": ["screenResistor", "screenOhm"],
  "cathode-ohm": ["cathodeToChassis", "cathode"],
  "cathode-resistor-ohm": ["cathodeResistor", "cathodeOhm"],
  "plate-ohm": ["plateLoad", "plateOhm"],
  "screen-lifted": ["liftScreenBypass", "screen"],
  "decoupling-lifted": ["liftDecoupling", "plate"],
  "grid-lifted": ["liftCoupling", "grid"],
  "grid-new-tube": ["swapTube", "grid"],
  "cathode-new-tube": ["swapTube", "cathode"],
  tester: ["tubeTester", "emission"],
};
/** The order in which a bench does them by habit: the tube first, then ohms with the power off, then wires lifted. Common practice, no source. */
export const byHabit = [
  "tester",
  "cathode-ohm",
  "plate-ohm",
  "screen-ohm",
  "cathode-resistor-ohm",
  "grid-new-tube",
  "cathode-new-tube",
  "grid-lifted",
  "screen-lifted",
  "decoupling-lifted",
] as const;
/** The same tests, those that take least first. */
export const byCost = [...byHabit].sort((a, b) => middle(usualTakes("test", a).hands) - middle(usualTakes("test", b).hands));
/** A meter that shows nothing, ohms. */
const nothingShown = 2e8;
/** What a test reads in the world of a fault, SI; undefined where the stage has no such part. */
function readIn(f: WorldFault, test: string): number | undefined {
  const [their, at] = readings[test] ?? [];
  const row = f.followUps.find((r) => r.test === their && r.at === at);
  // plate to B+ takes the feed with it
  const feed = test === "plate-ohm" && f.marked.feedOhm ? f.followUps.find((r) => r.test === "feedResistor") : undefined;
  return row && (row.reads ?? nothingShown) + (feed ? (feed.reads ?? nothingShown) : 0);
}

const tolerances = { resistor: 0.2 / Math.sqrt(3), tube: 0.15, supply: 0.05 };
const takes: StageMinutes = {
  test: (t) => middle(usualTakes("test", t.id).hands),
  mend: (m) => middle(usualTakes("mend", m).hands),
};
interface Asked {
  readonly rank: (tests: Readonly<Record<string, number>>) => Ranking | undefined;
  readonly tolerances: typeof tolerances & { readonly chart: object };
}
/** The ranking of a world's fault, told what a person knows: the chart, the marks on the parts, the readings, a tube of the kind. */
export function askedOf(f: WorldFault): Asked | undefined {
  const p = tubePointOf(types[f.tube] ?? "");
  if (!p) return undefined;
  const row = (n: string) => f.chart.find((r) => r.electrode === n);
  const supplyRead = f.followUps.find((r) => r.test === "supplyVolts")?.reads ?? undefined;
  const feedOhm = f.marked.feedOhm ?? 0;
  const begin: Stage = {
    tube: lawFrom(p),
    supplyV: f.chartSupplyV,
    plateOhm: f.marked.plateOhm + feedOhm,
    feedOhm,
    screenOhm: f.marked.screenOhm ?? 1,
    cathodeOhm: f.marked.cathodeOhm,
    gridOhm: f.marked.gridOhm,
    ...{ returnV: 0, screenLeak: 0, cathodeLeak: 0, couplingLeak: 0 },
    beforeV: row("prevPlate")?.chartV ?? f.chartSupplyV,
  };
  const nodes: readonly Node[] = ["plate", "screen", "cathode"];
  const chart: Partial<Record<Node, number>> = {
    supply: begin.supplyV,
    ...Object.fromEntries(nodes.flatMap((n) => (row(n) ? [[n, row(n)?.chartV]] : []))),
  };
  const { stage, doubt } = stageFromChart(
    begin,
    { supplyV: true, plateOhm: true, screenOhm: true, cathodeOhm: true },
    { volts: chart, meterOf: (_, n) => 1 / (row(n)?.chartMeterOhm ?? 3e5) },
  );
  const line = f.lineV / f.chartLineV;
  const meterOf = (v: number): number => 1 / (/11 M/.test(f.meter) ? 11e6 : 20e3 * rangeFor(v));
  const volts: Partial<Record<Node, number>> = {
    ...(supplyRead === undefined ? {} : { supply: supplyRead }),
    ...Object.fromEntries([...nodes, "grid"].flatMap((n) => (row(n) ? [[n, row(n)?.readV]] : []))),
  };
  const told = { ...tolerances, chart: doubt(meterOf) };
  const avc = /RF|IF/.test(f.stage);
  const known = new Map<string, Ranking | undefined>();
  const rank = ranker(
    { ...stage, supplyV: stage.supplyV * line, beforeV: stage.beforeV * line },
    { volts, meterOf, meterShare: 0.015, meterFloorV: 0.02 },
    told,
    {
      ...(avc ? {} : { "avc-bypass-leaky": 0, oscillating: 0.1, "return-positive": 0.05 }),
      ...(feedOhm > 0 ? {} : { "decoupling-leaky": 0 }),
      // somebody is looking since something is wrong
      "none-visible": (volts.grid ?? 0) > 0.3 ? 0 : 1,
    },
  );
  return {
    tolerances: told,
    // every order begins with the same readings
    rank: (tests) => {
      const key = Object.entries(tests).sort().join();
      if (!known.has(key)) known.set(key, rank(tests));
      return known.get(key);
    },
  };
}

/** Which test comes next by an order; undefined where it has none left. */
type Order = (r: Ranking, made: Readonly<Record<string, number>>, asked: Asked) => string | undefined;
/** The first of a list that was not made. */
export const inOrder =
  (list: readonly string[], f: WorldFault): Order =>
  (_, made) =>
    list.find((t) => !(t in made) && readIn(f, t) !== undefined);
/** A test that is expected to remove less of what is uncertain is not made. */
const leastShare = 0.02;
/** By what it removes of the uncertainty a minute. */
export const byWorth =
  (f: WorldFault): Order =>
  (r, made, { tolerances: told }) =>
    worthAtStage(r, told, made, takes).tests.find((t) => readIn(f, t.test.id) !== undefined && t.share >= leastShare)?.test.id;

/** From this chance on a mend counts as settled. */
const sure = 0.9;
/** The likeliest thing to mend, and its chance. */
function likeliest(r: Ranking): { readonly mend: Mend | undefined; readonly chance: number } {
  const chances = new Map<Mend | undefined, number>();
  for (const c of r.causes) chances.set(mendOf(c.fault.id), (chances.get(mendOf(c.fault.id)) ?? 0) + c.probability);
  const [[mend, chance]] = [...chances].sort((a, b) => b[1] - a[1]);
  return { mend, chance };
}
export interface Settled {
  readonly measurements: number;
  readonly minutes: number;
  readonly settled: boolean;
  readonly right: boolean;
}
/** Measures by an order until one mend is nine tenths likely, or the order has no test left. */
export function settle(f: WorldFault, asked: Asked, order: Order): Settled | undefined {
  const made: Record<string, number> = {};
  let minutes = 0;
  for (;;) {
    const r = asked.rank(made);
    if (!r) return undefined;
    const { mend, chance } = likeliest(r);
    const settled = mend !== undefined && chance >= sure;
    const next = settled ? undefined : order(r, made, asked);
    if (next === undefined)
      return { measurements: Object.keys(made).length, minutes, settled, right: mend === mendsOfWorld[f.truth.fault] };
    made[next] = readIn(f, next) ?? nothingShown;
    minutes += middle(usualTakes("test", next).hands);
  }
}

/** What is left of a ranking once some mends have not helped. */
function without(r: Ranking, failed: ReadonlySet<Mend>): Ranking {
  const left = (id: string): boolean => {
    const m = mendOf(id);
    return m === undefined || !failed.has(m);
  };
  return { ...r, causes: r.causes.filter((c) => left(c.fault.id)), likely: r.likely.filter((l) => left(l.c.fault.id)) };
}
/**
 * Minutes until the fault is mended: tests and repairs as the plan has them, or the tests of a list until one mend is nine tenths likely and then the
 * mends by their chance. A mend that does not help is paid for all the same; where nothing is left, it is traced from the beginning.
 */
export function minutesToMend(f: WorldFault, asked: Asked, list?: readonly string[]): number | undefined {
  const made: Record<string, number> = {};
  const failed = new Set<Mend>();
  let minutes = 0;
  for (;;) {
    const all = asked.rank(made);
    if (!all) return undefined;
    const r = without(all, failed);
    if (r.likely.length === 0) return minutes + takes.mend("otherwise");
    const act = list ? listAct(f, r, made, failed, list) : planAct(f, r, made, asked);
    if (act === undefined) return minutes + takes.mend("otherwise");
    if ("test" in act) {
      made[act.test] = readIn(f, act.test) ?? nothingShown;
      minutes += middle(usualTakes("test", act.test).hands);
      continue;
    }
    minutes += takes.mend(act.mend);
    if (act.mend === mendsOfWorld[f.truth.fault]) return minutes;
    failed.add(act.mend);
  }
}
type Act = { readonly test: string } | { readonly mend: Mend } | undefined;
function planAct(f: WorldFault, r: Ranking, made: Readonly<Record<string, number>>, { tolerances: told }: Asked): Act {
  const w = worthAtStage(r, told, made, takes);
  const best = w.tests.filter((t) => readIn(f, t.test.id) !== undefined && t.saves > 0).sort((a, b) => b.saves - a.saves)[0];
  if (best) return { test: best.test.id };
  const [first] = w.plan.atOnce.order;
  return first && { mend: first.id as Mend };
}
function listAct(
  f: WorldFault,
  r: Ranking,
  made: Readonly<Record<string, number>>,
  failed: ReadonlySet<Mend>,
  list: readonly string[],
): Act {
  const total = r.causes.reduce((s, c) => s + c.probability, 0);
  const { mend, chance } = likeliest(r);
  const next = list.find((t) => !(t in made) && readIn(f, t) !== undefined);
  if (next !== undefined && failed.size === 0 && (mend === undefined || chance / total < sure)) return { test: next };
  const [best] = r.causes.flatMap((c) => mendOf(c.fault.id) ?? []);
  return best && { mend: best };
}
