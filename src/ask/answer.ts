import { symmetricIntervalInPlace } from "../numerics/order";
import { normalStream } from "../numerics/random";
import { shareFinder } from "../numerics/shares";
import type { Bench } from "../set/bench";
import { type Caution, readingState, type State } from "../standards/cautions";
import type { Dimension } from "../units/dimensions";
import { drawEstimate, drawQuantity, type Sampling } from "../units/draws";
import { bad, clip, InputError, type Issue, type Read } from "../units/issue";
import type { Origin, Quantity } from "../units/quantity";
import { carefully, heeded, setFigures, stateOf } from "./care";
import { behindTransformer, isSafeToJoin, liveChassisFinding, stopWords } from "./chassis";
import {
  type AnySheet,
  type Figure,
  type Finding,
  type Ground,
  type Hazard,
  type HeededFinding,
  type NoValue,
  type Part,
  type Share,
  type Strips,
  severities,
  type Table,
} from "./contract";
import { ratedPart, ratingForHere } from "./rating";
import {
  type Absent,
  isUncertain,
  type Missing,
  type Overrides,
  type Resolved,
  type ResolvedQuantity,
  type ResolvedTable,
  resolveInputs,
  unreadOf,
} from "./resolve";
import { holding, sayers, tellsAbsent } from "./say";

export interface AnsweredQuantity {
  readonly path: string;
  readonly meaning: string;
  readonly howMeasured: string;
  readonly dimension: Dimension;
  readonly quantity: Quantity;
}
export interface AnsweredChoice {
  readonly path: string;
  readonly meaning: string;
  readonly value: string;
  readonly options: readonly string[];
  readonly origin: string;
}
export interface AnsweredCurve {
  readonly meaning: string;
  readonly xDimension: Dimension;
  readonly yDimension: Dimension;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
}
export interface MeasureNext {
  readonly inputs: readonly string[];
  readonly share: number;
  readonly result: string;
  readonly how: string;
  /** what reading it wants of the set, and what is to be heeded before */
  readonly state: State;
  readonly before: readonly Caution[];
}
export interface Answer {
  readonly sheet: string;
  readonly version: number;
  readonly title: string;
  readonly question: string;
  readonly at: string;
  readonly seed: number;
  readonly draws: number;
  readonly interval: "95 %, probabilistically symmetric";
  readonly headline: string;
  readonly quantities: readonly AnsweredQuantity[];
  /** what may be read at the set and was not: the answer does without */
  readonly absent: readonly Absent[];
  readonly choices: readonly AnsweredChoice[];
  readonly rows: readonly ResolvedTable[];
  /** origin of the weakest input: the answer is worth no more */
  readonly weakest: Origin;
  /** inputs that are read at the set and were not: with any, this is an example and no answer about this set */
  readonly unread: readonly string[];
  readonly results: Readonly<Record<string, Figure>>;
  readonly curves: Readonly<Record<string, AnsweredCurve>>;
  readonly tables: readonly Table[];
  readonly strips: readonly Strips[];
  readonly findings: readonly HeededFinding[];
  /** every caution of its steps, once */
  readonly cautions: readonly Caution[];
  readonly parts: readonly Part[];
  readonly next: readonly MeasureNext[];
  readonly missing: readonly Missing[];
}
export interface Ask {
  readonly overrides?: Overrides;
  readonly seed?: number;
  readonly draws?: number;
  readonly points?: number;
  /** leave the shares out: for redrawing while a value is dragged */
  readonly quick?: boolean;
  /** told how far something long has come */
  readonly progress?: (said: string) => void;
}

/** Takes draws one by one so that a caller can show progress and stop. */
export const defaultSampling: Sampling = { seed: 1, draws: 2000 };
/** Draws and points within which an answer is worked out; an interval of 95 % is not told by fewer than so many draws. */
const leastDraws = 2;
export const mostDraws = 20_000;
export const leastForInterval = 200;
const [leastPoints, mostPoints] = [11, 2001];
const weakness: readonly Origin[] = ["computed", "measured", "fitted", "stated", "assumed", "tried"];

/**
 * Answers a sheet's question about a set: best values, 2.5 to 97.5 % intervals by Monte Carlo, shares of the variance, findings, cautions.
 *
 * Reproducible from seed, draws and version. Inputs are drawn each from its own stream; a fitted estimate's together.
 *
 * @param sheet the sheet
 * @param bench the set as it stands
 * @param ask what-ifs, seed, number of draws and of points on a curve
 * @returns the answer, or located issues where an input is bad or the sheet can't be worked out with these values
 * @throws {SheetMistake} where a sheet's results are not those that it declares
 * @source JCGM 101:2008 clauses 5 to 7
 */
export function answer(sheet: AnySheet, bench: Bench, ask: Ask = {}): Read<Answer> {
  const bounds = [
    ...boundIssues("draws", ask.draws ?? defaultSampling.draws, leastDraws, mostDraws),
    ...boundIssues("points", ask.points ?? leastPoints, leastPoints, mostPoints),
  ];
  if (bounds.length > 0) return { ok: false, issues: bounds };
  try {
    return answerOf(sheet, bench, ask);
  } catch (e) {
    if (e instanceof SheetMistake) throw e;
    if (e instanceof InputError) return { ok: false, issues: e.issues };
    return bad(
      `sheet ${sheet.id}`,
      "not-worked-out",
      clip(String(e)),
      "values with which this sheet can be worked out: nearer to a real set's",
    );
  }
}

/** A sheet that doesn't keep to its own declaration: a defect, never the fault of what was typed. */
export class SheetMistake extends Error {}

function boundIssues(path: string, n: number, least: number, most: number): readonly Issue[] {
  if (Number.isInteger(n) && n >= least && n <= most) return [];
  return [{ path, code: "out-of-bounds", read: String(n), expected: `a whole number from ${least} to ${most}` }];
}

function answerOf(sheet: AnySheet, bench: Bench, ask: Ask): Read<Answer> {
  const resolved = resolveInputs(sheet, bench, ask.overrides);
  if (!resolved.ok) return resolved;
  const sampling: Sampling = { seed: ask.seed ?? defaultSampling.seed, draws: ask.draws ?? (ask.quick ? 200 : defaultSampling.draws) };
  const { value: inputs } = resolved;
  const head = describe(sheet, bench, inputs, sampling);
  if (inputs.missing.length > 0) return { ok: true, value: unanswered(head, inputs.missing) };
  const estimates = estimateIssues(inputs, bench);
  if (estimates.length > 0) return { ok: false, issues: estimates };
  return compute(sheet, bench, inputs, sampling, ask.points ?? (ask.quick ? 201 : 401), ask.quick ?? false, head, ask.progress);
}

type Head = Omit<Answer, "headline" | "results" | "curves" | "tables" | "strips" | "findings" | "cautions" | "parts" | "next" | "missing">;

function describe(sheet: AnySheet, bench: Bench, inputs: Resolved, sampling: Sampling): Head {
  const quantities = inputs.quantities.map(({ path, meaning, howMeasured, dimension, quantity }) => ({
    path,
    meaning,
    howMeasured,
    dimension,
    quantity,
  }));
  const weakest = [
    ...quantities.map((q) => q.quantity.origin),
    ...[...inputs.choices, ...inputs.tables].map((c) => c.origin),
  ].reduce<Origin>((w, o) => (weakness.indexOf(o) > weakness.indexOf(w) ? o : w), "computed");
  const unread = unreadOf(sheet, inputs);
  const { id, version, title, question } = sheet;
  return {
    sheet: id,
    version,
    title,
    question,
    at: bench.at,
    ...sampling,
    interval: "95 %, probabilistically symmetric",
    quantities,
    absent: inputs.absent,
    choices: inputs.choices,
    rows: inputs.tables,
    weakest,
    unread,
  };
}

function unanswered(head: Head, missing: readonly Missing[]): Answer {
  const names = missing.map((m) => `${m.path} (${m.meaning}; ${m.howMeasured})`).join("; ");
  return {
    ...head,
    headline: `No answer yet: ${names} is missing.`,
    results: {},
    curves: {},
    tables: [],
    strips: [],
    findings: [],
    cautions: [],
    parts: [],
    next: [],
    missing,
  };
}

function estimateIssues(inputs: Resolved, bench: Bench): Issue[] {
  const wanted = new Set(inputs.quantities.flatMap((q) => q.quantity.joint ?? []));
  return [...wanted].flatMap((id) =>
    bench.estimate(id) ? [] : [{ path: id, code: "no-estimate", read: id, expected: "an estimate of this job" }],
  );
}

interface Drawn {
  readonly quantity: ResolvedQuantity;
  readonly values: Float64Array;
}
interface Group {
  readonly names: readonly string[];
  readonly streams: readonly Float64Array[];
}

/** Draws of every uncertain input, and the groups that shares are counted by. */
function drawInputs(inputs: Resolved, bench: Bench, sampling: Sampling): { drawn: Drawn[]; groups: Group[] } {
  const drawn: Drawn[] = [];
  const groups: Group[] = [];
  const joints = new Map<string, ResolvedQuantity[]>();
  for (const q of inputs.quantities) {
    if (!isUncertain(q)) continue;
    const joint = q.quantity.joint;
    if (joint) {
      joints.set(joint, [...(joints.get(joint) ?? []), q]);
      continue;
    }
    const values = drawQuantity(q.quantity, q.path, sampling, q.positive);
    drawn.push({ quantity: q, values });
    groups.push({ names: [q.path], streams: [values] });
  }
  for (const [id, members] of joints) {
    const { byName } = drawEstimate(bench.estimate(id)!, sampling);
    for (const q of members)
      drawn.push({ quantity: q, values: byName.get(q.path) ?? new Float64Array(sampling.draws).fill(q.quantity.value) });
    const names = bench.estimate(id)!.names.filter((n) => members.some((m) => m.path === n));
    groups.push({ names, streams: names.map((n) => normalStream(sampling.seed, n, sampling.draws)) });
  }
  return { drawn, groups };
}

function compute(
  sheet: AnySheet,
  bench: Bench,
  inputs: Resolved,
  sampling: Sampling,
  points: number,
  quick: boolean,
  head: Head,
  progress?: (said: string) => void,
): Read<Answer> {
  const { draws } = sampling;
  const { drawn, groups } = drawInputs(inputs, bench, sampling);
  const plain = inputs.plain as never;
  const put = (i: number): void => {
    for (const d of drawn) d.quantity.slot.holder[d.quantity.slot.key] = i < 0 ? d.quantity.quantity.value : d.values[i];
  };
  const streams = new Map<string, Float64Array>();
  const stream = (name: string): Float64Array => {
    const known = streams.get(name) ?? normalStream(sampling.seed, `${sheet.id} ${name}`, draws);
    streams.set(name, known);
    return known;
  };
  const plan = sheet.prepare(plain, points, { draws, stream, ...(progress ? { progress } : {}) });
  if (plan.issues && plan.issues.length > 0) return { ok: false, issues: plan.issues };
  const into = Object.fromEntries(Object.entries(plan.axes).map(([k, a]) => [k, new Float64Array(a.length)]));
  const names = Object.keys(sheet.results);
  const best = plan.solve(plain, into as never, -1);
  checkNames(sheet, names, best);
  const atBest = Object.fromEntries(names.map((n) => [n, best[n]]));
  const nominal = Object.fromEntries(Object.entries(into).map(([k, a]) => [k, a.slice()]));
  const scalars = Object.fromEntries(names.map((n) => [n, new Float64Array(draws)]));
  const whyNot: Record<string, string> = {};
  const sheets = Object.fromEntries(Object.entries(plan.axes).map(([k, a]) => [k, new Float64Array(a.length * draws)]));
  const moving = drawn.length > 0 || (plan.varies ?? false);
  for (let i = 0; i < (moving ? draws : 1); i++) {
    put(i);
    const y = plan.solve(plain, into as never, moving ? i : -1);
    for (const n of names) {
      const v = y[n];
      scalars[n][i] = typeof v === "number" ? v : Number.NaN;
      if (typeof v !== "number") whyNot[n] = v.none;
    }
    for (const [k, a] of Object.entries(into)) for (let p = 0; p < a.length; p++) sheets[k][p * draws + i] = a[p];
  }
  if (!moving) for (const n of names) scalars[n].fill(scalars[n][0]);
  put(-1);
  const figures: Record<string, Figure> = {};
  const counted = quick || !moving ? [] : groups;
  const sharesOf = shareFinder(counted.map((g) => g.streams));
  for (const n of names) figures[n] = figureOf(sheet, n, atBest[n], scalars[n], whyNot[n], () => named(counted, sharesOf(scalars[n])));
  const ground: Ground<never, never> = {
    best: plain,
    figures: figures as never,
    isAssumed: (n) =>
      [...inputs.quantities.map((q) => ({ path: q.path, origin: q.quantity.origin })), ...inputs.choices, ...inputs.tables].some(
        (i) => i.path === n && i.origin === "assumed",
      ),
    rating: ratingForHere(bench),
    mayJoin: !sheet.joins || isSafeToJoin(String(inputs.plain.chassis)),
    ...sayers(figures),
    verdict: (holds) => {
      const said = verdictOver(moving ? draws : 1, put, plain, names, scalars, whyNot, holds as never);
      // the plain inputs are the best ones again for whoever reads them next
      put(-1);
      return said;
    },
  };
  const own = sheet.findings(ground as never).map((f) => findingThatHolds(f, figures));
  const unread = head.unread.map((n) => sheet.inputs[n]);
  const listed = [
    // an example orders nothing and is sure of nothing
    ...unread.map((i, k) => notRead(sheet, head.unread[k], i)),
    ...inputs.tables.flatMap((t) => t.unread.map((i) => cellNotRead(i))),
    ...own.filter((f) => unread.length === 0 || sheet.beforehand?.some((b) => f.id.startsWith(b))),
  ];
  const chassis = String(inputs.plain.chassis ?? bench.choice("chassis") ?? "unstated");
  const stop = !isSafeToJoin(chassis) && (sheet.joins || asksAtTheSet(sheet, listed));
  const behind = chassis === "live-proved-dead" && (sheet.joins || asksAtTheSet(sheet, listed));
  const figuresHere = setFigures(bench);
  const findings = heeded(
    (stop ? withLiveChassis(chassis, listed) : behind ? [behindTransformer, ...listed] : listed).sort(
      (a, b) => severities.indexOf(a.severity) - severities.indexOf(b.severity),
    ),
    sheet.works,
    figuresHere,
  );
  const text =
    unread.length > 0
      ? `Not enough recorded to judge this set yet. Missing: ${unread.map((i) => i.meaning).join(" and ")}. What is shown is an EXAMPLE.`
      : holding(sheet.headline(ground as never), figures);
  put(-1);
  const value: Answer = {
    ...head,
    // what says stop by itself is not for later
    headline: !stop ? text : text.startsWith("STOP") ? `${text} ${stopWords(chassis)}` : `${stopWords(chassis)} For later: ${text}`,
    results: figures,
    curves: curvesOf(sheet, plan.axes, nominal, sheets, draws, moving),
    tables: quick ? [] : (sheet.tables?.(plain) ?? []),
    strips: quick ? [] : (sheet.strips?.(plain) ?? []),
    findings,
    cautions: [...new Map(findings.flatMap((f) => f.before.map((c) => [c.says, c] as const))).values()],
    parts: unread.length > 0 || quick ? [] : partsThatHold(sheet.parts?.(ground as never) ?? []).map((p) => ratedPart(p, ground.rating)),
    next: quick ? [] : measureNext(sheet, inputs, figures, figuresHere),
    missing: [],
  };
  return { ok: true, value };
}

/** Whether any of these findings asks for a step at the set: at its panel or inside. */
const asksAtTheSet = (sheet: AnySheet, findings: readonly Finding[]): boolean => findings.some((f) => stateOf(f, sheet.works) !== "desk");
/** Every step inside such a set meets the line, and the chassis itself is said first. */
const withLiveChassis = (chassis: string, findings: readonly Finding[]): Finding[] => [
  ...(findings.some((f) => f.id === "chassis-may-be-live") ? [] : [liveChassisFinding(chassis)]),
  ...findings.map((f): Finding => {
    const [first, ...rest] = new Set<Hazard>([...f.hazards.filter((h) => h !== "none"), "line", "live-chassis"]);
    return { ...f, hazards: [first, ...rest] };
  }),
];

/** A finding whose every figure is one; where nothing of it is left but what is missing it orders nothing. */
function findingThatHolds(f: Finding, figures: Readonly<Record<string, Figure>>): Finding {
  if (!tellsAbsent(f.says) && !tellsAbsent(f.do ?? "")) return f;
  const { do: todo, ...rest } = f;
  const says = holding(f.says, figures);
  const act = todo === undefined ? "" : holding(todo, figures, false);
  const severity = f.severity === "act" && holding(f.says, figures, false) === "" ? "check" : f.severity;
  return { ...rest, severity, says, ...(act === "" ? {} : { do: act }) };
}
/** Nothing is bought by a figure that is none. */
const partsThatHold = (parts: readonly Part[]): readonly Part[] =>
  parts.filter((p) => !Object.values(p).some((v) => typeof v === "string" && tellsAbsent(v)));

/** What stands in place of a sheet's own findings while something that is read at the set was not read. */
const notRead = (sheet: AnySheet, name: string, input: AnySheet["inputs"][string]): Finding => ({
  id: `not-read-${name}`,
  severity: "act",
  says: `Not recorded yet: ${input.meaning}.`,
  do: `${input.howMeasured[0].toUpperCase()}${input.howMeasured.slice(1)}. Record it, or try it here as a what-if.`,
  restsOn: [],
  hazards: sheet.readAt ?? ["none"],
  state: readingState(input.howMeasured, input.state),
});

/** A cell of a record card that holds nothing that can be read: the answer goes round it, and says so. */
const cellNotRead = ({ path, read, expected }: Issue): Finding => ({
  id: `cell-not-read-${path.replace(/[^a-z0-9]+/gi, "-")}`,
  severity: "check",
  says: `${path}: “${read}” can't be read, so it is left out here. Expected ${expected}.`,
  restsOn: [],
  hazards: ["none"],
});

function checkNames(sheet: AnySheet, names: readonly string[], solved: object): void {
  const got = Object.keys(solved);
  const extra = got.find((n) => !names.includes(n)) ?? names.find((n) => !got.includes(n));
  if (extra) throw new SheetMistake(`sheet ${sheet.id}: solve and declared results differ in "${extra}"`);
}

const named = (groups: readonly Group[], shares: readonly number[]): Share[] =>
  groups.map((g, i) => ({ inputs: g.names, share: shares[i] }));

function figureOf(
  sheet: AnySheet,
  name: string,
  best: number | NoValue,
  draws: Float64Array,
  whyNot: string | undefined,
  sharesOf: () => readonly Share[],
): Figure {
  const { dimension, meaning, known: to, exact } = sheet.results[name];
  const known = { ...(to === undefined ? {} : { known: to }), ...(exact ? { exact } : {}) };
  const valid = draws.filter((v) => Number.isFinite(v));
  const value = typeof best === "number" && Number.isFinite(best) ? best : null;
  const why = typeof best === "number" ? (value === null ? (whyNot ?? "no value at these inputs") : whyNot) : best.none;
  const without = 1 - valid.length / draws.length;
  if (valid.length === 0)
    return { dimension, meaning, ...known, value, low: null, high: null, without, why: why ?? "no value", shares: [] };
  const least = 3 / Math.sqrt(draws.length);
  const shares = sharesOf()
    .filter((s) => s.share >= least)
    .sort((a, b) => b.share - a.share);
  const { low, high } = symmetricIntervalInPlace(valid);
  return { dimension, meaning, ...known, value, low, high, without, ...(without > 0 && why ? { why } : {}), shares };
}

function verdictOver(
  draws: number,
  put: (i: number) => void,
  plain: never,
  names: readonly string[],
  scalars: Readonly<Record<string, Float64Array>>,
  whyNot: Readonly<Record<string, string>>,
  holds: (x: never, y: never) => boolean,
): "yes" | "no" | "open" {
  const y: Record<string, number | NoValue> = {};
  let yes = 0;
  for (let i = 0; i < draws; i++) {
    put(i);
    for (const n of names) y[n] = Number.isFinite(scalars[n][i]) ? scalars[n][i] : { none: whyNot[n] ?? "no value" };
    if (holds(plain, y as never)) yes++;
  }
  return yes >= 0.95 * draws ? "yes" : yes <= 0.05 * draws ? "no" : "open";
}

const toDb = (p: number): number => 10 * Math.log10(Math.max(p, 1e-30));

function curvesOf(
  sheet: AnySheet,
  axes: object,
  nominal: Readonly<Record<string, Float64Array>>,
  all: Readonly<Record<string, Float64Array>>,
  draws: number,
  moving: boolean,
) {
  const out: Record<string, AnsweredCurve> = {};
  for (const [k, x] of Object.entries(axes) as [string, Float64Array][]) {
    const { x: xDimension, y: yDimension, meaning, holds } = sheet.curves[k];
    const low = nominal[k].slice();
    const high = nominal[k].slice();
    if (moving) {
      for (let p = 0; p < x.length; p++) {
        const column = all[k].subarray(p * draws, (p + 1) * draws);
        const i = symmetricIntervalInPlace(column);
        low[p] = i.low;
        high[p] = i.high;
      }
    }
    const show = holds === "power" ? toDb : (v: number) => v;
    out[k] = { meaning, xDimension, yDimension, x: x.slice(), y: nominal[k].map(show), low: low.map(show), high: high.map(show) };
  }
  return out;
}

/** For each key result the input that its interval depends on most. */
function measureNext(
  sheet: AnySheet,
  inputs: Resolved,
  figures: Readonly<Record<string, Figure>>,
  here: ReturnType<typeof setFigures>,
): MeasureNext[] {
  const out: MeasureNext[] = [];
  const before = carefully(here);
  for (const result of sheet.key) {
    const top = figures[result]?.shares[0];
    if (!top || out.some((o) => o.inputs[0] === top.inputs[0])) continue;
    const q = inputs.quantities.find((i) => i.path === top.inputs[0]);
    const how = top.inputs.length > 1 ? "a better sweep of the strip: more points on the skirts, less noise" : (q?.howMeasured ?? "");
    const state = readingState(how, top.inputs.length === 1 ? sheet.inputs[top.inputs[0]]?.state : undefined);
    out.push({ inputs: top.inputs, share: top.share, result, how, state, before: before({ state, hazards: [] }) });
  }
  return out.slice(0, 3);
}
