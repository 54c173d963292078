/** A store of an earlier Fettle is copied before it is brought up to date: whole, beside it, told once, whatever comes of the rest. */
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import Database from "better-sqlite3";
import { afterAll, describe, expect, it } from "vitest";
import { withBytesOfTheirOwn } from "./jobs.testdata";
import { done, folder, fresh, job, now, withRaw } from "./keeping.testdata";
import { openSqlite } from "./sqlite";

afterAll(() => rmSync(folder, { recursive: true, force: true }));
/** A store of an earlier Fettle, with one job. */
async function earlier(path = fresh()): Promise<string> {
  const s = await openSqlite(path, now);
  await s.create(job("Mill", [done("a"), done("b")]));
  await s.close();
  withRaw(path, (raw) => raw.exec(withBytesOfTheirOwn));
  return path;
}
const copiesOf = (path: string): string[] => {
  const stem = basename(path, ".db");
  return readdirSync(folder).filter((f) => f.startsWith(stem) && f !== basename(path) && !/-(wal|shm)$/.test(f));
};
/** All rows of the tables that hold a job's work, and the steps that were done. */
function rowsIn(path: string): unknown {
  const raw = new Database(path, { readonly: true });
  const rows = ["job", "entry", "file", "kysely_migration"].map((t) => raw.prepare(`select * from ${t} order by 1, 2`).all());
  const sound = raw.pragma("integrity_check", { simple: true });
  raw.close();
  return [rows, sound];
}

describe("a store of an earlier Fettle", () => {
  it("is copied beside it as it was, told once in words with where; a store that is up to date is not", async () => {
    const path = await earlier();
    const before = rowsIn(path);
    const told: string[] = [];
    const open = () => openSqlite(path, now, { tell: (said) => told.push(said) });
    const s = await open();
    expect((await s.load("Mill"))?.document.entries).toHaveLength(2);
    await s.close();
    await (await open()).close();
    const [copy, ...more] = copiesOf(path);
    expect(more).toEqual([]);
    expect(copy).toBe(`${basename(path, ".db")}-before-update-2026-05-01T00-00-00.db`);
    expect(rowsIn(join(folder, copy))).toEqual(before);
    expect(told).toEqual([expect.stringContaining(join(folder, copy))]);
  });
  it("is whole in its copy where the update breaks midway, and whole itself", async () => {
    const path = await earlier();
    // a step after the first of those that are to be done can't be done
    withRaw(path, (raw) => raw.exec("create table made (x text)"));
    const before = rowsIn(path);
    await expect(openSqlite(path, now)).rejects.toThrow();
    expect(rowsIn(path)).toEqual(before);
    const copies = copiesOf(path);
    expect(copies).toHaveLength(1);
    expect(rowsIn(join(folder, copies[0]))).toEqual(before);
    // once what was in its way is gone
    withRaw(path, (raw) => raw.exec("drop table made"));
    const s = await openSqlite(path, now);
    expect((await s.load("Mill"))?.document.entries).toHaveLength(2);
    await s.close();
  });
  it("stays as it was where it can't be copied: it is read, and says why nothing is recorded", async () => {
    const path = await earlier();
    const before = readFileSync(path);
    const inTheWay = join(folder, `${basename(path, ".db")}-before-update-2026-05-01T00-00-00.db-${process.pid}.part`);
    mkdirSync(inTheWay);
    const told: string[] = [];
    const s = await openSqlite(path, now, { tell: (said) => told.push(said) });
    expect((await s.load("Mill"))?.document.entries).toHaveLength(2);
    await expect(s.append("Mill", [done("c")])).rejects.toThrow(
      /earlier Fettle, and is copied before it is brought up to date.*Nothing was changed/,
    );
    await s.close();
    expect(readFileSync(path).equals(before)).toBe(true);
    expect(told).toEqual([]);
  });
  it("leaves no more than two copies, the latest, however often one is put back", async () => {
    const path = await earlier();
    const old = readFileSync(path);
    const at = (d: number) => () => `2026-05-0${d}T00:00:00.000Z`;
    for (const d of [1, 2, 2, 3]) {
      for (const end of ["", "-wal", "-shm"]) rmSync(`${path}${end}`, { force: true });
      writeFileSync(path, old);
      await (await openSqlite(path, at(d))).close();
    }
    const stem = `${basename(path, ".db")}-before-update-2026-05-0`;
    expect(copiesOf(path).sort()).toEqual([`${stem}2T00-00-00-2.db`, `${stem}3T00-00-00.db`]);
  });
});
