/** Years of jobs: how long the list, a search and a job take as the records grow, on both homes. Times of this machine, in the table; none is a limit. */
import Database from "better-sqlite3";
import type { Kysely } from "kysely";
import { keptAs } from "../../../src/desk/commands/known";
import type { JobAsRead } from "../../../src/job/read-job";
import { seenIn } from "../../../src/job/rollups/known/seen";
import { viewOf } from "../../../src/job/view";
import { patterns } from "../../../src/set/patterns/kinds";
import { type Home, openHome } from "../../../src/store/home";
import { shopAt } from "../../../src/store/postgres";
import { kyselyOf } from "../../../src/store/sqlite";
import type { Tables } from "../../../src/store/tables";
import { type Part, part, troubles } from "../kit";
import { at, entry, inBothHomes } from "./homes";

const wholeJobs = 10_000;
const readingsEach = 100;
const rowsAtOnce = 500;
const set = JSON.stringify({ ...patterns[0], title: "Invented Nine" });

/** Jobs with their readings, past the store: it would take an evening by one entry at a time. */
async function put(db: Kysely<Tables>, from: number, to: number): Promise<void> {
  for (let first = from; first < to; first += 20)
    await db.transaction().execute(async (tx) => {
      const jobs = Array.from({ length: Math.min(20, to - first) }, (_, i) => first + i);
      await tx
        .insertInto("job")
        .values(
          jobs.map((j) => ({
            id: `j${j}`,
            name: `Set ${j}`,
            created: at,
            updated: new Date(Date.parse(at) + j * 60_000).toISOString(),
            revision: 1,
            next_seq: readingsEach + 1,
            title: "Invented Nine",
            set_json: set,
            extra_json: "{}",
          })),
        )
        .execute();
      const rows = jobs.flatMap((j) =>
        Array.from({ length: readingsEach }, (_, i) => {
          const id = `r${i}`;
          const stage = `V${i % 9}`;
          const reading = {
            id,
            as: "table",
            state: "as-found",
            step: "10",
            stage,
            instrument: "",
            thermal: "warm",
            file: { name: "", hash: "" },
          };
          const more = {
            columns: { V: [((j * 37 + i * 11) % 3000) / 10] },
            figures: [],
            warnings: i === 7 && j % 400 === 0 ? ["crackle at the pin"] : [],
          };
          return {
            job_id: `j${j}`,
            seq: i + 1,
            id: `e${i}`,
            kind: "reading",
            at: new Date(Date.parse(at) + j * 60_000 + i * 1000).toISOString(),
            who: "bench",
            reading_id: id,
            body_json: JSON.stringify({ reading: { ...reading, ...more } }),
          };
        }),
      );
      for (let i = 0; i < rows.length; i += rowsAtOnce)
        await tx
          .insertInto("entry")
          .values(rows.slice(i, i + rowsAtOnce))
          .execute();
    });
}
/** What few entries hold, what all of them do, and what none does. */
const lookedFor: readonly (readonly [text: string, isThere: boolean])[] = [
  ["crackle at the pin", true],
  ["warm", true],
  ["no such words", false],
];
/** Ids of the entries that were put. */
const ofPut = /^e\d+$/;
const seenOf = ({ document }: JobAsRead) => seenIn(viewOf(document));
const rounds = 40;
async function p95Ms(work: (i: number) => Promise<unknown>, count = rounds): Promise<number> {
  const times: number[] = [];
  for (let i = 0; i < count; i++) {
    const began = performance.now();
    await work(i);
    times.push(performance.now() - began);
  }
  return times.sort((a, b) => a - b)[Math.ceil(0.95 * count) - 1];
}
const ms = (x: number): string => (x < 10 ? x.toFixed(1) : x.toFixed(0));

/** How long another process takes that begins with nothing in its memory, once one has kept beside the jobs what they know. */
async function askedOnce(home: Home, size: number, t: ReturnType<typeof troubles>): Promise<number> {
  const once = async (): Promise<void> => {
    const own = await openHome(home);
    if ((await own.ofAll((j) => seenOf(j), keptAs("siege"))).length !== size) t.add("jobs not known by another process", `${size}`);
    await own.close();
  };
  await once();
  return p95Ms(once, 4);
}

async function grown(home: Home, sizes: readonly number[], t: ReturnType<typeof troubles>): Promise<string> {
  const store = await openHome(home);
  const { db, close } =
    home.kind === "shop"
      ? shopAt(home.url)
      : (() => {
          const raw = new Database(home.path);
          raw.pragma("synchronous = OFF");
          const own = kyselyOf(raw);
          return { db: own, close: () => own.destroy() };
        })();
  const said: string[] = [];
  let there = 0;
  for (const size of sizes) {
    await put(db, there, size);
    there = size;
    const list = await p95Ms(async () => {
      if ((await store.list("", 60)).total !== size) t.add("jobs missing", `${size}`);
    });
    const named = await p95Ms(async (i) => {
      if ((await store.list(`Set ${(i * 97) % size}`, 60)).jobs.length === 0) t.add("not found by name", `${size}`);
    });
    const lookFor = async (i: number): Promise<void> => {
      const [text, isThere] = lookedFor[i % lookedFor.length];
      if ((await store.search(text, 60)).found.length > 0 !== isThere) t.add("not found by text", `${text} among ${size}`);
    };
    const searchFirst = await p95Ms(lookFor, 1);
    const search = await p95Ms(lookFor, 21);
    const open = await p95Ms(async (i) => {
      const entries = (await store.load(`Set ${(i * 97) % size}`))?.document.entries ?? [];
      // an entry that was added to see what is known may be a reading too
      if (entries.filter((e) => e.kind === "reading" && ofPut.test(e.id)).length !== readingsEach) t.add("readings missing", `${size}`);
    });
    const knownFirst = await p95Ms(() => store.ofAll(seenOf), 1);
    const known = await p95Ms(async (i) => {
      await store.append(`Set ${(i * 97) % size}`, [entry(`known-${size}-${i}`, "bench")]);
      if ((await store.ofAll(seenOf)).length !== size) t.add("jobs not known", `${size}`);
    }, 8);
    const again = await askedOnce(home, size, t);
    said.push(
      `${size} jobs: what all know ${ms(knownFirst)} at first, ${ms(known)} after an entry more, ${ms(again)} by another process, list ${ms(list)}, by name ${ms(named)}, search ${ms(searchFirst)} at first, ${ms(search)} then, open ${ms(open)} ms`,
    );
  }
  await close();
  await store.close();
  return said.join("; ");
}
export const load: Part = async (share) => {
  const t = troubles();
  const most = part(share, wholeJobs);
  const sizes = [...new Set([100, 10, 1].map((n) => Math.max(1, Math.round(most / n))))];
  const told = await inBothHomes(async (home, where) => `${where}: ${await grown(home, sizes, t)}`);
  return {
    attack: `${most} jobs of ${readingsEach} readings each (${wholeJobs} jobs and a million readings when whole), at the 95th percentile`,
    count: most,
    said: told.join(". "),
    broke: t.lines(),
  };
};
