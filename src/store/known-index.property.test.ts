/** What is remembered of jobs by their version equals the reading of all of them, after any history; and goes from memory when another erases the job. */
import Database from "better-sqlite3";
import fc from "fast-check";
import { expect, it } from "vitest";
import { keptAs } from "../desk/commands/known";
import { demoSet } from "../desk/demo";
import type { Entry } from "../job/document";
import { seenIn } from "../job/rollups/known/seen";
import { viewOf } from "../job/view";
import { bothHomes } from "./both-homes.testdata";
import { type Home, openHome } from "./home";
import { shopAt } from "./postgres";
import { readingOnce } from "./read-once";
import { repository } from "./repository";
import { kyselyOf, openReading } from "./sqlite";
import type { JobStore } from "./store";

const { inEach, inShop, database } = bothHomes("known");
const at = "2026-02-01T00:00:00.000Z";
let n = 0;
const form = (card: string, fields: Readonly<Record<string, string>>): Entry => ({
  id: `e${++n}`,
  at,
  who: "t",
  kind: "form",
  form: card,
  fields,
});
const job = (name: string) => ({ id: `id${++n}`, name, created: at, set: demoSet(), entries: [] });
const names = ["Mill", "Weir", "Lock", "Ford"] as const;
const cards = fc.constantFrom(
  ["tubes", { "row 1: Socket": "V1", "row 1: Type found": "6BA6", "row 1: gm %": "40" }],
  ["tubes", { "row 1: Socket": "V1", "row 1: Type found": "6BA6", "row 1: gm %": "95" }],
  [
    "capacitors",
    { "row 1: Part": "C4", "row 1: Kind": "electrolytic", "row 1: Value": "10 uF", "row 1: Rated V": "450", "row 1: Leakage mA": "9" },
  ],
  ["intake", { "What it is said to be": "nine-tube set" }],
  ["intake", { "Serial or marks": "12" }],
) as fc.Arbitrary<readonly [string, Readonly<Record<string, string>>]>;
const act = fc.oneof(
  { weight: 6, arbitrary: fc.record({ does: fc.constant("write" as const), name: fc.constantFrom(...names), card: cards }) },
  { weight: 2, arbitrary: fc.record({ does: fc.constant("take back" as const), name: fc.constantFrom(...names) }) },
  { weight: 1, arbitrary: fc.record({ does: fc.constant("erase" as const), name: fc.constantFrom(...names) }) },
  { weight: 3, arbitrary: fc.record({ does: fc.constant("ask" as const) }) },
);
const seenOf = ({ document }: Parameters<Parameters<JobStore["ofAll"]>[0]>[0]) => seenIn(viewOf(document));
/** The tables themselves, asked past the store. */
async function asked<T>(home: Home, work: (db: ReturnType<typeof shopAt>["db"]) => Promise<T>): Promise<T> {
  const db = home.kind === "shop" ? shopAt(home.url).db : kyselyOf(new Database(home.path));
  return work(db).finally(() => db.destroy());
}
/** Read anew from the first entry to the last, in the same order. */
async function fromAll(home: Home) {
  const store = await openHome(home);
  const read = await store.ofAll(seenOf);
  const { jobs } = await store.list();
  const each = await Promise.all(jobs.map(async ({ name }) => seenOf((await store.load(name))!)));
  await store.close();
  expect(new Set(read.map((s) => JSON.stringify(s)))).toEqual(new Set(each.map((s) => JSON.stringify(s))));
  return read;
}

const keeping = keptAs("this version");
/** As a command asks that is run once and ends: nothing is in its memory, what is kept in the store is. */
async function once(home: Home, how = keeping) {
  const [store, read] = [await openHome(home), [] as string[]];
  const made = await store.ofAll((j) => {
    read.push(j.document.name);
    return seenOf(j);
  }, how);
  await store.close();
  return { made, read };
}

inEach("what all jobs know, remembered by version, in", (home) => {
  it("equals the reading of all jobs after any history, written here and by another", async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(fc.tuple(act, fc.boolean()), { minLength: 4, maxLength: 25 }), async (acts) => {
        const own = await home.fresh();
        const [store, beside] = [await openHome(own), await openHome(own)];
        for (const [a, isOwn] of acts) {
          const by = isOwn ? store : beside;
          if (a.does === "ask") {
            const anew = await fromAll(own);
            expect(await store.ofAll(seenOf, keeping)).toEqual(anew);
            expect((await once(own)).made).toEqual(anew);
            continue;
          }
          const found = await by.load(a.name);
          if (a.does === "write") {
            if (!found) await by.create(job(a.name));
            await by.append(a.name, [form(...a.card)]);
          } else if (found && a.does === "erase") await by.erase(a.name, found.revision, "t");
          else if (found && a.does === "take back") {
            const last = found.document.entries.at(-1);
            if (last) await by.append(a.name, [{ id: `e${++n}`, at, who: "t", kind: "correction", supersedes: last.id, why: "" }]);
          }
        }
        expect(await store.ofAll(seenOf)).toEqual(await fromAll(own));
        expect((await once(own)).made).toEqual(await fromAll(own));
        expect(await once(own)).toMatchObject({ read: [] });
        await Promise.all([store.close(), beside.close()]);
      }),
      { numRuns: 12, seed: 20260101 },
    );
  });
  it("reads a job that is as it was no second time", async () => {
    const store = await openHome(await home.fresh());
    for (const name of names) await store.create(job(name));
    const read: string[] = [];
    const work = ({ document }: { readonly document: { readonly name: string } }) => read.push(document.name);
    await store.ofAll(work);
    await store.ofAll(work);
    expect(read).toHaveLength(names.length);
    await store.append("Weir", [form("intake", { Owner: "the club" })]);
    await store.ofAll(work);
    expect(read.slice(names.length)).toEqual(["Weir"]);
    await store.close();
  });
});
inEach("what all jobs know, kept beside them in", (home) => {
  it("is read once for all that ask after, but for jobs that have changed; of another version it is made again", async () => {
    const own = await home.fresh();
    const store = await openHome(own);
    for (const name of names) await store.create({ ...job(name), entries: [form("intake", { "Serial or marks": name })] });
    expect((await once(own)).read).toHaveLength(names.length);
    expect((await once(own)).read).toEqual([]);
    await store.append("Weir", [form("intake", { "Serial or marks": "12" })]);
    const again = await once(own);
    expect(again.read).toEqual(["Weir"]);
    expect(again.made.map((s) => s?.serial).sort()).toEqual(["12", "FORD", "LOCK", "MILL"]);
    expect((await once(own, keptAs("another version"))).read).toHaveLength(names.length);
    // what is not of its shape, or not to be read, is made again
    for (const damaged of ['[{"job":1}]', "{", "[null]"]) {
      await asked(own, (db) => db.updateTable("made").set({ body_json: damaged, made_by: "this version" }).execute());
      expect(await once(own)).toEqual({ made: again.made, read: expect.objectContaining({ length: names.length }) });
    }
    await store.erase("Mill", 1, "t");
    const left = await asked(own, (db) => db.selectFrom("made").select("body_json").execute());
    expect(left).toHaveLength(names.length - 1);
    expect(JSON.stringify(left)).not.toContain("MILL");
    await store.close();
  });
  it("is the same where nothing may be written, and nothing is", async () => {
    const own = await home.fresh();
    const store = await openHome(own);
    for (const name of names) await store.create(job(name));
    await store.close();
    const reading =
      own.kind === "file"
        ? await openReading(own.path, () => at, new Error("it may not be written here"))
        : await openHome({ kind: "shop", url: `${own.url}&options=-c%20default_transaction_read_only=on` });
    expect(await reading.ofAll(seenOf, keeping)).toEqual(await fromAll(own));
    await reading.close();
    expect(await asked(own, (db) => db.selectFrom("made").select("job_id").execute())).toEqual([]);
  });
});
inShop("two servers on one database:", () => {
  it("what one erases is not held in the other's memory, though nobody asks it", async () => {
    const { url } = await database();
    const [store, kept] = [await openHome({ kind: "shop", url }), readingOnce()];
    const { db } = shopAt(url);
    const other = repository({ db, now: () => at, explain: (e) => e as Error, locksRows: true }, kept);
    for (const name of names.slice(0, 2)) await store.create({ ...job(name), entries: [form("intake", { Owner: "the club" })] });
    await other.load("Mill");
    await other.ofAll(seenOf);
    expect(kept.ids().size).toBe(2);
    const mill = (await store.load("Mill"))!.document.id;
    await store.erase("Mill", 1, "t");
    await expect.poll(() => kept.ids().has(mill)).toBe(false);
    expect(kept.ids().size).toBe(1);
    await Promise.all([store.close(), other.close()]);
  });
});
