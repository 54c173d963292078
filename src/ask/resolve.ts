import type { Bench } from "../set/bench";
import { type FromCard, type Row, readRows } from "../set/columns";
import { plainStrip, stripLeaves, stripSlot, withLeaves } from "../set/strip";
import { type Dimension, dimensionOf } from "../units/dimensions";
import { bad, type Issue, type Read } from "../units/issue";
import { own } from "../units/own";
import { parseQuantity } from "../units/parse";
import { printExact } from "../units/print";
import { type Quantity, standardUncertainty } from "../units/quantity";
import { type AnySheet, rowsName } from "./contract";
import type { QuantityInput } from "./inputs";
import { namesAt } from "./kept-names";
import type { Absent, Missing, Overrides, Resolved, ResolvedChoice, ResolvedQuantity, ResolvedTable } from "./resolved";
import { atSubject as atPath } from "./stored";

/**
 * Gathers a sheet's inputs: a what-if before the set's own value, the set's value before the assumed one. What has neither is missing, and said.
 *
 * @param sheet the sheet
 * @param bench the set
 * @param written what-ifs as written, by path or by another name of it
 * @returns everything that the answer needs, or the located issues
 * @source house frame
 */
export function resolveInputs(sheet: AnySheet, bench: Bench, written: Overrides = {}): Read<Resolved> {
  const overrides = Object.fromEntries(Object.entries(written).map(([path, text]) => [own(sheet.aliases, path) ?? path, text]));
  const chosen = choicesOf(sheet, bench, overrides);
  const issues: Issue[] = [];
  const used = new Set<string>();
  const plain: Record<string, unknown> = {};
  const quantities: ResolvedQuantity[] = [];
  const choices: ResolvedChoice[] = [];
  const tables: ResolvedTable[] = [];
  const missing: Missing[] = [];
  const absent: Absent[] = [];
  const override = (path: string, dimension: Dimension): Quantity | undefined => {
    if (!(path in overrides)) return undefined;
    used.add(path);
    const r = parseQuantity(overrides[path], dimension, path);
    if (!r.ok) {
      issues.push(...r.issues);
      return undefined;
    }
    return { value: r.value.value, spread: r.value.spread, origin: "tried", source: "what-if" };
  };
  for (const [name, input] of Object.entries(sheet.inputs)) {
    const { meaning, howMeasured } = input;
    if (input.kind === "choice") {
      const tried = overrides[name];
      if (tried !== undefined) used.add(name);
      const stated = input.from?.(bench, chosen) ?? bench.choice(`${holderOf(bench.at)}.${name}`);
      const value = tried ?? stated ?? input.assumed;
      if (tried !== undefined && stated !== undefined && tried !== stated && input.recordedOnly?.(tried)) {
        issues.push({
          path: name,
          code: "recorded-only",
          read: tried,
          expected: `the job's own record (${stated}): what makes it safe is proved and recorded, never tried`,
        });
        continue;
      }
      if (value === undefined) missing.push({ path: name, meaning, howMeasured });
      else if (!input.options.includes(value))
        issues.push({ path: name, code: "not-an-option", read: value, expected: `one of ${input.options.join(", ")}` });
      else {
        plain[name] = value;
        choices.push({
          path: name,
          meaning,
          value,
          options: input.options,
          origin: tried !== undefined ? "tried" : stated !== undefined ? "stated" : "assumed",
        });
      }
    } else if (input.kind === "quantity") {
      const q = override(name, input.dimension) ?? input.from?.(bench, chosen) ?? atSubject(bench, name, input) ?? fromAssumed(input);
      if (!q) {
        if (input.optional) {
          plain[name] = undefined;
          absent.push({ path: name, meaning, howMeasured, dimension: input.dimension });
        } else if (!(name in overrides)) missing.push({ path: name, meaning, howMeasured });
        continue;
      }
      issues.push(...rangeIssues(name, input, q));
      plain[name] = q.value;
      quantities.push({
        path: name,
        dimension: input.dimension,
        meaning,
        howMeasured,
        positive: input.positive ?? false,
        quantity: q,
        slot: { holder: plain as Record<string, number>, key: name },
      });
    } else if (input.kind === "table") {
      const tried = overrides[name];
      if (tried !== undefined) used.add(name);
      const written = tried === undefined ? undefined : readRows(tried, name, input);
      if (written && !written.ok) {
        issues.push(...written.issues);
        continue;
      }
      const kept = input.kept || input.at !== undefined ? bench.choice(keptPath(sheet, bench.at, name)) : undefined;
      const again = kept === undefined ? undefined : readRows(kept, name, input);
      if (again && !again.ok) {
        issues.push(...again.issues);
        continue;
      }
      const card = asCard(again?.value ?? input.from(bench, chosen));
      const own = card.rows;
      const rows = written?.value ?? own ?? input.assumed.rows;
      if (rows.length > input.mostRows) {
        issues.push({ path: name, code: "too-many-rows", read: `${rows.length} rows`, expected: `at most ${input.mostRows}` });
        continue;
      }
      plain[name] = rows;
      tables.push({
        path: name,
        meaning,
        howMeasured,
        columns: input.columns,
        rows,
        unread: written ? [] : card.unread,
        ...(written
          ? { origin: "tried", source: "what-if" }
          : own
            ? { origin: "measured", source: again ? "typed in and kept in this job" : "readings of this job" }
            : { origin: "assumed", source: input.assumed.source }),
      });
    } else {
      const described = input.from(bench) ?? input.assumed;
      const tried = new Map<string, Quantity>();
      for (const leaf of stripLeaves(described)) {
        const q = override(leaf.path, leaf.dimension);
        if (!q) continue;
        issues.push(...rangeIssues(leaf.path, leaf, q));
        tried.set(leaf.path, q);
      }
      const strip = withLeaves(described, tried);
      const model = plainStrip(strip);
      plain[name] = model;
      for (const leaf of stripLeaves(strip)) quantities.push({ ...leaf, slot: stripSlot(model, leaf.path) });
    }
  }
  const known = [
    ...Object.keys(sheet.aliases ?? {}),
    ...Object.keys(sheet.inputs).filter((n) => sheet.inputs[n].kind !== "model"),
    ...quantities.map((q) => q.path),
  ];
  for (const path of Object.keys(overrides)) {
    if (used.has(path)) continue;
    issues.push({
      path,
      code: "unknown-input",
      read: path,
      expected: `an input of the sheet ${sheet.id}, such as ${closest(path, known).join(" or ")}`,
    });
  }
  return issues.length > 0 ? { ok: false, issues } : { ok: true, value: { quantities, choices, tables, plain, missing, absent } };
}

/** What a table's source gives, as a card's rows; a card on which nothing could be read has none. */
const asCard = (r: readonly Row[] | FromCard | undefined): { readonly rows?: readonly Row[]; readonly unread: readonly Issue[] } =>
  r === undefined ? { unread: [] } : !("unread" in r) ? { rows: r, unread: [] } : r.rows.length > 0 ? r : { unread: r.unread };

/** The choices alone, so that a quantity may come from a table by one of them. */
function choicesOf(sheet: AnySheet, bench: Bench, overrides: Overrides): Record<string, string> {
  const out: Record<string, string> = {};
  for (const [name, input] of Object.entries(sheet.inputs)) {
    const value =
      input.kind === "choice"
        ? (overrides[name] ?? input.from?.(bench, out) ?? bench.choice(`${holderOf(bench.at)}.${name}`) ?? input.assumed)
        : undefined;
    if (value !== undefined) out[name] = value;
  }
  return out;
}

/** A value that was kept at the subject by the input's name, today's before an older one; what has an address is kept there alone. */
export function atSubject(bench: Bench, name: string, input: Pick<QuantityInput, "at" | "keptAs" | "formerly">): Quantity | undefined {
  if (input.at !== undefined) return undefined;
  for (const own of namesAt(name, input)) {
    const kept = bench.quantity(`${holderOf(bench.at)}.${own}`);
    if (kept) return kept;
  }
  return undefined;
}
/** Where values about the whole set are kept by name: at its supplies, since such sheets are about power. */
const holderOf = (at: string): string => (at === "" ? "supplies" : at);

/** Path of the set where a tried value of an input is kept. */
export function keptPath(sheet: AnySheet, at: string, path: string): string {
  const input = own(sheet.inputs, path);
  if (!input) return path;
  if (input.at !== undefined) return atPath(input.at, at);
  const holder = holderOf(at).replace(/^(bands\.[^.:]+):.*$/, "$1");
  if (input.kind === "table") return `${holder}.${rowsName(sheet.id, path)}`;
  if ((input.kind === "quantity" || input.kind === "choice") && input.keptAt) return input.keptAt;
  return `${holder}.${input.kind === "quantity" ? namesAt(path, input)[0] : path}`;
}

const fromAssumed = (input: QuantityInput): Quantity | undefined => (input.assumed ? { ...input.assumed, origin: "assumed" } : undefined);

/** What is wrong with a quantity by the range of its slot: not above 0 where it must be, too small, too large. */
export function rangeIssues(
  path: string,
  input: { readonly dimension: Dimension; readonly positive?: boolean; readonly min?: number; readonly max?: number },
  q: Quantity,
): Issue[] {
  const d = dimensionOf(input.dimension);
  const read = printExact(q.value, input.dimension);
  const wide = q.spread.shape === "rectangular" || q.spread.shape === "triangular" ? q.spread.half : 0;
  if (input.positive && !(q.value > 0))
    return bad(path, "not-positive", read, `a ${input.dimension} above 0, such as ${d.examples}`).issues as Issue[];
  if (input.positive && wide >= q.value)
    return bad(path, "spread-reaches-zero", `${read} ±${printExact(wide, input.dimension)}`, "a tolerance smaller than the value")
      .issues as Issue[];
  if (input.min !== undefined && q.value < input.min)
    return bad(path, "too-small", read, `at least ${input.min === 0 ? `0 ${d.si}`.trim() : printExact(input.min, input.dimension)}`)
      .issues as Issue[];
  if (input.max !== undefined && q.value > input.max)
    return bad(path, "too-large", read, `at most ${printExact(input.max, input.dimension)}`).issues as Issue[];
  return [];
}

/** Names that a person may have meant, nearest first. */
export function closest(name: string, known: readonly string[], count = 2): string[] {
  const pairs = (s: string) => new Set(Array.from({ length: Math.max(0, s.length - 1) }, (_, i) => s.toLowerCase().slice(i, i + 2)));
  const mine = pairs(name);
  const score = (k: string) => [...pairs(k)].filter((p) => mine.has(p)).length / Math.max(1, Math.sqrt(k.length));
  return [...new Set(known)].sort((a, b) => score(b) - score(a)).slice(0, count);
}

/** Inputs that must be read at the set and stand only as assumed. */
export const unreadOf = (sheet: AnySheet, r: Resolved): readonly string[] =>
  (sheet.observed ?? []).filter(
    (n) =>
      r.quantities.some((q) => q.path === n && q.quantity.origin === "assumed") ||
      [...r.choices, ...r.tables].some((c) => c.path === n && c.origin === "assumed"),
  );

export const isUncertain = (q: ResolvedQuantity): boolean => standardUncertainty(q.quantity.spread) > 0 || q.quantity.joint !== undefined;
