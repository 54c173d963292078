/** Bytes of files, kept once by what they are, in both homes. */
import Database from "better-sqlite3";
import { sql } from "kysely";
import { expect, it } from "vitest";
import { hashOfBytes } from "./archive";
import { backupStore } from "./backup";
import { bothHomes } from "./both-homes.testdata";
import { checkHome } from "./check-home";
import { putAsBefore } from "./content";
import { type Home, openHome } from "./home";
import { done, job } from "./jobs.testdata";
import { mendStore } from "./mend";
import { shopAt } from "./postgres";
import { restoreStore } from "./restore";
import { migrateTables, migrationNames } from "./schema-history";
import { kyselyOf } from "./sqlite";
import type { JobStore } from "./store";
import { upgradeHome } from "./upgrade";

const { inEach, inShop, database, shop, path } = bothHomes("content");
const now = () => "2026-05-01T00:00:00.000Z";

const fileOf = (said: string, name = "p.png") => {
  const bytes = new TextEncoder().encode(said);
  return { hash: hashOfBytes(bytes), name, media: "image/png", bytes };
};
/** The tables themselves, asked past the store. */
function tablesOf(home: Home) {
  if (home.kind === "shop") return shopAt(home.url);
  const db = kyselyOf(new Database(home.path));
  return { db, close: () => db.destroy() };
}
async function asked<T>(home: Home, work: (db: ReturnType<typeof tablesOf>["db"]) => Promise<T>): Promise<T> {
  const { db, close } = tablesOf(home);
  return work(db).finally(close);
}
const keptCount = (home: Home): Promise<number> =>
  asked(home, async (db) => (await db.selectFrom("content").select("sha256").execute()).length);
const within = async (home: Home, work: (s: JobStore) => Promise<void>) => {
  const s = await openHome(home, now);
  return work(s).finally(() => s.close());
};

inEach("a photograph of several jobs in", ({ kind, fresh }) => {
  it("is kept once, whatever it is called in each; erasing one job leaves the others theirs, erasing the last one takes it out", async () => {
    const home = await fresh();
    await within(home, async (s) => {
      await s.create(job("one"), [fileOf("shared"), fileOf("its own")]);
      await s.create(job("two"), [fileOf("shared", "chassis.png")]);
      await s.append("two", [done("e1")], [fileOf("shared"), fileOf("another")]);
      await s.create(job("three"));
      await s.append("three", [done("e1")], [fileOf("shared")]);
      expect(await keptCount(home)).toBe(3);
      expect(await s.erase("one", 1, "t")).toMatchObject({ filesCount: 2, alsoIn: ["three", "two"] });
      expect(await keptCount(home)).toBe(2);
      expect(await s.file("two", fileOf("shared").hash)).toEqual(fileOf("shared", "chassis.png"));
      await s.erase("two", 2, "t");
      expect(await s.files("three")).toEqual([fileOf("shared")]);
      await s.erase("three", 2, "t");
      expect(await keptCount(home)).toBe(0);
    });
  });
  it("is mended for all of them where its bytes were damaged and somebody brings it again; else each sets its copy aside", async () => {
    const home = await fresh();
    await within(home, async (s) => {
      for (const name of ["one", "two"]) await s.create(job(name), [fileOf("shared")]);
      await asked(home, (db) =>
        db
          .updateTable("content")
          .set({ bytes: Uint8Array.of(0) })
          .execute(),
      );
      expect((await checkHome(home)).wrong.map((w) => `${w.job} ${w.what}`)).toEqual(["one file", "two file"]);
      await s.append("two", [done("e1")], [fileOf("shared")]);
      expect(await s.files("one")).toEqual([fileOf("shared")]);
      expect((await checkHome(home)).wrong).toEqual([]);
      await asked(home, (db) =>
        db
          .updateTable("content")
          .set({ bytes: Uint8Array.of(0) })
          .execute(),
      );
    });
    if (home.kind !== "file") return;
    expect(await mendStore(home.path, now)).toMatchObject({ after: { wrong: [], asideCount: 2 } });
    expect(await keptCount(home)).toBe(0);
  });
  it("goes along whole with a backup, is compared there, and is kept once where it is restored", async () => {
    const [home, to, backup] = [await fresh(), await fresh(), path()];
    await within(home, async (s) => {
      for (const name of ["one", "two"]) await s.create(job(name), [fileOf("shared"), fileOf(name)]);
    });
    await backupStore(home, backup);
    expect(await keptCount({ kind: "file", path: backup })).toBe(3);
    expect(await restoreStore(to, backup)).toMatchObject({ jobsCount: 2, filesCount: 4 });
    expect(await keptCount(to)).toBe(3);
    await within(to, async (s) => expect((await s.files("two")).map((f) => f.bytes)).toContainEqual(fileOf("shared").bytes));
  });
  it("of a store of the version before comes along, kept once; what was damaged stays as it was and is told", async () => {
    const home = kind === "shop" ? await database() : await fresh();
    if (home.kind === "shop") await shop().query(home.url, "create schema fettle");
    await asked(home, async (db) => {
      await migrateTables(db, home.kind === "shop" ? "postgres" : "sqlite", "0007-accounts");
      for (const name of ["one", "two"]) {
        const head = { id: name, name, created: now(), updated: now(), revision: 1, next_seq: 1, title: "", extra_json: "{}" };
        await db
          .insertInto("job")
          .values({ ...head, set_json: JSON.stringify(job(name).set) })
          .execute();
        const damaged = { ...fileOf(`damaged in ${name}`), bytes: Uint8Array.of(1, 2) };
        await db.transaction().execute(async (tx) => {
          for (const f of [fileOf("shared", `${name}.png`), fileOf(`of ${name}`), damaged]) await putAsBefore(tx, { job_id: name, ...f });
        });
      }
    });
    const backup = path();
    if (home.kind === "shop") {
      await backupStore(home, backup);
      expect(await upgradeHome(home)).toEqual(migrationNames.slice(migrationNames.indexOf("0008-content")));
    }
    await within(home, async (s) => {
      expect(await s.file("two", fileOf("shared").hash)).toEqual(fileOf("shared", "two.png"));
      expect(await s.file("one", fileOf("of one").hash)).toEqual(fileOf("of one"));
      expect((await s.file("one", fileOf("damaged in one").hash))?.bytes).toEqual(Uint8Array.of(1, 2));
    });
    // the shared one, two of one job each, and the two damaged ones, which hold the same now
    expect(await keptCount(home)).toBe(4);
    expect((await checkHome(home)).wrong.map((w) => `${w.job} ${w.what}`)).toEqual(["one file", "two file"]);
    if (home.kind === "file") return;
    const to = await fresh();
    expect(await restoreStore(to, backup)).toMatchObject({ jobsCount: 2, filesCount: 6 });
    expect(await keptCount(to)).toBe(4);
  });
});

inShop("a shop's database", () => {
  it("keeps a photograph that one bench takes into a job at the moment when another erases the only job that had it", async () => {
    const home = await database();
    const [ann, ben] = [await openHome(home, now), await openHome(home, now)];
    await ben.create(job("stays"));
    for (let i = 0; i < 40; i++) {
      const photograph = fileOf(`taken ${i}`);
      await ann.create(job(`goes ${i}`), [photograph]);
      await Promise.all([ann.erase(`goes ${i}`, 1, "t"), ben.append("stays", [done(`e${i}`)], [photograph])]);
      expect(await ben.file("stays", photograph.hash)).toEqual(photograph);
    }
    expect(await keptCount(home)).toBe(40);
    await Promise.all([ann.close(), ben.close()]);
  });
  it("refuses to lose bytes that a file points at, whoever asks", async () => {
    const home = await database();
    await within(home, (s) => s.create(job("a"), [fileOf("held")]));
    await asked(home, (db) => expect(sql`delete from content`.execute(db)).rejects.toThrow("file"));
  });
});
