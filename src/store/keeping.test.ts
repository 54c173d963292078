import { readFileSync, rmSync } from "node:fs";
import { unzipSync, zipSync } from "fflate";
import { afterAll, describe, expect, it } from "vitest";
import { writtenOn } from "../job/cards";
import type { Entry } from "../job/document";
import { readJob } from "../job/read-job";
import versionOne from "../job/version-1.testdata.json";
import versionTwo from "../job/version-2.testdata.json";
import versionFour from "../job/version-4.testdata.json";
import { viewOf } from "../job/view";
import { patterns } from "../set/patterns/kinds";
import { orThrow } from "../units/issue";
import { readArchive, writeArchive, writeStored } from "./archive";
import { withoutAccounts } from "./jobs.testdata";
import { damaged, done, folder, fresh, job, now, reading, withRaw } from "./keeping.testdata";
import { openSqlite } from "./sqlite";

afterAll(() => rmSync(folder, { recursive: true, force: true }));

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
      version: 5 as const,
      ...job("a", [reading("e1", "r/1"), reading("e2", "r 1"), reading("e3", "__proto__")]),
    };
    const zip = writeArchive(document, []);
    const parts = unzipSync(zip);
    expect(Object.keys(parts).filter((p) => p.endsWith(".csv"))).toHaveLength(3);
    expect(Buffer.from(parts["readings/r_1.csv"]).toString()).toBe("'=plate V,grid\n1,3\n-2,\n");
    expect(orThrow(readArchive(zip, "a.zip")).document).toEqual(document);
  });
});

describe("a zip from elsewhere", () => {
  it("that is nested 5,000 deep is refused in a line", () => {
    const deep = `${'{"a":'.repeat(5000)}1${"}".repeat(5000)}`;
    for (const text of [deep, `[${deep}]`, `{"format":"fettle-job","version":2,"entries":[${deep}]}`]) {
      const r = readArchive(zipSync({ "job.json": new TextEncoder().encode(text) }), "deep.zip");
      expect(r.ok ? [] : r.issues.map((i) => i.code)).toEqual(["too-deep"]);
    }
  });
});

describe("a store of version 1", () => {
  it("is brought up to date: cards read as before, readings of one id are told apart", async () => {
    const path = fresh();
    await (await openSqlite(path, now)).close();
    withRaw(path, (raw) => {
      raw.exec(withoutAccounts);
      raw.exec(
        "drop index job_listing; drop index entry_reading; drop table aside; drop table file_aside; alter table entry drop column reading_id; create index job_list on job (updated); delete from kysely_migration where name >= '0003'; pragma application_id = 0",
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
describe("a store of an earlier version", () => {
  it.each([
    ["2: values at their new addresses, rows as rows, a fit by its name", versionTwo, "0004"],
    ["4: a bulb by its one name", versionFour, "0006"],
  ] as const)("is brought up to date from %s", async (_, stored, firstMissing) => {
    const path = fresh();
    await (await openSqlite(path, now)).close();
    withRaw(path, (raw) => {
      raw.exec(withoutAccounts);
      raw.prepare("delete from kysely_migration where name >= ?").run(firstMissing);
      const { id, name, created, set, entries } = stored;
      const row = raw.prepare("insert into job values (?, ?, ?, ?, 1, ?, ?, '{}', ?)");
      row.run(id, name, created, created, entries.length + 1, JSON.stringify(set), set.title);
      for (const [i, { id: own, kind, at, who, ...body }] of entries.entries())
        raw
          .prepare("insert into entry (job_id, seq, id, kind, at, who, body_json) values (?, ?, ?, ?, ?, ?, ?)")
          .run(id, i + 1, own, kind, at, who, JSON.stringify(body));
    });
    const s = await openSqlite(path, now);
    const { document, unreadable } = (await s.load(stored.name))!;
    expect(unreadable).toEqual([]);
    expect(document).toEqual(orThrow(readJob(structuredClone(stored))).document);
    await s.close();
  });
});
