import { readdirSync, readFileSync, rmSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import Database from "better-sqlite3";
import { afterAll, describe, expect, it } from "vitest";
import type { Entry } from "../job/document";
import { hashOfBytes } from "./archive";
import { folder, fresh, job, now } from "./keeping.testdata";
import { openSqlite } from "./sqlite";
import { columnsKnown } from "./tables";

afterAll(() => rmSync(folder, { recursive: true, force: true }));
const owner = "Owner Who Wants To Be Gone";
const card = (id: string): Entry => ({ id, at: now(), who: "t", kind: "form", form: "intake", fields: { Owner: owner } });
const photograph = (said: string) => {
  const bytes = new TextEncoder().encode(`${said}, ${owner}`);
  return { hash: hashOfBytes(bytes), name: "p.png", media: "image/png", bytes };
};
/** Whether a text stands anywhere in the store's files, its log among them. */
const holds = (path: string, text: string): boolean =>
  readdirSync(dirname(path))
    .filter((f) => f.startsWith(basename(path)))
    .some((f) => readFileSync(join(dirname(path), f)).includes(text));
const rowsOf = (path: string, jobId: string): number => {
  const raw = new Database(path, { readonly: true });
  const count = (table: string, column: string) =>
    raw.prepare(`select count(*) from ${table} where ${column} = ?`).pluck().get(jobId) as number;
  const all = Object.entries(columnsKnown)
    .filter(([, columns]) => columns.some((c) => c === "job_id" || c === "next_seq"))
    .map(([t]) => t)
    .map((t) => count(t, t === "job" ? "id" : "job_id"));
  raw.close();
  return all.reduce((a, b) => a + b, 0);
};

describe("a job that is erased", () => {
  it("is gone with all that belongs to it, out of every table and out of the files themselves", async () => {
    const path = fresh();
    const s = await openSqlite(path, now);
    const aside = [{ seq: 9, id: "x", why: "torn", stored: owner }];
    await s.create({ ...job("gone", [card("e1"), card("e2")]), unreadable: aside }, [photograph("one"), photograph("two")]);
    await s.append("gone", [card("e3")]);
    await s.create(job("stays"), [photograph("three")]);
    expect(holds(path, owner)).toBe(true);
    expect(rowsOf(path, "id-gone")).toBe(7);
    expect(await s.erase("gone", 2, "t")).toEqual({ entriesCount: 3, filesCount: 2, alsoIn: [], tracesLeft: false });
    expect(rowsOf(path, "id-gone")).toBe(0);
    expect((await s.list()).jobs.map((j) => j.name)).toEqual(["stays"]);
    expect(await s.files("stays")).toHaveLength(1);
    expect(await s.erase("stays", 1, "t")).toMatchObject({ filesCount: 1 });
    expect(holds(path, owner)).toBe(false);
    await s.close();
  });
  it("leaves others their own photograph of the same bytes, and says so", async () => {
    const s = await openSqlite(fresh(), now);
    for (const name of ["one", "two"]) await s.create(job(name), [photograph("shared")]);
    expect(await s.erase("one", 1, "t")).toMatchObject({ filesCount: 1, alsoIn: ["two"] });
    expect((await s.file("two", photograph("shared").hash))?.bytes).toEqual(photograph("shared").bytes);
    await s.close();
  });
  it("stays as it is where it has changed since it was looked at, or is not there", async () => {
    const s = await openSqlite(fresh(), now);
    await s.create(job("a"));
    await s.append("a", [card("e1")]);
    await expect(s.erase("a", 1, "t")).rejects.toMatchObject({ code: "conflict" });
    expect((await s.load("a"))?.document.entries).toHaveLength(1);
    expect(await s.revision("a")).toBe(2);
    await expect(s.erase("b", 1, "t")).rejects.toMatchObject({ code: "no-job" });
    await s.close();
  });
  it("says where traces may be left, since another reads the store at that moment", async () => {
    const path = fresh();
    const s = await openSqlite(path, now);
    await s.create(job("a", [card("e1")]));
    const other = new Database(path);
    other.exec("begin; select count(*) from job");
    expect(await s.erase("a", 1, "t")).toMatchObject({ tracesLeft: true });
    other.close();
    await s.close();
    expect(holds(path, owner)).toBe(false);
  });
});
