import type { Kysely } from "kysely";
import type { JobDocument } from "../../job/document";
import { viewOf } from "../../job/view";
import { sessionLives } from "../accounts/sessions";
import { sha256Of } from "../content";
import { loaded } from "../read-jobs";
import type { Tables } from "../tables";
import { type KeptKind, keptKinds, kindsKept, type PastTime } from "./kept";
import { before, readSpan, type Span } from "./spans";

type Db = Kysely<Tables>;

const nothing = { entriesCount: 0, filesCount: 0, bytesCount: 0 };

/** How long each kind is kept, where somebody said so. */
export async function spansKept(db: Db): Promise<Readonly<Partial<Record<KeptKind, Span>>>> {
  const rows = await db.selectFrom("kept_for").selectAll().execute();
  const spans = rows.flatMap(({ kind, count, unit }) => {
    const read = readSpan(`${count} ${unit}`);
    const known = kindsKept.find((k) => k === kind);
    return known !== undefined && read.ok && read.value !== undefined ? [[known, read.value] as const] : [];
  });
  return Object.fromEntries(spans);
}

/** Whether a set has gone back to its owner with everything proved that had to be. */
const isHandedOver = (document: JobDocument): boolean => viewOf(document).steps.find((s) => s.id === "36")?.state === "proven";

interface Finished {
  readonly id: string;
  readonly name: string;
  readonly updated: string;
  readonly revision: number;
  readonly entriesCount: number;
}
/** Finished jobs in which nothing was recorded since a moment. One that can't be read is never finished. */
async function finishedBefore(db: Db, since: string): Promise<readonly Finished[]> {
  const rows = await db
    .selectFrom("job")
    .select(["id", "name", "updated", "revision", "next_seq"])
    .where("updated", "<", since)
    .where((e) =>
      e.exists(
        e
          .selectFrom("entry")
          .select("entry.id")
          .whereRef("entry.job_id", "=", "job.id")
          .where("entry.kind", "=", "done")
          .where("body_json", "like", '%"36"%'),
      ),
    )
    .orderBy("name")
    .execute();
  const finished: Finished[] = [];
  for (const { next_seq, ...row } of rows) {
    const found = await loaded(db, row.name).catch(() => undefined);
    if (found?.unreadable.length === 0 && isHandedOver(found.document)) finished.push({ ...row, entriesCount: next_seq - 1 });
  }
  return finished;
}
async function filesOf(db: Db, jobId: string, sound: boolean) {
  const rows = await db
    .selectFrom("file")
    .innerJoin("content", "content.sha256", "file.sha256")
    .select((e) => ["file.hash", e.fn<number>("length", ["content.bytes"]).as("size")])
    .where("file.job_id", "=", jobId)
    .$if(sound, (q) => q.where("file.media", "like", "audio/%"))
    .orderBy("file.hash")
    .execute();
  return { hashes: rows.map((f) => f.hash), filesCount: rows.length, bytesCount: rows.reduce((sum, f) => sum + Number(f.size), 0) };
}
async function jobsPast(db: Db, since: string): Promise<PastTime[]> {
  const past: PastTime[] = [];
  for (const { id, name, updated, revision, entriesCount } of await finishedBefore(db, since)) {
    const { filesCount, bytesCount } = await filesOf(db, id, false);
    past.push({ kind: "jobs", about: name, since: updated, entriesCount, filesCount, bytesCount, ids: [id], jobId: id, revision });
  }
  return past;
}
async function recordingsPast(db: Db, since: string, going: ReadonlySet<string>): Promise<PastTime[]> {
  const past: PastTime[] = [];
  for (const { id, name, updated, revision } of await finishedBefore(db, since)) {
    const { hashes, ...much } = await filesOf(db, id, true);
    if (hashes.length > 0 && !going.has(id))
      past.push({ ...nothing, ...much, kind: "recordings", about: name, since: updated, ids: hashes, jobId: id, revision });
  }
  return past;
}

const iso = (from: string, ms: number): string => new Date(Date.parse(from) - ms).toISOString();
async function sessionsPast(db: Db, since: string): Promise<readonly { readonly id: string; readonly since: string }[]> {
  const rows = await db
    .selectFrom("session")
    .select(["hash as id", "seen", "ended"])
    .where((e) =>
      e.or([
        e("ended", "<", since),
        e.and([
          e("ended", "is", null),
          e.or([e("made", "<", iso(since, sessionLives.wholeMs)), e("seen", "<", iso(since, sessionLives.idleMs))]),
        ]),
      ]),
    )
    .orderBy("hash")
    .execute();
  return rows.map(({ id, seen, ended }) => ({ id, since: ended ?? seen }));
}
const triesPast = (db: Db, since: string) =>
  db.selectFrom("sign_in_try").select(["about as id", "since"]).where("since", "<", since).orderBy("about").execute();
const linksPast = (db: Db, since: string) =>
  db
    .selectFrom("owner_link")
    .select(["id", "until as since"])
    .where((e) => e.or([e("withdrawn", "<", since), e("until", "<", since)]))
    .orderBy("id")
    .execute();
const ofPeople = { sessions: sessionsPast, tries: triesPast, links: linksPast };

/**
 * All that has been kept as long as its kind is, in the order of the kinds.
 *
 * @param db the database
 * @param now ISO 8601
 * @returns what a clear-out would remove; nothing of a kind that is kept for ever
 */
export async function pastTime(db: Db, now: string): Promise<readonly PastTime[]> {
  const spans = await spansKept(db);
  const since = (kind: KeptKind): string | undefined => {
    const span = spans[kind];
    return span && before(now, span);
  };
  const [jobs, sound] = [since("jobs"), since("recordings")];
  const past = jobs === undefined ? [] : await jobsPast(db, jobs);
  if (sound !== undefined) past.push(...(await recordingsPast(db, sound, new Set(past.flatMap((p) => p.jobId ?? [])))));
  for (const kind of ["sessions", "tries", "links"] as const) {
    const by = since(kind);
    const rows = by === undefined ? [] : await ofPeople[kind](db, by);
    if (rows.length === 0) continue;
    const oldest = rows.map((r) => r.since).sort()[0];
    past.push({ ...nothing, kind, about: keptKinds[kind], since: oldest, entriesCount: rows.length, ids: rows.map((r) => r.id) });
  }
  return past;
}

/** A few digits that stand for a list word for word: whoever confirms by them has seen that list and no other. */
export const codeOf = (past: readonly PastTime[]): string =>
  sha256Of(new TextEncoder().encode(JSON.stringify(past.map((p) => [p.kind, p.about, p.ids, p.revision ?? 0])))).slice(0, 8);
