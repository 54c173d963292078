/** Processes killed at any moment, while they write and while they bring an old store up to date: what was acknowledged is there, whole, once. */
import { spawn } from "node:child_process";
import { copyFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import fc from "fast-check";
import { demoSet } from "../../src/desk/demo";
import type { Entry } from "../../src/job/document";
import { patterns } from "../../src/set/patterns/kinds";
import { hashOfBytes } from "../../src/store/archive";
import { checkHome } from "../../src/store/check-home";
import { type Home, openHome } from "../../src/store/home";
import { withoutAccounts } from "../../src/store/jobs.testdata";
import { serverPrograms } from "../../src/store/shop.testdata";
import { openSqlite } from "../../src/store/sqlite";
import { handsOn, heldToHands, isPicture, picture, sayHands } from "./hands";
import { folder, type Part, part, some, type Tally, troubles } from "./kit";
import { built, type Served, startServer } from "./server";
import { sayKinds } from "./shop/entries";
import { inShop, servedDatabase } from "./shop/homes";
import { heldToWritten, written } from "./written";

const at = "2026-02-01T00:00:00.000Z";
const pause = (ms: number): Promise<void> => new Promise((r) => setTimeout(r, ms));

async function killed(home: Home, share: number, fullCount: number): Promise<Omit<Tally, "attack">> {
  const t = troubles();
  const store = await openHome(home);
  await store.create({ id: "k", name: "K", created: "", set: demoSet(), entries: [] });
  const rounds = some(fc.record({ victim: fc.constantFrom(0, 1, 2, 3), delay: fc.integer({ min: 0, max: 700 }) }), part(share, fullCount));
  const servers: Served[] = [await startServer(home), await startServer(home)];
  const hands = handsOn(home, (which) => servers[which].url, t);
  const drawn = written(home, "K", t);
  for (const { victim, delay } of rounds) {
    await pause(100 + delay);
    if (victim === 2) hands.killLine();
    else if (victim === 3) drawn.kill();
    else {
      const old = servers[victim].process;
      const gone = new Promise((r) => old.once("exit", r));
      old.kill("SIGKILL");
      await gone;
      servers[victim] = await startServer(home);
    }
  }
  await Promise.all([hands.stop(), drawn.stop()]);
  for (const s of servers) s.process.kill("SIGKILL");
  const found = await store.load("K");
  const entries = found?.document.entries ?? [];
  for (const word of hands.acknowledged.keys())
    if (isPicture(word) && !(await store.file("K", hashOfBytes(picture(word.slice(0, -2))))))
      t.add("torn: a picture without its bytes", word);
  const more = heldToHands(entries, hands, t) + heldToWritten(entries, drawn, t);
  if ((found?.unreadable.length ?? 1) > 0) t.add("unreadable", "K");
  await store.close();
  for (const w of (await checkHome(home)).wrong) t.add("the store", w.says);
  return {
    count: rounds.length,
    said: `${sayHands(hands)}, and ${drawn.acknowledged.length} acknowledged entries ${sayKinds(drawn.acknowledged)}: none lost, none torn, none doubled; ${more} more were written and not acknowledged in time`,
    broke: t.lines(),
  };
}
const attack = "SIGKILL of two servers, of the command line and of a writer of entries of every kind, all writing into one job";
export const kills: Part = async (share) => {
  const place = folder();
  const tally = await killed({ kind: "file", path: join(place, "jobs.db") }, share, 240);
  rmSync(place, { recursive: true, force: true });
  return { attack, ...tally };
};
/** The same with all of it in PostgreSQL. */
export const shopKills: Part = async (share) => {
  const said = `${attack}, which is in PostgreSQL`;
  if (serverPrograms === undefined) return { attack: said, count: 0, said: "skipped: PostgreSQL is not installed", broke: [] };
  return { attack: said, ...(await inShop(async (shop) => killed({ kind: "shop", url: await servedDatabase(shop) }, share, 200))) };
};

/** A store as the first version made it: no titles, no ids of readings, nothing set aside. */
const asFirstMade = `${withoutAccounts}; drop index job_listing; drop index entry_reading; drop table aside; drop table file_aside; alter table entry drop column reading_id; alter table job drop column title; delete from kysely_migration where name > '0001-jobs'; pragma application_id = 0`;

export const upgrades: Part = async (share) => {
  const t = troubles();
  const place = folder();
  const old = join(place, "old.db");
  const jobsCount = 6000;
  const first = await openSqlite(old);
  await first.create({ id: "j0", name: "J 0", created: at, set: patterns[0], entries: [] });
  await first.close();
  const raw = new Database(old);
  const set = JSON.stringify(patterns[0]);
  const card = JSON.stringify({ form: "intake", fields: { Owner: "x" } } satisfies Partial<Entry>);
  raw.transaction(() => {
    const job = raw.prepare("insert into job values (?, ?, ?, ?, 1, 3, ?, '{}', ?)");
    const entry = raw.prepare("insert into entry (job_id, seq, id, kind, at, who, body_json) values (?, ?, ?, 'form', ?, 'x', ?)");
    for (let i = 1; i < jobsCount; i++) {
      job.run(`j${i}`, `J ${i}`, at, at, set, "");
      for (const seq of [1, 2]) entry.run(`j${i}`, seq, `e${i}-${seq}`, at, card);
    }
  })();
  raw.exec(asFirstMade);
  raw.close();
  const path = join(place, "jobs.db");
  const fresh = (): void => {
    for (const end of ["", "-wal", "-shm", "-journal"]) rmSync(`${path}${end}`, { force: true });
    copyFileSync(old, path);
  };
  const look = (killAfterMs?: number): Promise<number | null> =>
    new Promise((done) => {
      const p = spawn(process.execPath, [built, "show", "J 7"], { env: { ...process.env, FETTLE_STORE: path } });
      const timer = killAfterMs === undefined ? undefined : setTimeout(() => p.kill("SIGKILL"), killAfterMs);
      p.on("exit", (code) => {
        clearTimeout(timer);
        done(code);
      });
    });
  fresh();
  const started = performance.now();
  if ((await look()) !== 0) t.add("undisturbed", "the old store could not be read");
  const wholeMs = performance.now() - started;
  const rounds = some(fc.double({ min: 0.1, max: 1, noNaN: true }), part(share, 54));
  let inMid = 0;
  for (const share of rounds) {
    fresh();
    if ((await look(share * wholeMs)) === null) inMid++;
    // what the killed one left is met by the next as if nothing had been
    if ((await look()) !== 0) t.add("after a kill", `the store could not be read, killed at ${Math.round(share * wholeMs)} ms`);
    const after = new Database(path, { readonly: true });
    const of = (sql: string): unknown => after.prepare(sql).pluck().get();
    if (of("select count(*) from job") !== jobsCount || of("select count(*) from entry") !== 2 * (jobsCount - 1))
      t.add("after a kill", "jobs or entries are missing");
    if (of("select count(*) from job where title = ''") !== 0) t.add("after a kill", "half of it was brought up to date");
    if (of("pragma integrity_check") !== "ok") t.add("after a kill", "the database is damaged");
    after.close();
  }
  rmSync(place, { recursive: true, force: true });
  return {
    attack: `SIGKILL while a store of ${jobsCount} jobs is brought up to date`,
    count: rounds.length,
    said: `${inMid} of them before it was done; every store whole and up to date after the next start`,
    broke: t.lines(),
  };
};
