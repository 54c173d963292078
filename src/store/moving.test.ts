/** Whole stores kept, brought back, and moved from a file to a shop's database and back. */
import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { hashOfBytes } from "./archive";
import { backupStore, fileDigest } from "./backup";
import { bothHomes, shopIsHere } from "./both-homes.testdata";
import { checkHome } from "./check-home";
import { type Home, openHome } from "./home";
import { damaged, done, job, now, reading, withRaw } from "./keeping.testdata";
import { mendHome } from "./mend";
import { shopAt } from "./postgres";
import { checksumBeside, restoreStore } from "./restore";
import { migrateTables, migrationNames } from "./schema-history";
import { upgradeHome } from "./upgrade";

const { inShop, file, database, shop, folder, path } = bothHomes("moving");
const kinds = [
  { from: "a file", to: "a file", source: file, target: file, shops: false },
  { from: "a file", to: "a shop", source: file, target: database, shops: true },
  { from: "a shop", to: "a file", source: database, target: file, shops: true },
  { from: "a shop", to: "a shop", source: database, target: database, shops: true },
].filter((k) => shopIsHere || !k.shops);

const bytes = Uint8Array.from({ length: 70_000 }, (_, i) => i % 251);
const photo = { hash: hashOfBytes(bytes), name: "Ä ✓.png", media: "image/png", bytes };
/** Two jobs with all that a job can hold: entries, a reading, a file, keys of a later version, something unreadable. */
async function filled(home: Home): Promise<void> {
  const s = await openHome(home, now);
  const unreadable = [{ seq: 9, id: "x", why: "of a later kind", stored: '{"\u2028":1}' }];
  await s.create({ ...job("a", [done("e1"), reading("e2", "r"), done("e3")]), extra: { ownersMotto: "kept" }, unreadable }, [photo]);
  await s.append("a", [done("e4")], [photo]);
  await s.create(job("b", [done("e1")]), [photo]);
  await s.close();
}
const allOf = async (home: Home) => {
  const s = await openHome(home, now);
  const { jobs } = await s.list();
  const all = await Promise.all(
    jobs.map(async ({ name, updated }) => ({
      name,
      updated,
      read: (await s.load(name))!,
      stored: (await s.stored(name))!,
      files: await s.files(name),
    })),
  );
  await s.close();
  return all.sort((a, b) => a.name.localeCompare(b.name));
};

describe.each(kinds)("a backup of $from restored to $to", ({ source, target }) => {
  it("holds all of it, word for word; a second time nothing comes twice", async () => {
    const [from, to, backup] = [await source(), await target(), path()];
    await filled(from);
    expect(await backupStore(from, backup)).toBe(2);
    const counts = { jobsCount: 2, entriesCount: 5, filesCount: 2, alreadyCount: 0 };
    expect(await restoreStore(to, backup)).toEqual(counts);
    expect(await allOf(to)).toEqual(await allOf(from));
    expect(await restoreStore(to, backup)).toEqual({ jobsCount: 0, entriesCount: 0, filesCount: 0, alreadyCount: 2 });
    expect(await checkHome(to)).toMatchObject({ wrong: [], jobsCount: 2, entriesCount: 5, filesCount: 2 });
  });
  it("brings nothing where a job of that name has gone on meanwhile, and names it", async () => {
    const [from, to, backup] = [await source(), await target(), path()];
    await filled(from);
    await backupStore(from, backup);
    const s = await openHome(to, now);
    await s.create({ ...job("b"), id: "another set" });
    await s.close();
    await expect(restoreStore(to, backup)).rejects.toMatchObject({ code: "exists", message: expect.stringContaining('"b"') });
    expect((await allOf(to)).map((j) => j.name)).toEqual(["b"]);
  });
});

describe("a backup", () => {
  it("that has changed since its checksum was written, or is damaged, is refused; the store stays as it was", async () => {
    const [from, to, backup] = [file(), file(), path()];
    await filled(from);
    await backupStore(from, backup);
    writeFileSync(checksumBeside(backup), `${await fileDigest(backup)}  s.db\n`);
    expect((await restoreStore(to, backup)).jobsCount).toBe(2);
    withRaw(backup, (raw) => void raw.exec("update entry set body_json = replace(body_json, '01', '02')"));
    await expect(restoreStore(file(), backup)).rejects.toMatchObject({ issue: { code: "checksum" } });
    rmSync(checksumBeside(backup));
    const torn = readFileSync(backup);
    torn.fill(0xff, 4096, 4200);
    writeFileSync(backup, torn);
    await expect(restoreStore(to, backup)).rejects.toMatchObject({ code: "unreadable" });
    await expect(restoreStore(to, join(folder, "none.db"))).rejects.toMatchObject({ issue: { code: "missing" } });
    expect(await allOf(to)).toHaveLength(2);
  });
  it("carries along what can't be read, and is looked through and mended like any store", async () => {
    const to = shopIsHere ? await database() : file();
    await restoreStore(to, await damaged("update entry set body_json = '{' where id = 'e2'"));
    expect((await checkHome(to)).wrong.map((w) => w.what)).toEqual(["entry"]);
    if (to.kind === "shop") await expect(mendHome(to, now)).rejects.toThrow("make a backup");
  });
});

inShop("a shop's database", () => {
  it("is copied as it stands at one moment, however many write: each act is there whole", async () => {
    const home = await database();
    const s = await openHome(home, now);
    for (const name of ["a", "b", "c"]) await s.create(job(name));
    let on = true;
    const benches = ["a", "b", "c"].map(async (name) => {
      for (let i = 0; on; i++) await s.append(name, [done(`${name}${i}`), done(`${name}${i}-b`)]);
    });
    for (let i = 0; i < 5; i++) {
      const backup = path();
      await backupStore(home, backup);
      for (const { stored } of await allOf({ kind: "file", path: backup }))
        expect(stored.entries.length).toBe(2 * (Number(stored.job.revision) - 1));
    }
    on = false;
    await Promise.all(benches);
    await s.close();
  });
  it("of an earlier Fettle is copied as it was, then brought up to date for all, with every job as this version reads it", async () => {
    const home = await database();
    await shop().query(home.url, "create schema fettle");
    const { db, close } = shopAt(home.url);
    await migrateTables(db, "postgres", "0005-thread");
    const old = file();
    await filled(old);
    const raw = await openHome(old, now);
    for (const { name } of (await raw.list()).jobs) {
      const { job: head, entries } = (await raw.stored(name))!;
      await db
        .insertInto("job")
        .values(head as never)
        .execute();
      await db
        .insertInto("entry")
        .values(entries as never)
        .execute();
    }
    await raw.close();
    await expect(openHome(home)).rejects.toMatchObject({ code: "earlier" });
    const backup = path();
    expect(await backupStore(home, backup)).toBe(2);
    withRaw(backup, (r) => expect(r.prepare("select max(name) from kysely_migration").pluck().get()).toBe("0005-thread"));
    expect(await upgradeHome(home)).toEqual(migrationNames.slice(5));
    expect(await upgradeHome(home)).toEqual([]);
    expect((await allOf(home)).map((j) => j.read.document)).toEqual((await allOf(old)).map((j) => j.read.document));
    const again = file();
    await restoreStore(again, backup);
    expect((await allOf(again)).map((j) => j.name)).toEqual(["a", "b"]);
    await close();
  });
});
