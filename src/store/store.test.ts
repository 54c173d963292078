import { spawn } from "node:child_process";
import { chmodSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { DummyDriver, Kysely, PostgresAdapter, PostgresIntrospector, PostgresQueryCompiler } from "kysely";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Entry } from "../job/document";
import { patterns } from "../set/patterns/kinds";
import { orThrow } from "../units/issue";
import { hashOfBytes, readArchive, writeArchive } from "./archive";
import { explainer } from "./explain";
import { repository } from "./repository";
import { openSqlite, storePath } from "./sqlite";
import type { Tables } from "./tables";

const folder = mkdtempSync(join(tmpdir(), "store-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const fresh = (() => {
  let n = 0;
  return () => join(folder, `s${++n}.db`);
})();
const job = (name: string, entries: Entry[] = []) => ({
  id: `id-${name}`,
  name,
  created: "2026-01-01T00:00:00Z",
  set: patterns[1],
  entries,
});
const done = (id: string): Entry => ({ id, at: "2026-01-02T00:00:00Z", who: "t", kind: "done", step: "01", note: "" });
/** The writer that is killed, bundled beside the sources so that it finds the libraries. */
const child = join(fileURLToPath(new URL("../..", import.meta.url)), "dist", `store-child-${process.pid}.mjs`);
beforeAll(async () => {
  await build({
    entryPoints: [fileURLToPath(new URL("store-child.testscript.ts", import.meta.url))],
    outfile: child,
    bundle: true,
    platform: "node",
    format: "esm",
    packages: "external",
    loader: { ".md": "text" },
    logLevel: "warning",
  });
});
afterAll(() => rmSync(child, { force: true }));
/** Starts a writer; resolves with what it acknowledged once it has been killed: so long after its first word, and not before it has said so many. */
const writer = (path: string, name: string, tag: string, killAfter: number, least = 1) =>
  new Promise<string[]>((resolve) => {
    const p = spawn(process.execPath, [child, path, name, tag]);
    let [text, due] = ["", false];
    const end = () => due && text.split("\n").length > least && p.kill("SIGKILL");
    p.stdout.on("data", (d) => {
      if (text === "")
        setTimeout(() => {
          due = true;
          end();
        }, killAfter);
      text += d;
      end();
    });
    p.on("close", () => resolve(text.split("\n").filter(Boolean)));
  });

describe("the store", () => {
  it("keeps a job with entries and files, and lists it", async () => {
    const s = await openSqlite(fresh());
    await s.create(job("a", [done("e1")]), [{ hash: "h", name: "n", media: "text/plain", bytes: Uint8Array.of(1, 2, 3) }]);
    expect(await s.append("a", [done("e2")])).toBe(2);
    expect((await s.load("a"))!.document.entries.map((e) => e.id)).toEqual(["e1", "e2"]);
    expect((await s.file("a", "h"))!.bytes).toEqual(Uint8Array.of(1, 2, 3));
    expect(await s.list()).toMatchObject({ jobs: [{ name: "a", title: patterns[1].title, entriesCount: 2, revision: 2 }], total: 1 });
    expect(await s.load("b")).toBeUndefined();
    await s.close();
  });
  it("finds jobs by name or title, the latest first, and counts what it leaves off", async () => {
    let n = 0;
    const s = await openSqlite(fresh(), () => `2026-01-0${++n}`);
    for (const name of ["Kitchen set", "100%_pure", "kitchen two"]) await s.create(job(name));
    expect((await s.list()).jobs.map((j) => j.name)).toEqual(["kitchen two", "100%_pure", "Kitchen set"]);
    expect(await s.list("KITCHEN", 1)).toMatchObject({ jobs: [{ name: "kitchen two" }], total: 2 });
    expect((await s.list("%_")).jobs.map((j) => j.name)).toEqual(["100%_pure"]);
    expect((await s.list(patterns[1].title.slice(4, 20))).total).toBe(3);
    expect(await s.revision("Kitchen set")).toBe(1);
    expect(await s.revision("none")).toBeUndefined();
    await s.close();
  });
  it("brings a store of before up to date, its titles read from the sets", async () => {
    const path = fresh();
    const s = await openSqlite(path);
    await s.create(job("a"));
    await s.close();
    const { default: Database } = await import("better-sqlite3");
    const raw = new Database(path);
    raw.exec(
      "drop index job_listing; drop index entry_reading; drop table aside; drop table file_aside; alter table entry drop column reading_id; alter table job drop column title; delete from kysely_migration where name > '0001-jobs'; pragma application_id = 0",
    );
    raw.close();
    const again = await openSqlite(path);
    expect((await again.list()).jobs[0].title).toBe(patterns[1].title);
    await again.close();
  });
  it("refuses a second job of a name, an unknown job and an entry id used twice, with nothing changed", async () => {
    const s = await openSqlite(fresh());
    await s.create(job("a", [done("e1")]));
    await expect(s.create({ ...job("a"), id: "other" })).rejects.toMatchObject({ code: "exists" });
    await expect(s.append("nobody", [done("x")])).rejects.toMatchObject({ code: "no-job" });
    await expect(s.append("a", [done("e2"), done("e1")])).rejects.toThrow();
    expect((await s.load("a"))!.document.entries).toHaveLength(1);
    expect((await s.load("a"))!.revision).toBe(1);
    await s.close();
  });
  it("sees what another process wrote, by its change count", async () => {
    const path = fresh();
    const [one, two] = [await openSqlite(path), await openSqlite(path)];
    await one.create(job("a"));
    const before = await two.changeCount();
    await one.append("a", [done("e1")]);
    expect(await two.changeCount()).not.toBe(before);
    expect((await two.load("a"))!.document.entries).toHaveLength(1);
    await one.close();
    await two.close();
  });
  it("says what is wrong with a file that is no store, and leaves it as it was", async () => {
    const path = fresh();
    writeFileSync(path, "this is a diary, not a store, and long enough to be one page of something else entirely ".repeat(20));
    const before = readFileSync(path);
    await expect(openSqlite(path)).rejects.toMatchObject({ code: "unreadable" });
    expect(readFileSync(path)).toEqual(before);
  });
  it("says that it is full, records nothing of what did not fit, and goes on reading", async () => {
    const s = await openSqlite(fresh(), undefined, 40);
    await s.create(job("a", [done("e1")]));
    const big = { hash: "b", name: "b", media: "m", bytes: new Uint8Array(400_000) };
    await expect(s.append("a", [done("e2")], [big])).rejects.toMatchObject({
      code: "full",
      message: expect.stringContaining("nothing was recorded"),
    });
    expect((await s.load("a"))!.document.entries.map((e) => e.id)).toEqual(["e1"]);
    expect((await s.load("a"))!.revision).toBe(1);
    await s.close();
  });
  it("says when its folder can't be made", async () => {
    const file = join(folder, "plain");
    writeFileSync(file, "");
    await expect(openSqlite(join(file, "x.db"))).rejects.toMatchObject({ code: "read-only" });
  });
  it.skipIf(process.getuid?.() === 0)("says when it can't be written (skipped as root, whom no mode stops)", async () => {
    const path = fresh();
    (await openSqlite(path)).close();
    chmodSync(path, 0o400);
    await expect(openSqlite(path)).rejects.toMatchObject({ code: "read-only" });
  });
  it("finds its file by FETTLE_STORE, else in the user's data folder", () => {
    expect(storePath({ FETTLE_STORE: "/x/y.db" })).toBe("/x/y.db");
    expect(storePath({ XDG_DATA_HOME: "/d" })).toBe("/d/fettle/jobs.db");
  });
});

describe("killed in mid-write", () => {
  it("20 times: nothing acknowledged is lost, nothing is torn, the file is whole", async () => {
    const path = fresh();
    const s = await openSqlite(path);
    await s.create(job("k"));
    let acknowledged: string[] = [];
    for (let round = 0; round < 20; round++) acknowledged = acknowledged.concat(await writer(path, "k", `r${round}`, 15 + round * 9, 6));
    expect(acknowledged.length).toBeGreaterThan(100);
    const { document } = (await s.load("k"))!;
    const ids = new Set(document.entries.map((e) => e.id));
    for (const id of acknowledged) expect(ids.has(id) && ids.has(`${id}-b`), id).toBe(true);
    expect(document.entries.length % 2).toBe(0);
    await s.close();
    const { default: Database } = await import("better-sqlite3");
    const raw = new Database(path);
    expect(raw.pragma("integrity_check", { simple: true })).toBe("ok");
    raw.close();
  });
  it("two processes at once both keep all they acknowledged", async () => {
    const path = fresh();
    const s = await openSqlite(path);
    await s.create(job("two"));
    const [a, b] = await Promise.all([writer(path, "two", "a", 900, 6), writer(path, "two", "b", 900, 6)]);
    const ids = new Set((await s.load("two"))!.document.entries.map((e) => e.id));
    expect(Math.min(a.length, b.length)).toBeGreaterThan(5);
    for (const id of [...a, ...b]) expect(ids.has(id)).toBe(true);
    await s.close();
  });
});

it("waits for another process so long by the clock, however long each try takes", async () => {
  class Held extends DummyDriver {
    override acquireConnection(): Promise<never> {
      tries++;
      return Promise.reject(Object.assign(new Error("held"), { code: "SQLITE_BUSY" }));
    }
  }
  let [tries, ms] = [0, 0];
  const dialect = {
    createAdapter: () => new PostgresAdapter(),
    createDriver: () => new Held(),
    createIntrospector: (db: Kysely<unknown>) => new PostgresIntrospector(db),
    createQueryCompiler: () => new PostgresQueryCompiler(),
  };
  const clockMs = () => {
    ms += 4000;
    return ms;
  };
  const s = repository({ db: new Kysely<Tables>({ dialect }), now: () => "", explain: explainer("x"), clockMs });
  await expect(s.list()).rejects.toMatchObject({ code: "busy" });
  expect(tries).toBe(3);
});

describe("the other dialect", () => {
  it("compiles every call of the repository for PostgreSQL", async () => {
    const said: string[] = [];
    const db = new Kysely<Tables>({
      dialect: {
        createAdapter: () => new PostgresAdapter(),
        createDriver: () => new DummyDriver(),
        createIntrospector: (d) => new PostgresIntrospector(d),
        createQueryCompiler: () => new PostgresQueryCompiler(),
      },
      log: (e) => void said.push(e.query.sql),
    });
    const s = repository({ db, now: () => "now", explain: (e) => e as Error });
    await s.list("a", 5).catch(() => undefined);
    await s.revision("a");
    await s.create(job("a", [done("e1")]), [{ hash: "h", name: "n", media: "m", bytes: new Uint8Array() }]);
    await s.append("a", [done("e2")]).catch(() => undefined);
    await s.load("a");
    await s.files("a");
    expect(said.join("\n")).toContain(
      'insert into "file" ("job_id", "hash", "name", "media", "bytes") values ($1, $2, $3, $4, $5) on conflict ("job_id", "hash") do nothing',
    );
    expect(said.join("\n")).toContain('update "job" set "revision" = "revision" + $1');
  });
});

describe("a job as a zip of open files", () => {
  const reading: Entry = {
    id: "r",
    at: "2026-01-02T00:00:00Z",
    who: "t",
    kind: "reading",
    unknownKey: "kept",
    reading: {
      id: "r1",
      as: "sweep",
      state: "as-found",
      step: "20",
      stage: "",
      instrument: "",
      thermal: "warm",
      file: { name: "a b.csv", hash: "" },
      columns: { frequencyHz: [1, 2.5, 1 / 3], levelDb: [-1e-300, 0, 7] },
      figures: [],
      warnings: [],
    },
  };
  const bytes = new TextEncoder().encode("kHz,dB\n");
  const file = { hash: hashOfBytes(bytes), name: "a b.csv", media: "text/plain", bytes };
  const document = { format: "fettle-job" as const, version: 5 as const, ...job("z", [done("e1"), reading]), ownersMotto: "kept too" };
  it("comes back equal, unknown keys and every digit included, and writes the same bytes again", () => {
    const zip = writeArchive(document, [file]);
    const back = orThrow(readArchive(zip, "z.zip"));
    expect(back.document).toEqual(document);
    expect(back.files).toEqual([file]);
    expect(writeArchive(back.document, back.files)).toEqual(zip);
  });
  it("survives the store", async () => {
    const s = await openSqlite(fresh());
    const { format: _f, version: _v, id, name, created, set, entries, ...extra } = document;
    await s.create({ id, name, created, set, entries, extra }, [file]);
    expect((await s.load("z"))!.document).toEqual(document);
    await s.close();
  });
  it.each([
    ["no zip", Uint8Array.of(1, 2, 3), "not-a-zip"],
    [
      "a damaged file",
      (() => {
        const z = writeArchive(document, [{ ...file, bytes: new TextEncoder().encode("other") }]);
        return z;
      })(),
      "damaged-file",
    ],
    ["a newer version", writeArchive({ ...document, version: 99 as never }, [file]), "newer-version"],
  ] as const)("refuses %s", (_, zip, code) => {
    const r = readArchive(zip, "z.zip");
    expect(r.ok ? "" : r.issues[0].code).toBe(code);
  });
});
