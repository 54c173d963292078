import type { Transaction } from "kysely";
import { counted } from "../../units/sentence";
import { tell } from "../accounts/audit";
import { dropUnpointed, pointedAt } from "../content";
import { StoreError } from "../store-error";
import type { Tables } from "../tables";
import type { Transactions } from "../transactions";
import type { KeptKind, PastTime, Retention } from "./kept";
import { codeOf, pastTime, spansKept } from "./past-time";
import { saySpan } from "./spans";

type Tx = Transaction<Tables>;

const changed = (): StoreError =>
  new StoreError("conflict", "what is past its time is not what was listed: nothing was removed; list it again");
/** How much of it goes, as the trail tells it. */
export const sayMuch = ({ kind, entriesCount, filesCount, bytesCount }: PastTime): string =>
  [
    kind === "jobs" ? counted(entriesCount, "entry", "entries") : "",
    filesCount > 0 ? `${counted(filesCount, "file")} of ${(bytesCount / 1e6).toFixed(bytesCount < 1e7 ? 1 : 0)} MB` : "",
    kind === "jobs" || kind === "recordings" ? "" : `${entriesCount}`,
  ]
    .filter(Boolean)
    .join(", ");
const whatGoes: Readonly<Record<KeptKind, string>> = {
  jobs: "finished job cleared out",
  recordings: "recordings cleared out",
  sessions: "sign-ins that were over cleared out",
  tries: "counts of passwords tried cleared out",
  links: "owners' links that were over cleared out",
};

async function removeJob(tx: Tx, { jobId = "", revision = 0 }: PastTime): Promise<readonly string[]> {
  const bytes = await pointedAt(tx, jobId);
  const gone = await tx.deleteFrom("job").where("id", "=", jobId).where("revision", "=", revision).returning("id").executeTakeFirst();
  if (!gone) throw changed();
  return bytes;
}
/** Takes recordings from a job; its document says which they were, when they went and by whose word. */
async function removeRecordings(tx: Tx, { jobId = "", revision = 0, ids }: PastTime, by: { readonly at: string; readonly who: string }) {
  const job = await tx
    .updateTable("job")
    .set({ revision: revision + 1 })
    .where("id", "=", jobId)
    .where("revision", "=", revision)
    .returning("extra_json")
    .executeTakeFirst();
  if (!job) throw changed();
  const files = await tx.deleteFrom("file").where("job_id", "=", jobId).where("hash", "in", ids).returningAll().execute();
  const extra = JSON.parse(job.extra_json) as { readonly clearedOut?: readonly object[] };
  const gone = files.map(({ hash, name, media }) => ({ hash, name, media, ...by }));
  await tx
    .updateTable("job")
    .set({ extra_json: JSON.stringify({ ...extra, clearedOut: [...(extra.clearedOut ?? []), ...gone] }) })
    .where("id", "=", jobId)
    .execute();
  return files.map((f) => f.sha256);
}
const rowsAtOnce = 500;
async function removeRows(tx: Tx, { kind, ids }: PastTime): Promise<void> {
  for (let i = 0; i < ids.length; i += rowsAtOnce) {
    const some = ids.slice(i, i + rowsAtOnce);
    if (kind === "sessions") await tx.deleteFrom("session").where("hash", "in", some).execute();
    if (kind === "tries") await tx.deleteFrom("sign_in_try").where("about", "in", some).execute();
    if (kind === "links") await tx.deleteFrom("owner_link").where("id", "in", some).execute();
  }
}
async function removed(tx: Tx, p: PastTime, by: { readonly at: string; readonly who: string }): Promise<readonly string[]> {
  if (p.kind === "jobs") return removeJob(tx, p);
  if (p.kind === "recordings") return removeRecordings(tx, p, by);
  await removeRows(tx, p);
  return [];
}

/**
 * How long a store keeps what.
 *
 * @param on how it is asked
 */
export function retentionIn({ db, now, guard, writeOnce, transact, locksRows }: Transactions): Retention {
  return {
    spans: () => guard(() => spansKept(db)),
    keepFor: (kind, span, who) =>
      writeOnce(() =>
        transact(async (tx) => {
          await tell(tx, now(), { who, what: `kept ${span ? `for ${saySpan(span)}` : "for ever"} from now on`, about: kind });
          await tx.deleteFrom("kept_for").where("kind", "=", kind).execute();
          if (span)
            await tx
              .insertInto("kept_for")
              .values({ kind, ...span })
              .execute();
        }),
      ),
    list: () =>
      guard(async () => {
        const past = await pastTime(db, now());
        return { past, code: codeOf(past) };
      }),
    clearOut: (code, who) =>
      writeOnce(() =>
        transact(async (tx) => {
          const at = now();
          const past = await pastTime(tx, at);
          if (past.length === 0 || codeOf(past) !== code) throw changed();
          const bytes = new Set<string>();
          for (const p of past) {
            await tell(tx, at, {
              who,
              what: `${whatGoes[p.kind]}: ${sayMuch(p)}`,
              about: p.kind === "jobs" || p.kind === "recordings" ? p.about : "",
            });
            for (const sha256 of await removed(tx, p, { at, who })) bytes.add(sha256);
          }
          return { past, bytesCount: await dropUnpointed(tx, [...bytes].sort(), locksRows), tracesLeft: true };
        }),
      ),
  };
}
