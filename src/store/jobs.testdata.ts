import type { Entry } from "../job/document";
import { patterns } from "../set/patterns/kinds";

/** Makes a store with no files one of before their bytes were kept once, together with the step that did it. */
export const withBytesOfTheirOwn =
  "drop table made; drop table kept_for; alter table session drop column ended; drop table file; drop table content; create table file (job_id text not null references job(id) on delete cascade, hash text not null, name text not null, media text not null, bytes blob not null, primary key (job_id, hash)); delete from kysely_migration where name in ('0008-content', '0009-kept-for', '0010-made');";
/** Makes a store one of before there were accounts, together with the step that made them. */
export const withoutAccounts = `${withBytesOfTheirOwn}
  drop table session; drop table set_code; drop table owner_link; drop table account; drop table sign_in_try; drop table audit; drop table audit_head; delete from kysely_migration where name = '0007-accounts'`;
/** A job and an entry for the tests of the store. */
export const job = (name: string, entries: Entry[] = []) => ({
  id: `id-${name}`,
  name,
  created: "2026-01-01T00:00:00Z",
  set: patterns[1],
  entries,
});
export const done = (id: string): Entry => ({ id, at: "2026-01-02T00:00:00Z", who: "t", kind: "done", step: "01", note: "" });
