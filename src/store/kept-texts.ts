/** What stands in a job's entries, kept beside it in few letters, so that a search looks into those jobs alone that hold what is looked for. */
import { sql } from "kysely";
import { keepRows } from "./made";
import type { Transactions } from "./transactions";

/** Under which name, and how: whoever changes what counts as a text, or how it is written, gives another version. */
const [work, madeBy] = ["texts", "1"] as const;
const jobsAtOnce = 50;
/** A time is no longer than that. */
const mostAtChars = 40;

/** Small letters as both homes make them: of English alone. */
export const small = (text: string): string => text.replace(/[A-Z]/g, (c) => c.toLowerCase());
/** A pattern for what holds a text, with what a pattern would take for its own made plain. */
export const holding = (text: string): string => `%${small(text).replace(/[\\%_]/g, "\\$&")}%`;
/** A text as it stands in JSON. */
export const inJson = (text: string): string => JSON.stringify(text).slice(1, -1);

/** Hands on each text within data, whatever it stands under: what a person typed or read, not the names of fields. */
function eachText(data: unknown, take: (text: string) => void): void {
  if (typeof data === "string") take(data);
  if (typeof data !== "object" || data === null) return;
  for (const [key, v] of Object.entries(data)) {
    // fields of a card and columns of a reading are named by words of their own
    if (/[ A-Z:,]/.test(key)) take(key);
    eachText(v, take);
  }
}
/** All texts within data, in their order. */
export function textsIn(data: unknown): readonly string[] {
  const texts: string[] = [];
  eachText(data, (t) => texts.push(t));
  return texts;
}
/** JSON that may be damaged: undefined where it is. */
export function parsed(json: string): unknown {
  try {
    return JSON.parse(json);
  } catch {
    return undefined;
  }
}

/** A job's texts: each once, a line each, after the time of its latest entry. */
function written(entries: readonly { readonly at: string; readonly body_json: string }[]): string {
  const texts = new Set<string>();
  let last = "";
  for (const { at, body_json } of entries) {
    if (at > last) last = at;
    eachText(parsed(body_json), (t) => texts.add(t));
  }
  return `${last}\n${[...texts].map((t) => small(inJson(t))).join("\n")}`;
}

/** Brings up to date what is kept of jobs that have changed. Returns ids of those of which it can't be kept: the store may only be read, is full, or is held. */
async function renewed(on: Transactions): Promise<readonly string[]> {
  const stale = await on.db
    .selectFrom("job")
    .leftJoin("made", (j) =>
      j
        .onRef("made.job_id", "=", "job.id")
        .onRef("made.revision", "=", "job.revision")
        .on("made.work", "=", work)
        .on("made.made_by", "=", madeBy),
    )
    .select(["job.id", "job.revision"])
    .where("made.job_id", "is", null)
    .execute();
  for (let i = 0; i < stale.length; i += jobsAtOnce) {
    // others have their turn between
    await new Promise((r) => setImmediate(r));
    const some = stale.slice(i, i + jobsAtOnce);
    const ids = some.map((j) => j.id);
    const entries = await on.db.selectFrom("entry").select(["job_id", "at", "body_json"]).where("job_id", "in", ids).execute();
    const ofJob = new Map(ids.map((id): [string, (typeof entries)[number][]] => [id, []]));
    for (const e of entries) ofJob.get(e.job_id)?.push(e);
    const rows = some.map(({ id, revision }) => ({
      job_id: id,
      work,
      made_by: madeBy,
      revision,
      body_json: written(ofJob.get(id) ?? []),
    }));
    if (!(await keepRows(on, rows))) return stale.slice(i).map((j) => j.id);
  }
  return [];
}

/** A job that may hold a text, and when its latest entry was recorded; of one whose texts are not kept nobody knows. */
export interface MayHold {
  readonly id: string;
  readonly lastAt?: string;
}
/**
 * Jobs that may hold a text: every one that does is among them.
 *
 * @param on how the store is asked
 * @param text what is looked for
 * @returns those of which nobody knows first, then by their latest entry, the latest first
 */
export async function jobsThatMayHold(on: Transactions, text: string): Promise<readonly MayHold[]> {
  const unknown = new Set(await renewed(on));
  const rows = await on.db
    .selectFrom("made")
    .select(["job_id", sql<string>`substr(body_json, 1, ${sql.lit(mostAtChars + 1)})`.as("head")])
    .where("work", "=", work)
    .where("made_by", "=", madeBy)
    .where(sql<boolean>`body_json like ${holding(inJson(text))} escape '\\'`)
    .execute();
  const known = rows.flatMap(({ job_id, head }): { readonly id: string; readonly lastAt: string }[] => {
    if (unknown.has(job_id)) return [];
    const end = head.indexOf("\n");
    if (end < 0) unknown.add(job_id);
    return end < 0 ? [] : [{ id: job_id, lastAt: head.slice(0, end) }];
  });
  known.sort((a, b) => (a.lastAt < b.lastAt ? 1 : a.lastAt > b.lastAt ? -1 : 0));
  return [...[...unknown].map((id) => ({ id })), ...known];
}
