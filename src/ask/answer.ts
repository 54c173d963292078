import type { Bench } from "../set/bench";
import type { Caution } from "../standards/cautions";
import type { Sampling } from "../units/draws";
import { bad, clip, InputError, type Issue, type Read } from "../units/issue";
import type { Origin } from "../units/quantity";
import type { Answer, Ask } from "./answered";
import { isSafeToJoin } from "./chassis";
import { type Concluding, conclude, measureNext, partsOf } from "./conclude";
import type { AnyGround, AnySheet } from "./contract";
import { type Drawn, drawInputs, estimateOf } from "./draw";
import { picturesOf } from "./drawn/finish";
import { ratingForHere } from "./rating";
import { resolveInputs, unreadOf } from "./resolve";
import type { Missing, Resolved } from "./resolved";
import type { Figure } from "./results";
import { runSheet, SheetMistake, type Worked } from "./run";
import { sayers } from "./say";
import { curvesOf, figuresOf, verdictsOver } from "./summarise";

/** Seed and draws where nobody says others. */
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
      "values that this sheet can be worked out with: closer to a real set's",
    );
  }
}

function boundIssues(path: string, n: number, least: number, most: number): readonly Issue[] {
  if (Number.isInteger(n) && n >= least && n <= most) return [];
  return [{ path, code: "out-of-bounds", read: String(n), expected: `a whole number from ${least} to ${most}` }];
}

function answerOf(sheet: AnySheet, bench: Bench, ask: Ask): Read<Answer> {
  const resolved = resolveInputs(sheet, bench, ask.overrides);
  if (!resolved.ok) return resolved;
  const quick = ask.quick ?? false;
  const sampling: Sampling = { seed: ask.seed ?? defaultSampling.seed, draws: ask.draws ?? (quick ? 200 : defaultSampling.draws) };
  const { value: inputs } = resolved;
  const head = describe(sheet, bench, inputs, sampling);
  if (ask.inputsAlone) return { ok: true, value: { ...head, headline: "", ...nothing, missing: inputs.missing } };
  if (inputs.missing.length > 0) return { ok: true, value: unanswered(head, inputs.missing) };
  const estimates = estimateIssues(inputs, bench);
  if (estimates.length > 0) return { ok: false, issues: estimates };
  const drawn = drawInputs(inputs, bench, sampling);
  // what the sheet sees are the very inputs that draws are put into
  const { plain } = inputs;
  const { points = quick ? 201 : 401, bands, progress } = ask;
  const worked = runSheet(sheet, { plain, drawn, sampling, points, bands, progress });
  if ("issues" in worked) return { ok: false, issues: worked.issues };
  const figures = figuresOf(sheet, worked, quick || !worked.moving ? [] : drawn.groups);
  const ground = groundOf({ sheet, bench, inputs, figures, worked, drawn, rough: quick });
  const from: Concluding = { sheet, bench, inputs, ground, figures, unread: head.unread };
  const { headline, findings } = conclude(from);
  drawn.put(-1);
  const cautions = new Map<string, Caution>(findings.flatMap((f) => f.before.map((c) => [c.says, c] as const)));
  const value: Answer = {
    ...head,
    headline,
    results: figures,
    curves: curvesOf(sheet, worked),
    tables: quick ? [] : (sheet.tables?.(plain) ?? []),
    strips: quick ? [] : (sheet.strips?.(plain) ?? []),
    drawn: picturesOf(from),
    findings,
    cautions: [...cautions.values()],
    parts: head.unread.length > 0 || quick ? [] : partsOf(from),
    next: quick ? [] : measureNext(from),
    missing: [],
  };
  return { ok: true, value };
}

interface Grounds {
  readonly sheet: AnySheet;
  readonly bench: Bench;
  readonly inputs: Resolved;
  readonly figures: Readonly<Record<string, Figure>>;
  readonly worked: Worked;
  readonly drawn: Drawn;
  readonly rough: boolean;
}
/** What headline, findings and parts of a sheet are written on. */
function groundOf({ sheet, bench, inputs, figures, worked, drawn, rough }: Grounds): AnyGround {
  const assumed = new Set(
    [...inputs.quantities.map((q) => ({ path: q.path, origin: q.quantity.origin })), ...inputs.choices, ...inputs.tables].flatMap((i) =>
      i.origin === "assumed" ? [i.path] : [],
    ),
  );
  const { plain: best } = inputs;
  return {
    best,
    figures,
    isAssumed: (n) => assumed.has(n),
    rating: ratingForHere(bench),
    mayJoin: !sheet.joins || isSafeToJoin(String(inputs.plain.chassis)),
    rough,
    ...sayers(figures),
    verdict: verdictsOver(worked, drawn, best),
  };
}

type Head = Omit<
  Answer,
  "headline" | "results" | "curves" | "tables" | "strips" | "drawn" | "findings" | "cautions" | "parts" | "next" | "missing"
>;

function describe(sheet: AnySheet, bench: Bench, inputs: Resolved, sampling: Sampling): Head {
  const quantities = inputs.quantities.map(({ path, meaning, howMeasured, dimension, quantity }) => ({
    path,
    meaning,
    howMeasured,
    dimension,
    quantity,
  }));
  const origins = [...quantities.map((q) => q.quantity.origin), ...[...inputs.choices, ...inputs.tables].map((c) => c.origin)];
  const weakest = origins.reduce<Origin>((w, o) => (weakness.indexOf(o) > weakness.indexOf(w) ? o : w), "computed");
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
    unread: unreadOf(sheet, inputs),
  };
}

const nothing = { results: {}, curves: {}, tables: [], strips: [], drawn: [], findings: [], cautions: [], parts: [], next: [] };
function unanswered(head: Head, missing: readonly Missing[]): Answer {
  const names = missing.map((m) => `${m.path} (${m.meaning}; ${m.howMeasured})`).join("; ");
  return { ...head, headline: `No answer yet: ${names} is missing.`, ...nothing, missing };
}

function estimateIssues(inputs: Resolved, bench: Bench): Issue[] {
  const wanted = new Set(inputs.quantities.flatMap((q) => q.quantity.joint ?? []));
  return [...wanted].flatMap((id) =>
    estimateOf(inputs, bench, id) ? [] : [{ path: id, code: "no-estimate", read: id, expected: "an estimate of this job" }],
  );
}
