import type { Bench } from "../set/bench";
import { type FromCard, type Row, readRows } from "../set/columns";
import { plainStrip, stripLeaves, stripSlot, withLeaves } from "../set/strip";
import { withBareDoubt } from "../units/bare";
import type { Issue, Read } from "../units/issue";
import { closest } from "../units/nearest";
import { own } from "../units/own";
import { parseQuantity } from "../units/parse";
import { type Quantity, standardUncertainty } from "../units/quantity";
import type { AnySheet } from "./contract";
import type { ChoiceInput, ModelInput, PlainInputs, QuantityInput, TableInput } from "./inputs";
import { rangeIssues } from "./ranges";
import type { Absent, Learnt, Missing, Overrides, Resolved, ResolvedChoice, ResolvedQuantity, ResolvedTable } from "./resolved";
import { atSubject } from "./stored";

/** What of a question its inputs are gathered by. */
type Asks = Pick<AnySheet, "id" | "inputs" | "aliases"> & { readonly learns?: AnySheet["learns"] };

/** What is gathered for an answer, input by input. */
interface Gathering {
  readonly bench: Bench;
  readonly overrides: Overrides;
  readonly chosen: Readonly<Record<string, string>>;
  readonly used: Set<string>;
  readonly issues: Issue[];
  readonly plain: PlainInputs;
  readonly quantities: ResolvedQuantity[];
  readonly choices: ResolvedChoice[];
  readonly tables: ResolvedTable[];
  readonly missing: Missing[];
  readonly absent: Absent[];
}

/**
 * Gathers a sheet's inputs: a what-if before the set's own value, the set's value before the assumed one. What has neither is missing, and said.
 *
 * @param sheet the sheet
 * @param bench the set
 * @param written what-ifs as written, by name or by another name of it
 * @returns everything that the answer needs, or the located issues
 * @source house frame
 */
export function resolveInputs(sheet: Asks, bench: Bench, written: Overrides = {}): Read<Resolved> {
  const overrides = Object.fromEntries(Object.entries(written).map(([path, text]) => [own(sheet.aliases, path) ?? path, text]));
  const g: Gathering = {
    bench,
    overrides,
    chosen: choicesOf(sheet, bench, overrides),
    used: new Set(),
    issues: [],
    plain: {},
    quantities: [],
    choices: [],
    tables: [],
    missing: [],
    absent: [],
  };
  for (const [name, input] of Object.entries(sheet.inputs)) {
    if (input.kind === "choice") gatherChoice(g, name, input);
    else if (input.kind === "quantity") gatherQuantity(g, name, input);
    else if (input.kind === "table") gatherRows(g, name, input);
    else gatherModel(g, name, input);
  }
  g.issues.push(...unknownIssues(sheet, g));
  const { quantities, choices, tables, plain, missing, absent } = g;
  if (g.issues.length > 0) return { ok: false, issues: g.issues };
  const resolved: Resolved = { quantities, choices, tables, plain, missing, absent };
  const learnt = missing.length > 0 ? undefined : sheet.learns?.(plain, quantities);
  return { ok: true, value: learnt ? asLearnt(resolved, learnt) : resolved };
}
/** The inputs with what some of them follow from put in. */
function asLearnt(r: Resolved, { estimate, from }: Learnt): Resolved {
  const quantities = r.quantities.map((q): ResolvedQuantity => {
    const i = estimate.names.indexOf(q.path);
    if (i < 0) return q;
    const value = estimate.values[i];
    q.slot.holder[q.slot.key] = value;
    const u = Math.sqrt(estimate.covariance[i][i]) * (estimate.logarithmic[i] ? value : 1);
    const source = `${q.quantity.source}${q.quantity.source ? "; " : ""}${from}`;
    return { ...q, quantity: { value, spread: { shape: "normal", u }, origin: "fitted", source, joint: estimate.id } };
  });
  return { ...r, quantities, learnt: estimate };
}

/** A quantity that was tried, or the issue that it can't be read. */
function tried(g: Gathering, path: string, as: Pick<QuantityInput, "dimension" | "bare">): Quantity | undefined {
  const text = own(g.overrides, path);
  if (text === undefined) return undefined;
  g.used.add(path);
  const r = parseQuantity(text, as.dimension, path);
  if (r.ok) return withBareDoubt({ value: r.value.value, spread: r.value.spread, origin: "tried", source: "what-if" }, as, { text });
  g.issues.push(...r.issues);
  return undefined;
}

function gatherChoice(g: Gathering, name: string, input: ChoiceInput): void {
  const { meaning, howMeasured, options } = input;
  const written = own(g.overrides, name);
  if (written !== undefined) g.used.add(name);
  const stated = input.from?.(g.bench, g.chosen);
  const value = written ?? stated ?? input.assumed;
  if (written !== undefined && stated !== undefined && written !== stated && input.recordedOnly?.(written)) {
    const expected = `the job's own record (${stated}): what makes it safe is proved and recorded, never tried`;
    g.issues.push({ path: name, code: "recorded-only", read: written, expected });
  } else if (value === undefined) g.missing.push({ path: name, meaning, howMeasured });
  else if (!options.includes(value))
    g.issues.push({ path: name, code: "not-an-option", read: value, expected: `one of ${options.join(", ")}` });
  else {
    g.plain[name] = value;
    const guessed = input.at !== undefined && g.bench.isGuessed?.(atSubject(input.at, g.bench.at)) === true;
    const origin = written !== undefined ? "tried" : stated !== undefined && !guessed ? "stated" : "assumed";
    g.choices.push({ path: name, meaning, value, options, origin });
  }
}

function gatherQuantity(g: Gathering, name: string, input: QuantityInput): void {
  const { meaning, howMeasured, dimension } = input;
  const q = tried(g, name, input) ?? known(suppliedBy(g, input), input) ?? fromAssumed(input);
  if (!q) {
    if (input.optional) {
      g.absent.push({ path: name, meaning, howMeasured, dimension });
    } else if (!Object.hasOwn(g.overrides, name)) g.missing.push({ path: name, meaning, howMeasured });
    return;
  }
  g.issues.push(...rangeIssues(name, input, q));
  g.plain[name] = q.value;
  // the plain inputs hold numbers at the names of quantities: draws are written there
  const slot = { holder: g.plain, key: name };
  g.quantities.push({ path: name, dimension, meaning, howMeasured, positive: input.positive ?? false, quantity: q, slot });
}
/** What the set supplies; a guess does not stand where a reading must. */
function suppliedBy(g: Gathering, input: QuantityInput): Quantity | undefined {
  const q = input.from?.(g.bench, g.chosen);
  return input.reading && q?.origin === "assumed" ? undefined : q;
}
/** What the set supplies; of a record without a doubt, with the doubt that such a value has. What is usual states its own. */
const known = (q: Quantity | undefined, as: Pick<QuantityInput, "dimension" | "bare">): Quantity | undefined =>
  q && q.origin !== "assumed" ? withBareDoubt(q, as) : q;
const fromAssumed = (input: QuantityInput): Quantity | undefined => (input.assumed ? { ...input.assumed, origin: "assumed" } : undefined);

function gatherRows(g: Gathering, name: string, input: TableInput): void {
  const text = own(g.overrides, name);
  if (text !== undefined) g.used.add(name);
  const written = text === undefined ? undefined : readRows(text, name, input);
  if (written && !written.ok) {
    g.issues.push(...written.issues);
    return;
  }
  const typed = input.at === undefined ? undefined : g.bench.rows(atSubject(input.at, g.bench.at));
  const card = asCard(typed ?? input.from(g.bench, g.chosen));
  const rows = written?.value ?? card.rows ?? input.assumed.rows;
  if (rows.length > input.mostRows) {
    g.issues.push({ path: name, code: "too-many-rows", read: `${rows.length} rows`, expected: `at most ${input.mostRows}` });
    return;
  }
  g.plain[name] = rows;
  const { meaning, howMeasured, columns } = input;
  const whence = written
    ? ({ origin: "tried", source: "what-if" } as const)
    : card.rows
      ? ({ origin: "measured", source: typed ? "typed in and kept in this job" : "readings of this job" } as const)
      : ({ origin: "assumed", source: input.assumed.source } as const);
  g.tables.push({ path: name, meaning, howMeasured, columns, rows, unread: written ? [] : card.unread, ...whence });
}
/** What a table's source gives, as a card's rows; a card on which nothing could be read has none. */
const asCard = (r: readonly Row[] | FromCard | undefined): { readonly rows?: readonly Row[]; readonly unread: readonly Issue[] } =>
  r === undefined ? { unread: [] } : !("unread" in r) ? { rows: r, unread: [] } : r.rows.length > 0 ? r : { unread: r.unread };

function gatherModel(g: Gathering, name: string, input: ModelInput): void {
  const described = input.from(g.bench) ?? input.assumed;
  const leaves = new Map<string, Quantity>();
  for (const leaf of stripLeaves(described)) {
    const q = tried(g, leaf.path, leaf) ?? known(leaf.quantity, leaf);
    if (!q || q === leaf.quantity) continue;
    g.issues.push(...rangeIssues(leaf.path, leaf, q));
    leaves.set(leaf.path, q);
  }
  const strip = withLeaves(described, leaves);
  const model = plainStrip(strip);
  g.plain[name] = model;
  for (const leaf of stripLeaves(strip)) g.quantities.push({ ...leaf, slot: stripSlot(model, leaf.path) });
}

/** What was tried by a name that the sheet has not, with the nearest that it has. */
function unknownIssues(sheet: Asks, g: Gathering): Issue[] {
  const known = [
    ...Object.keys(sheet.aliases ?? {}),
    ...Object.keys(sheet.inputs).filter((n) => sheet.inputs[n].kind !== "model"),
    ...g.quantities.map((q) => q.path),
  ];
  return Object.keys(g.overrides)
    .filter((path) => !g.used.has(path))
    .map((path) => ({
      path,
      code: "unknown-input",
      read: path,
      expected: `an input of the sheet ${sheet.id}, such as ${closest(path, known, 3).join(" or ")}`,
    }));
}

/** The choices alone, so that a quantity may come from a table by one of them. */
function choicesOf(sheet: Asks, bench: Bench, overrides: Overrides): Record<string, string> {
  const out: Record<string, string> = {};
  for (const [name, input] of Object.entries(sheet.inputs)) {
    const value = input.kind === "choice" ? (own(overrides, name) ?? input.from?.(bench, out) ?? input.assumed) : undefined;
    if (value !== undefined) out[name] = value;
  }
  return out;
}

/**
 * Path of the set where an input's value is kept.
 *
 * @param sheet the sheet
 * @param at its subject
 * @param name of the input, or the path of a leaf of the strip
 * @returns the path; undefined where no job stores it
 * @source house frame
 */
export function keptPath(sheet: Asks, at: string, name: string): string | undefined {
  const input = own(sheet.inputs, name);
  if (!input) return name;
  return input.at === undefined ? undefined : atSubject(input.at, at);
}

/** Inputs that must be read at the set and stand only as assumed. */
export const unreadOf = (sheet: Pick<AnySheet, "observed">, r: Pick<Resolved, "quantities" | "choices" | "tables">): readonly string[] =>
  (sheet.observed ?? []).filter(
    (n) =>
      r.quantities.some((q) => q.path === n && q.quantity.origin === "assumed") ||
      [...r.choices, ...r.tables].some((c) => c.path === n && c.origin === "assumed"),
  );

export const isUncertain = (q: ResolvedQuantity): boolean => standardUncertainty(q.quantity.spread) > 0 || q.quantity.joint !== undefined;
