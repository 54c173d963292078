import { rmSync } from "node:fs";
import { afterAll, describe, expect, it } from "vitest";
import { done, folder, fresh, job, now, withRaw } from "./keeping.testdata";
import { openSqlite } from "./sqlite";

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("a job that is opened again", () => {
  it("has only what changed read anew, whoever changed it", async () => {
    const path = fresh();
    const store = await openSqlite(path, now);
    await store.create(job("Mill", [done("a"), done("b"), done("c")]));
    const first = (await store.load("Mill"))?.document.entries ?? [];
    withRaw(path, (raw) =>
      raw.prepare("update entry set body_json = ? where id = 'b'").run(JSON.stringify({ step: "02", note: "past it" })),
    );
    const second = (await store.load("Mill"))?.document.entries ?? [];
    expect(second.map((e) => (e.kind === "done" ? e.step : ""))).toEqual(["01", "02", "01"]);
    expect([second[0] === first[0], second[2] === first[2]]).toEqual([true, true]);
    withRaw(path, (raw) => raw.exec("delete from entry where id = 'a'"));
    expect((await store.load("Mill"))?.document.entries.map((e) => e.id)).toEqual(["b", "c"]);
    await store.close();
  });
  it("is read anew where it was erased meanwhile, here or by another, though it comes back to the letter: nothing of it was held", async () => {
    const path = fresh();
    const [store, beside] = [await openSqlite(path, now), await openSqlite(path, now)];
    const first = async () => (await store.load("Mill"))?.document.entries[0];
    await store.create(job("Mill", [done("a")]));
    const one = await first();
    expect(await first()).toBe(one);
    await store.erase("Mill", 1, "t");
    await store.create(job("Mill", [done("a")]));
    const two = await first();
    expect(two).toEqual(one);
    expect(two).not.toBe(one);
    await beside.erase("Mill", 1, "t");
    expect(await first()).toBeUndefined();
    await beside.create(job("Mill", [done("a")]));
    expect(await first()).not.toBe(two);
    for (const s of [store, beside]) await s.close();
  });
});
