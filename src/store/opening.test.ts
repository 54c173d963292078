import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterAll, describe, expect, it } from "vitest";
import { damaged, done, folder, fresh, job, now, withRaw } from "./keeping.testdata";
import { openReading, openSqlite } from "./sqlite";

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const refused = async (path: string, code: string) => {
  const before = existsSync(path) && statSync(path).isFile() ? readFileSync(path) : undefined;
  const beside = readdirSync(join(path, ".."));
  await expect(openSqlite(path, now)).rejects.toMatchObject({ name: "StoreError", code });
  if (before) expect(readFileSync(path).equals(before)).toBe(true);
  expect(readdirSync(join(path, ".."))).toEqual(beside);
};

describe("a file that is not to be opened as a store", () => {
  it("is a newer Fettle's: refused, and left as it was", async () => {
    const path = await damaged("insert into kysely_migration values ('0009-later', '2027-01-01')");
    await refused(path, "newer");
  });
  it.each([
    ["with a column renamed", "alter table job rename column title to heading", "unreadable"],
    ["with a table gone", "drop table file", "unreadable"],
    ["another program's by its mark", "pragma application_id = 7", "unreadable"],
  ])("is %s: refused, and left as it was", async (_, sql, code) => refused(await damaged(sql), code));
  it("is another program's database: refused, and left as it was", async () => {
    const path = fresh();
    withRaw(path, (raw) => raw.exec("create table job (id text); create table stamps (id text)"));
    await refused(path, "unreadable");
  });
  it("is a store that has been emptied, or a folder", async () => {
    const path = fresh();
    writeFileSync(path, "");
    await refused(path, "emptied");
    expect(statSync(path).size).toBe(0);
    mkdirSync(join(folder, "a.db"));
    await refused(join(folder, "a.db"), "unreadable");
  });
  it("is gone while its log is there", async () => {
    const path = fresh();
    writeFileSync(`${path}-wal`, "what was written last");
    await refused(path, "unreadable");
    expect(existsSync(path)).toBe(false);
  });
});

describe("what a store's files are like", () => {
  it("they and their folder are this person's alone; a folder that was there stays as it is", async () => {
    const path = join(folder, "new", "deep", "jobs.db");
    const s = await openSqlite(path, now);
    await s.create(job("a"));
    for (const f of readdirSync(join(path, ".."))) expect(statSync(join(path, "..", f)).mode & 0o777, f).toBe(0o600);
    expect(statSync(join(path, "..")).mode & 0o777).toBe(0o700);
    await s.close();
    const open = join(folder, "open");
    mkdirSync(open);
    chmodSync(open, 0o755);
    await (await openSqlite(join(open, "jobs.db"), now)).close();
    expect(statSync(open).mode & 0o777).toBe(0o755);
    expect(readdirSync(open)).toEqual(["jobs.db"]);
  });
});

describe("a store that can't be written", () => {
  it.each([false, true])(
    "is read all the same, with a log beside it: %s; writing is refused in words, and nothing of it changes",
    async (log) => {
      const path = await damaged();
      const other = log ? await openSqlite(path, now) : undefined;
      await other?.append("b", [done("late")]);
      const before = readFileSync(path);
      const s = await openReading(path, now, new Error("it may not be written here"));
      expect((await s.load("b"))!.document.entries.map((e) => e.id)).toEqual(log ? ["f1", "late"] : ["f1"]);
      const no = { name: "StoreError", code: "read-only", message: "it may not be written here" };
      await expect(s.append("b", [done("x")])).rejects.toMatchObject(no);
      await expect(s.create(job("c"))).rejects.toMatchObject(no);
      await s.close();
      expect(readFileSync(path).equals(before)).toBe(true);
      await other?.close();
    },
  );
  it("is read where nothing can be made beside it", async () => {
    const path = await damaged();
    mkdirSync(`${path}-shm`);
    const s = await openSqlite(path, now);
    expect((await s.load("b"))!.document.entries).toHaveLength(1);
    await expect(s.append("b", [done("x")])).rejects.toMatchObject({ name: "StoreError", code: "read-only" });
    await s.close();
  });
  it("waits for whoever holds it, and lets others have their turn meanwhile", async () => {
    const path = await damaged();
    const s = await openSqlite(path, now);
    const raw = new Database(path);
    raw.exec("begin immediate");
    let turns = 0;
    const turn = setInterval(() => ++turns === 4 && raw.exec("commit"), 20);
    await s.append("b", [done("waited")]);
    clearInterval(turn);
    expect(turns).toBeGreaterThanOrEqual(4);
    expect((await s.load("b"))!.document.entries).toHaveLength(2);
    raw.close();
    await s.close();
  });
});
