/** What-ifs that no set is like, on every sheet: an answer or a refusal, soon, and never anything else. Each is asked in a thread that can be ended. */
import fc from "fast-check";
import type { Answer } from "../../src/ask/answered";
import type { AnySheet } from "../../src/ask/contract";
import type { TableInput } from "../../src/ask/inputs";
import { ask } from "../../src/desk/actions";
import { demoSet } from "../../src/desk/demo";
import { builtThread, errandThreads } from "../../src/faces/errands/errand-threads";
import { usualLimits } from "../../src/faces/errands/thread-limits";
import type { JobDocument } from "../../src/job/document";
import { formatName, formatVersion } from "../../src/job/format";
import { viewOf } from "../../src/job/view";
import { patterns } from "../../src/set/patterns/kinds";
import { sheets } from "../../src/sheets/index";
import { type Dimension, dimensionOf } from "../../src/units/dimensions";
import { InputError } from "../../src/units/issue";
import { nasty, notFinite, type Part, part, some, troubles } from "./kit";

const slowestMs = 5000;
const longestS = 30;
const jobs: readonly (JobDocument | undefined)[] = [
  undefined,
  ...[demoSet(), ...patterns].map(
    (set, i): JobDocument => ({
      ...{ format: formatName, version: formatVersion, id: `w${i}`, name: `W ${i}` },
      ...{ created: "2026-02-01T00:00:00.000Z", set, entries: [] },
    }),
  ),
];
const extremes = ["0", "-0", "-1", "1e-30", "-1e-30", "1e30", "-1e30", "1e-300", "1e300", "-1e300", "1e-9", "1e9"];
const factors = [0, -1, 1e-30, 1e-9, 1e-6, 1e-3, 0.1, 0.5, 0.9, 1, 1, 1.1, 2, 10, 1e3, 1e6, 1e9, 1e30];
const spreads = ["", "", "", "", " ±99 %", " ±10 %", " u 1e30", " u 1e-30"];
const inUnit = (x: string, d: Dimension): string => {
  const { print } = dimensionOf(d);
  return `${x} ${(print.find((p) => p.factor === 1) ?? print[0])?.unit ?? ""}`.trim();
};
/** A quantity as it might be tried: some multiple of what stands there, or what no set has. */
const quantityOf = (name: string, d: Dimension, stands: number): fc.Arbitrary<readonly [string, string]> =>
  fc
    .tuple(
      fc.oneof(
        { weight: 4, arbitrary: fc.constantFrom(...factors).map((f) => String(stands * f)) },
        { weight: 1, arbitrary: fc.constantFrom(...extremes) },
      ),
      fc.constantFrom(...spreads),
    )
    .map(([x, s]) => [name, `${inUnit(x, d)}${s}`] as const);
/** Rows of a table, cell by cell as its columns have them. */
function rowsOf(name: string, input: Pick<TableInput, "columns">): fc.Arbitrary<readonly [string, string]> {
  const cells = Object.values(input.columns).map((c): fc.Arbitrary<string> => {
    if (c.options) return fc.constantFrom(...c.options);
    if (c.halves) return fc.constantFrom("V1", "V2", "V5a", "V99");
    const d = c.dimension ?? "ratio";
    return fc.oneof(
      { weight: 2, arbitrary: fc.constantFrom("1", "2", "3.5", "10", "250").map((x) => inUnit(x, d)) },
      { weight: 1, arbitrary: fc.constantFrom(...extremes).map((x) => inUnit(x, d)) },
      { weight: 1, arbitrary: fc.constant("") },
    );
  });
  const row = fc.tuple(...cells).map((c) => c.join(", "));
  return fc.array(row, { minLength: 1, maxLength: 12 }).map((rows) => [name, rows.join("; ")] as const);
}
/** What may be tried of a sheet on a job; nothing where the job has no such subject. */
function triable(sheet: AnySheet, document: JobDocument | undefined): fc.Arbitrary<readonly [string, string]> | undefined {
  let a: Answer;
  try {
    a = ask(sheet, document && viewOf(document), undefined, { draws: 10 });
  } catch (e) {
    if (e instanceof InputError) return undefined;
    throw e;
  }
  const stands = new Map(a.quantities.map((q) => [q.path, { d: q.dimension, v: q.quantity.value }] as const));
  for (const [name, input] of Object.entries(sheet.inputs))
    if (input.kind === "quantity" && !stands.has(name)) stands.set(name, { d: input.dimension, v: 1 });
  const quantities = [...stands].map(([name, { d, v }]) => quantityOf(name, d, v));
  const others = Object.entries(sheet.inputs).flatMap(([name, input]) =>
    input.kind === "choice"
      ? [fc.constantFrom(...input.options).map((o) => [name, o] as const)]
      : input.kind === "table"
        ? [rowsOf(name, input)]
        : [],
  );
  const bad = fc.tuple(fc.constantFrom(...Object.keys(sheet.inputs), "constructor"), nasty);
  return fc.oneof(
    ...(quantities.length > 0 ? [{ weight: 8, arbitrary: fc.oneof(...quantities) }] : []),
    ...(others.length > 0 ? [{ weight: 4, arbitrary: fc.oneof(...others) }] : []),
    { weight: 1, arbitrary: bad },
  );
}

export const whatIfs: Part = async (share) => {
  const script = builtThread();
  if (!script) throw new Error("the thread is not built: node build.mjs");
  const errands = errandThreads(script, { ...usualLimits, threads: 1, seconds: { ...usualLimits.seconds, sheet: longestS } });
  const t = troubles();
  let [count, answered, not, slowestOf] = [0, 0, 0, 0];
  const each = part(share, 300);
  for (const sheet of sheets) {
    const kinds = jobs.map((document) => triable(sheet, document));
    const there = [...kinds.keys()].filter((j) => kinds[j] !== undefined);
    const tried = there.flatMap((j) =>
      some(
        fc.tuple(
          fc.array(kinds[j] ?? fc.constant(["x", "1"] as const), { minLength: 1, maxLength: 4 }),
          fc.constant(j),
          fc.constantFrom(10, 10, 10, 200),
        ),
        Math.ceil(each / there.length),
      ),
    );
    for (const [pairs, j, draws] of tried) {
      const overrides = Object.fromEntries(pairs);
      const example = `${sheet.id}, job ${j}, ${JSON.stringify(overrides)}`;
      const started = performance.now();
      count++;
      try {
        const a = await errands.run("sheet", { sheet: sheet.id, document: jobs[j], ask: { overrides, seed: 1, draws } });
        answered++;
        const at = notFinite({ results: a.results, axes: Object.values(a.curves).map((c) => c.x), quantities: a.quantities });
        if (at !== undefined) t.add(`${sheet.id}: a number that is none`, `${at} of ${example}`);
      } catch (e) {
        const code = e instanceof InputError ? e.issues[0]?.code : undefined;
        if (code === undefined) t.add(`${sheet.id}: ${(e as Error).name} ${(e as Error).message.slice(0, 60)}`, example);
        else if (code === "not-worked-out") {
          not++;
          if (process.env.FETTLE_TRACE) console.log(example, (e as InputError).issues[0].read);
        } else if (code === "too-long" || code === "too-much") t.add(`${sheet.id}: ${code}`, example);
      }
      const ms = performance.now() - started;
      slowestOf = Math.max(slowestOf, ms);
      if (ms > slowestMs) t.add(`${sheet.id}: slow`, `${Math.round(ms)} ms, ${example}`);
    }
  }
  await errands.close();
  return {
    attack: `extreme what-ifs, ${sheets.length} sheets, on no set, on the demo's and on every pattern`,
    count,
    said: `${answered} answered, ${not} told as a sheet that can't be worked out so, the others refused at the input; slowest ${(slowestOf / 1000).toFixed(1)} s`,
    broke: t.lines(),
  };
};
