import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { afterAll, describe, expect, it } from "vitest";
import { backupStore } from "./backup";
import { checkStore } from "./check";
import { damaged, done, folder, fresh, now, withRaw } from "./keeping.testdata";
import { mendStore } from "./mend";
import { openSqlite } from "./sqlite";

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("looked through and mended", () => {
  it("finds nothing wrong with a sound store", async () => {
    const looked = checkStore(await damaged());
    expect(looked).toEqual({ wrong: [], jobsCount: 2, entriesCount: 4, filesCount: 1, asideCount: 0 });
  });
  it("names what is wrong, sets it aside, deletes nothing, and leaves the rest as it was", async () => {
    const path = await damaged("update entry set body_json = '{' where id = 'e2'", "update content set bytes = x'00'");
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
    expect(await backupStore({ kind: "file", path }, to)).toBe(2);
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
    await expect(backupStore({ kind: "file", path }, fresh())).rejects.toMatchObject({ code: "unreadable" });
  });
});
