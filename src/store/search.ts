import { type Kysely, sql } from "kysely";
import type { Found } from "./store";
import type { Tables } from "./tables";

const rowsAtOnce = 200;
const excerptChars = 90;

/** Small letters as both homes make them: of English alone. */
const small = (text: string): string => text.replace(/[A-Z]/g, (c) => c.toLowerCase());
/** A pattern for what holds a text, with what a pattern would take for its own made plain. */
export const holding = (text: string): string => `%${small(text).replace(/[\\%_]/g, "\\$&")}%`;

/** Texts within data, whatever they stand under: what a person typed or read, not the names of fields. */
function textsIn(data: unknown): readonly string[] {
  if (typeof data === "string") return [data];
  if (typeof data !== "object" || data === null) return [];
  return Object.entries(data).flatMap(([key, v]) => [
    // fields of a card and columns of a reading are named by words of their own
    ...(/[ A-Z:,]/.test(key) ? [key] : []),
    ...textsIn(v),
  ]);
}
/** What stands around a match. */
function around(text: string, wanted: string): string | undefined {
  const at = small(text).indexOf(wanted);
  if (at < 0) return undefined;
  const from = Math.max(0, at - excerptChars / 2);
  const part = text.slice(from, from + excerptChars).replace(/\s+/g, " ");
  return `${from > 0 ? "…" : ""}${part}${from + excerptChars < text.length ? "…" : ""}`;
}
function parsed(json: string): unknown {
  try {
    return JSON.parse(json);
  } catch {
    return undefined;
  }
}

/**
 * Entries of all jobs that hold a text, the latest first.
 *
 * @param db the database
 * @param text what is looked for; capitals don't matter where they are those of English
 * @param limit most that are given
 * @returns what was found, and whether there is more
 */
export async function searched(
  db: Kysely<Tables>,
  text: string,
  limit: number,
): Promise<{ readonly found: Found[]; readonly more: boolean }> {
  const wanted = small(text);
  // as it stands in JSON
  const pattern = holding(JSON.stringify(text).slice(1, -1));
  const found: Found[] = [];
  for (let offset = 0; ; offset += rowsAtOnce) {
    const rows = await db
      .selectFrom("entry")
      .innerJoin("job", "job.id", "entry.job_id")
      .select(["job.name as job", "entry.id", "entry.kind", "entry.at", "entry.who", "entry.body_json"])
      .where(sql<boolean>`lower(entry.body_json) like ${pattern} escape '\\'`)
      .orderBy("entry.at", "desc")
      .orderBy("job.name")
      .orderBy("entry.seq")
      .limit(rowsAtOnce)
      .offset(offset)
      .execute();
    for (const { body_json, ...row } of rows) {
      const excerpt = textsIn(parsed(body_json)).flatMap((t) => around(t, wanted) ?? [])[0];
      if (excerpt === undefined) continue;
      if (found.length === limit) return { found, more: true };
      found.push({ ...row, excerpt });
    }
    if (rows.length < rowsAtOnce) return { found, more: false };
  }
}
