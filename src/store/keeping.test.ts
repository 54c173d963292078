import { chmodSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { unzipSync } from "fflate";
import { afterAll, describe, expect, it } from "vitest";
import { writtenOn } from "../job/cards";
import type { Entry } from "../job/document";
import versionOne from "../job/version-1.testdata.json";
import { viewOf } from "../job/view";
import { patterns } from "../set/patterns/kinds";
import { orThrow } from "../units/issue";
import { hashOfBytes, readArchive, writeArchive, writeStored } from "./archive";
import { backupStore } from "./backup";
import { checkStore } from "./check";
import { mendStore } from "./mend";
import { openReading, openSqlite } from "./sqlite";

const folder = mkdtempSync(join(tmpdir(), "keeping-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
let n = 0;
const fresh = () => join(folder, `s${++n}.db`);
const now = () => "2026-05-01T00:00:00.000Z";
const job = (name: string, entries: Entry[] = []) => ({ id: `id-${name}`, name, created: now(), set: patterns[0], entries });
const head = (id: string) => ({ id, at: "2026-01-02T00:00:00Z", who: "t" });
const done = (id: string): Entry => ({ ...head(id), kind: "done", step: "01", note: "" });
const reading = (id: string, of: string): Entry => ({
  ...head(id),
  kind: "reading",
  reading: {
    id: of,
    as: "table",
    state: "as-found",
    step: "10",
    stage: "",
    instrument: "",
    thermal: "warm",
    file: { name: "t.csv", hash: "" },
    columns: { "=plate V": [1, -2], grid: [3] },
    figures: [],
    warnings: [],
  },
});
const withRaw = (path: string, work: (raw: Database.Database) => void) => {
  const raw = new Database(path);
  work(raw);
  raw.close();
};
/** A store with one job of three entries, of which what is stored is damaged by hand. */
async function damaged(...sql: string[]): Promise<string> {
  const path = fresh();
  const s = await openSqlite(path, now);
  const bytes = new TextEncoder().encode("of a photograph");
  const file = { hash: hashOfBytes(bytes), name: "p.png", media: "image/png", bytes };
  await s.create(job("a", [done("e1"), reading("e2", "r"), done("e3")]), [file]);
  await s.create(job("b", [done("f1")]));
  await s.close();
  withRaw(path, (raw) => sql.forEach((line) => void raw.exec(line)));
  return path;
}
const refused = async (path: string, code: string) => {
  const before = existsSync(path) && statSync(path).isFile() ? readFileSync(path) : undefined;
  const beside = readdirSync(join(path, ".."));
  await expect(openSqlite(path, now)).rejects.toMatchObject({ name: "StoreError", code });
  if (before) expect(readFileSync(path).equals(before)).toBe(true);
  expect(readdirSync(join(path, ".."))).toEqual(beside);
};

describe("an entry that can't be read", () => {
  it.each([
    ["is no JSON", `update entry set body_json = '{"step' where id = 'e2'`],
    ["is another thing", `update entry set body_json = '[1]' where id = 'e2'`],
    ["lacks what it must have", `update entry set kind = 'done', body_json = '{"note":""}' where id = 'e2'`],
    ["holds no number where one must be", `update entry set body_json = replace(body_json, '[1,-2]', '[1,null]') where id = 'e2'`],
    ["is of no kind", `update entry set kind = 'toString' where id = 'e2'`],
  ])("is named where it %s, and hides none of the others; an export keeps it, and brings it back", async (_, sql) => {
    const s = await openSqlite(await damaged(sql), now);
    const { document, unreadable } = (await s.load("a"))!;
    expect(document.entries.map((e) => e.id)).toEqual(["e1", "e3"]);
    expect(unreadable).toMatchObject([{ seq: 2, id: "e2", why: expect.stringMatching(/expected/) }]);
    const zip = writeArchive(document, await s.files("a"), unreadable);
    expect(JSON.parse(Buffer.from(unzipSync(zip)["unreadable.json"]).toString())).toEqual(unreadable);
    const back = orThrow(readArchive(zip, "a.zip"));
    expect(back.document).toEqual(document);
    const { format: _f, version: _v, ...rest } = back.document;
    await s.create({ ...rest, id: "again", name: "again", unreadable: back.unreadable });
    expect((await s.load("again"))!.unreadable).toEqual(unreadable);
    await s.close();
  });
  it("is never written: a figure that is none, a name that is empty, a description that is no set", async () => {
    const s = await openSqlite(fresh(), now);
    await s.create(job("a"));
    const bad = [
      { ...reading("x", "r"), reading: { ...(reading("x", "r") as { reading: object }).reading, columns: { a: [Number.NaN] } } },
      { ...done("y"), id: "" },
      { ...done("z"), at: "yesterday" },
      { ...done("w"), step: undefined },
    ] as Entry[];
    for (const e of bad) await expect(s.append("a", [done("ok"), e])).rejects.toMatchObject({ name: "InputError" });
    await expect(s.create({ ...job("c"), set: { ...patterns[0], line: 5 } as never })).rejects.toMatchObject({ name: "InputError" });
    expect((await s.load("a"))!.document.entries).toEqual([]);
    expect((await s.list()).total).toBe(1);
    await s.close();
  });
  it("may be the description itself: that is said, the other jobs are there, and an export keeps it word for word", async () => {
    const s = await openSqlite(await damaged(`update job set set_json = '{"title":' where name = 'a'`), now);
    await expect(s.load("a")).rejects.toMatchObject({ code: "unreadable", message: expect.stringContaining("description") });
    expect((await s.load("b"))!.document.entries).toHaveLength(1);
    const zip = unzipSync(writeStored((await s.stored("a"))!, await s.files("a")));
    const stored = JSON.parse(Buffer.from(zip["stored.json"]).toString());
    expect(stored.job.set_json).toBe('{"title":');
    expect(stored.entries).toHaveLength(3);
    await s.close();
  });
});

describe("readings", () => {
  it("have ids of their own: a second one of an id is refused, with nothing changed", async () => {
    const s = await openSqlite(fresh(), now);
    await s.create(job("a", [reading("e1", "r")]));
    await expect(s.append("a", [done("e2"), reading("e3", "r")])).rejects.toMatchObject({ code: "conflict" });
    expect((await s.load("a"))!.document.entries).toHaveLength(1);
    await s.close();
  });
  it("go into a file each and come back each, whatever their ids and headings", () => {
    const document = {
      format: "fettle-job" as const,
      version: 2 as const,
      ...job("a", [reading("e1", "r/1"), reading("e2", "r 1"), reading("e3", "__proto__")]),
    };
    const zip = writeArchive(document, []);
    const parts = unzipSync(zip);
    expect(Object.keys(parts).filter((p) => p.endsWith(".csv"))).toHaveLength(3);
    expect(Buffer.from(parts["readings/r_1.csv"]).toString()).toBe("'=plate V,grid\n1,3\n-2,\n");
    expect(orThrow(readArchive(zip, "a.zip")).document).toEqual(document);
  });
});

describe("a store of version 1", () => {
  it("is brought up to date: cards read as before, readings of one id are told apart", async () => {
    const path = fresh();
    await (await openSqlite(path, now)).close();
    withRaw(path, (raw) => {
      raw.exec(
        "drop index job_listing; drop index entry_reading; drop table aside; drop table file_aside; alter table entry drop column reading_id; create index job_list on job (updated); delete from kysely_migration where name = '0003-own-ids'; pragma application_id = 0",
      );
      const { id, name, created, set, entries } = versionOne;
      const row = raw.prepare("insert into job values (?, ?, ?, ?, 1, ?, ?, '{}', ?)");
      row.run(id, name, created, created, entries.length + 1, JSON.stringify(set), set.title);
      for (const [i, { id: own, kind, at, who, ...body }] of entries.entries())
        raw.prepare("insert into entry values (?, ?, ?, ?, ?, ?, ?)").run(id, i + 1, own, kind, at, who, JSON.stringify(body));
      raw.prepare("insert into entry values (?, 99, 'bad', 'form', '', '', '{')").run(id);
    });
    const s = await openSqlite(path, now);
    const { document, unreadable } = (await s.load(versionOne.name))!;
    const view = viewOf(document);
    expect(unreadable.map((u) => u.id)).toEqual(["bad"]);
    expect(writtenOn(view, "intake")).toEqual({ Owner: "a miller", Condition: "dusty" });
    expect(new Set(view.readings.map((r) => r.id)).size).toBe(2);
    expect(view.estimates.size).toBe(2);
    await s.close();
    expect(readFileSync(path).subarray(68, 72).toString()).toBe("FTTL");
  });
});

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

describe("looked through and mended", () => {
  it("finds nothing wrong with a sound store", async () => {
    const looked = checkStore(await damaged());
    expect(looked).toEqual({ wrong: [], jobsCount: 2, entriesCount: 4, filesCount: 1, asideCount: 0 });
  });
  it("names what is wrong, sets it aside, deletes nothing, and leaves the rest as it was", async () => {
    const path = await damaged("update entry set body_json = '{' where id = 'e2'", "update file set bytes = x'00'");
    expect(checkStore(path).wrong.map((w) => w.what)).toEqual(["entry", "file"]);
    const { setAside, after } = await mendStore(path, now);
    expect(setAside).toHaveLength(2);
    expect(after).toMatchObject({ wrong: [], entriesCount: 3, filesCount: 0, asideCount: 2 });
    const s = await openSqlite(path, now);
    const { document, unreadable } = (await s.load("a"))!;
    expect(document.entries.map((e) => e.id)).toEqual(["e1", "e3"]);
    expect(unreadable).toMatchObject([{ seq: 2, id: "e2", stored: expect.stringContaining('"body_json":"{"') }]);
    await s.close();
    withRaw(path, (raw) => expect(raw.prepare("select hex(bytes) from file_aside").pluck().get()).toBe("00"));
  });
  it("mends an index that has lost its rows", async () => {
    const path = await damaged();
    withRaw(path, (raw) => {
      raw.unsafeMode();
      raw.pragma("writable_schema = on");
      raw.exec("update sqlite_schema set sql = replace(sql, '\"next_seq\", ', '') where name = 'job_listing'");
    });
    expect(checkStore(path).wrong.map((w) => w.what)).toContain("database");
    expect((await mendStore(path, now)).after.wrong).toEqual([]);
  });
  it("says that there is none", () => expect(() => checkStore(fresh())).toThrow("no store"));
});

describe("a backup", () => {
  it("is whole, while others write, and opens as a store", async () => {
    const path = await damaged();
    const s = await openSqlite(path, now);
    await s.append("b", [done("in the log")]);
    const to = fresh();
    expect(await backupStore(path, to)).toBe(2);
    const copy = await openSqlite(to, now);
    expect((await copy.load("b"))!.document.entries.map((e) => e.id)).toEqual(["f1", "in the log"]);
    expect((await copy.files("a")).map((f) => f.name)).toEqual(["p.png"]);
    await Promise.all([copy.close(), s.close()]);
  });
  it("is not made of a damaged store, but for mending", async () => {
    const path = await damaged();
    const bytes = readFileSync(path);
    bytes.fill(0xff, bytes.length - 4096 + 8, bytes.length - 4000);
    writeFileSync(path, bytes);
    await expect(backupStore(path, fresh())).rejects.toMatchObject({ code: "unreadable" });
  });
});
