import { chmodSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DummyDriver, Kysely, PostgresAdapter, PostgresIntrospector, PostgresQueryCompiler } from "kysely";
import { afterAll, describe, expect, it } from "vitest";
import type { Entry } from "../job/document";
import { patterns } from "../set/patterns/kinds";
import { orThrow } from "../units/issue";
import { hashOfBytes, readArchive, writeArchive } from "./archive";
import { explainer } from "./explain";
import { done, job, withoutAccounts } from "./jobs.testdata";
import { repository } from "./repository";
import { openSqlite, storePath } from "./sqlite";
import type { Tables } from "./tables";

const folder = mkdtempSync(join(tmpdir(), "store-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const fresh = (() => {
  let n = 0;
  return () => join(folder, `s${++n}.db`);
})();

describe("the store", () => {
  it("brings a store of before up to date, its titles read from the sets", async () => {
    const path = fresh();
    const s = await openSqlite(path);
    await s.create(job("a"));
    await s.close();
    const { default: Database } = await import("better-sqlite3");
    const raw = new Database(path);
    raw.exec(withoutAccounts);
    raw.exec(
      "drop index job_listing; drop index entry_reading; drop table aside; drop table file_aside; alter table entry drop column reading_id; alter table job drop column title; delete from kysely_migration where name > '0001-jobs'; pragma application_id = 0",
    );
    raw.close();
    const again = await openSqlite(path);
    expect((await again.list()).jobs[0].title).toBe(patterns[1].title);
    await again.close();
  });
  it("says what is wrong with a file that is no store, and leaves it as it was", async () => {
    const path = fresh();
    writeFileSync(path, "this is a diary, not a store, and long enough to be one page of something else entirely ".repeat(20));
    const before = readFileSync(path);
    await expect(openSqlite(path)).rejects.toMatchObject({ code: "unreadable" });
    expect(readFileSync(path)).toEqual(before);
  });
  it("says that it is full, records nothing of what did not fit, and goes on reading", async () => {
    const s = await openSqlite(fresh(), undefined, { largestPages: 60 });
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
