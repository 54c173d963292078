/** What is kept and how long, as a keeper says it on a page of the shop's. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { withinShop } from "./shop-app.testdata";

const folder = mkdtempSync(join(tmpdir(), "kept-page-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const within = withinShop(async () => ({ kind: "file", path: join(folder, "s.db") }), folder);

describe("a keeper's page", () => {
  it("says how long things are kept, lists what is past its time, and removes that and nothing else once it is confirmed", () =>
    within(async ({ ask, send, enter, wait, store, serving }) => {
      const { id } = await serving.keeping.links.make("Mill", 7, "Ann");
      let ann = await enter("Ann");
      expect(await (await send("/people/keep", { kind: "links", time: "soon" }, ann)).text()).toContain("such as 10 years");
      expect(await (await send("/people/keep", { kind: "links", time: "30 days" }, ann)).text()).toContain(
        "Owners&#39; links that are over</strong>: 30 days",
      );
      wait(38 * 24 * 3600_000);
      ann = await enter("Ann");
      const page = await (await ask("/people", { cookie: ann })).text();
      expect(page).toContain("Past its time, and still here");
      const [, confirm] = /name="confirm" value="(\w{8})"/.exec(page) ?? [];
      const links = async () => (await serving.keeping.links.list()).map((l) => l.id);
      const ben = await enter("Ben");
      for (const [path, fields] of [
        ["/people/clear-out", { confirm }],
        ["/people/keep", { kind: "jobs", time: "1 day" }],
      ] as const)
        expect((await send(path, fields, ben)).status).toBe(403);
      expect((await send("/people/clear-out", { confirm: "00000000" }, ann)).status).toBe(409);
      expect(await links()).toEqual([id]);
      expect(await (await send("/people/clear-out", { confirm }, ann)).text()).toContain("Removed for good");
      expect(await links()).toEqual([]);
      expect((await store.list()).total).toBe(2);
      const told = (await serving.keeping.audit.rows(2)).map((r) => `${r.who}: ${r.what}`);
      expect(told.at(-1)).toBe("Ann: owners' links that were over cleared out: 1");
    }));
});
