import { type Kysely, sql } from "kysely";
import { holding, inJson, jobsThatMayHold, type MayHold, parsed, small, textsIn } from "./kept-texts";
import type { Found } from "./store";
import type { Tables } from "./tables";
import type { Transactions } from "./transactions";

const rowsAtOnce = 200;
const jobsAtOnce = 50;
const excerptChars = 90;

/** What stands around a match. */
function around(text: string, wanted: string): string | undefined {
  const at = small(text).indexOf(wanted);
  if (at < 0) return undefined;
  const from = Math.max(0, at - excerptChars / 2);
  const part = text.slice(from, from + excerptChars).replace(/\s+/g, " ");
  return `${from > 0 ? "…" : ""}${part}${from + excerptChars < text.length ? "…" : ""}`;
}

type InOrder = Found & { readonly seq: number };
/** By the letters' own numbers, as both homes compare. */
const compared = (a: string, b: string): number => Buffer.compare(Buffer.from(a), Buffer.from(b));
const order = (a: InOrder, b: InOrder): number => compared(b.at, a.at) || compared(a.job, b.job) || a.seq - b.seq;

/** Entries that hold a text, the latest first, at most so many: of some jobs, or of all. */
async function foundIn(db: Kysely<Tables>, text: string, most: number, jobs?: readonly string[]): Promise<InOrder[]> {
  const wanted = small(text);
  const pattern = holding(inJson(text));
  const found: InOrder[] = [];
  for (let offset = 0; ; offset += rowsAtOnce) {
    const rows = await db
      .selectFrom("entry")
      .innerJoin("job", "job.id", "entry.job_id")
      .select(["job.name as job", "entry.id", "entry.kind", "entry.at", "entry.who", "entry.seq", "entry.body_json"])
      .where(sql<boolean>`lower(entry.body_json) like ${pattern} escape '\\'`)
      .$if(jobs !== undefined, (q) => q.where("entry.job_id", "in", jobs ?? []))
      .orderBy("entry.at", "desc")
      .orderBy("job.name")
      .orderBy("entry.seq")
      .limit(rowsAtOnce)
      .offset(offset)
      .execute();
    for (const { body_json, ...row } of rows) {
      const excerpt = textsIn(parsed(body_json)).flatMap((t) => around(t, wanted) ?? [])[0];
      if (excerpt === undefined) continue;
      found.push({ ...row, excerpt });
      if (found.length === most) return found;
    }
    if (rows.length < rowsAtOnce) return found;
  }
}
/** The same, of jobs that may hold it: those whose latest entry is older than all that is found already are not looked into. */
async function foundAmong(db: Kysely<Tables>, text: string, most: number, jobs: readonly MayHold[]): Promise<readonly InOrder[]> {
  let found: InOrder[] = [];
  for (let i = 0; i < jobs.length; i += jobsAtOnce) {
    const [next, last] = [jobs[i].lastAt, found.at(most - 1)];
    if (last && next !== undefined && compared(last.at, next) > 0) break;
    const ids = jobs.slice(i, i + jobsAtOnce).map((j) => j.id);
    found = [...found, ...(await foundIn(db, text, most, ids))].sort(order).slice(0, most);
  }
  return found;
}

/**
 * Entries of all jobs that hold a text, the latest first.
 *
 * @param on how the store is asked
 * @param text what is looked for; capitals don't matter where they are those of English
 * @param limit most that are given
 * @returns what was found, and whether there is more
 */
export async function searched(
  on: Transactions,
  text: string,
  limit: number,
): Promise<{ readonly found: Found[]; readonly more: boolean }> {
  // half a letter is written otherwise where it stands in a whole one
  const isWhole = !/[\ud800-\udfff]/u.test(text);
  const found = isWhole ? await foundAmong(on.db, text, limit + 1, await jobsThatMayHold(on, text)) : await foundIn(on.db, text, limit + 1);
  return { found: found.slice(0, limit).map(({ seq: _, ...f }) => f), more: found.length > limit };
}
