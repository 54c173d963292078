import Database from "better-sqlite3";
import { type Kysely, type KyselyPlugin, sql } from "kysely";
import { expect, it } from "vitest";
import { bothHomes, shopIsHere } from "./both-homes.testdata";
import { type Home, openHome } from "./home";
import { done, job } from "./jobs.testdata";
import { markInFile, markInShop } from "./marks";
import { mendStore } from "./mend";
import { shopAt } from "./postgres";
import { repository } from "./repository";
import { kyselyOf } from "./sqlite";
import type { Tables } from "./tables";

const { inEach, database } = bothHomes("marks");
const now = () => "2026-05-01T00:00:00.000Z";
/** A store that tells how often it has read entries. */
function counting(home: Home) {
  const { db, close } = home.kind === "file" ? fileAt(home.path) : shopAt(home.url);
  let entryReads = 0;
  const plugin: KyselyPlugin = {
    transformQuery: ({ node }) => {
      if (node.kind === "SelectQueryNode" && JSON.stringify(node.from).includes('"entry"')) entryReads++;
      return node;
    },
    transformResult: async ({ result }) => result,
  };
  const markOf = home.kind === "file" ? markInFile : markInShop;
  const explain = (e: unknown) => e as Error;
  const store = repository({ db: db.withPlugin(plugin), now, explain, markOf, locksRows: home.kind === "shop" });
  return { store, db, close, mark: () => markOf(db, "Mill"), reads: () => entryReads };
}
function fileAt(path: string): { readonly db: Kysely<Tables>; readonly close: () => Promise<void> } {
  const raw = new Database(path);
  return { db: kyselyOf(raw), close: async () => void raw.close() };
}

inEach("a job that was read, in", ({ kind, fresh }) => {
  it("is not read again while nothing is changed, and is read after every change, whoever makes it", async () => {
    const home = await fresh();
    const beside = await openHome(home, now);
    await beside.create(job("Mill", [done("a"), done("b")]));
    await beside.create(job("Dale", [done("a")]));
    const { store, close, mark, reads } = counting(home);
    const entries = async () => (await store.load("Mill"))?.document.entries.map((e) => e.id);
    const first = await store.load("Mill");
    expect(reads()).toBe(1);
    for (const _ of [1, 2, 3]) expect(await store.load("Mill")).toBe(first);
    await store.list();
    expect(reads()).toBe(1);
    const changes: readonly (readonly [string, () => Promise<unknown>, readonly string[] | undefined])[] = [
      ["written to by another", () => beside.append("Mill", [done("c")]), ["a", "b", "c"]],
      ["written to by itself", () => store.append("Mill", [done("d")]), ["a", "b", "c", "d"]],
      ["erased by another", () => beside.erase("Mill", 3, "t"), undefined],
      ["made again", () => beside.create(job("Mill", [done("a")])), ["a"]],
      [
        "erased and made again with nobody looking, under the same id, revision and time",
        async () => {
          await beside.erase("Mill", 1, "t");
          await beside.create(job("Mill", [done("z")]));
        },
        ["z"],
      ],
    ];
    for (const [what, change, after] of changes) {
      const before = await mark();
      await change();
      expect(await mark(), what).not.toBe(before);
      expect(await entries(), what).toEqual(after);
    }
    await beside.close();
    if (kind === "file") await store.close();
    await close();
  });
});
it("is another one once a shop's tables were brought up to date, which may have changed every row", async ({ skip }) => {
  if (!shopIsHere) skip();
  const home = await database();
  const beside = await openHome(home, now);
  await beside.create(job("Mill", [done("a")]));
  const { db, close, mark } = counting(home);
  const before = await mark();
  await sql`insert into kysely_migration (name, timestamp) values ('9999', 'now')`.execute(db);
  expect(await mark()).not.toBe(before);
  await beside.close();
  await close();
});
inEach("what is mended, in", ({ kind, fresh }) => {
  it.runIf(kind === "file")("is read again, and so is what was changed past the program", async () => {
    const home = await fresh();
    if (home.kind !== "file") throw new Error("a file");
    const beside = await openHome(home, now);
    await beside.create(job("Mill", [done("a"), done("b")]));
    const { store, close } = counting(home);
    await store.load("Mill");
    const raw = new Database(home.path);
    raw.prepare("update entry set body_json = '{' where id = 'a'").run();
    raw.close();
    expect((await store.load("Mill"))?.unreadable).toHaveLength(1);
    await beside.close();
    await mendStore(home.path, now);
    expect((await store.load("Mill"))?.document.entries.map((e) => e.id)).toEqual(["b"]);
    await store.close();
    await close();
  });
});
