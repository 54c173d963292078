/** Two pages' servers on one shop's database: what one records the other sees within a second, and what is cut off is recorded once. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { demoSet } from "../../desk/demo";
import { type Home, openHome } from "../../store/home";
import { type Shop, serverPrograms, startShop } from "../../store/shop.testdata";
import { type Running, startServer } from "./listen";

const skip = serverPrograms === undefined;
let [shop, home]: [Shop | undefined, Home | undefined] = [undefined, undefined];
let benches: Running[] = [];
beforeAll(async () => {
  if (skip) return;
  shop = await startShop();
  home = { kind: "shop", url: await shop.database() };
  const store = await openHome(home);
  await store.create({ id: "d", name: "Set", created: "2026-02-01T00:00:00.000Z", set: demoSet(), entries: [] });
  await store.close();
  for (const who of ["ann", "ben"]) {
    process.env.FETTLE_WHO = who;
    benches.push(await startServer(home, 0));
  }
  delete process.env.FETTLE_WHO;
});
afterAll(async () => {
  await Promise.all(benches.map((b) => b.close()));
  benches = [];
  await shop?.end();
});
const entries = async () => {
  const store = await openHome(home!);
  const { document } = (await store.load("Set"))!;
  await store.close();
  return document.entries;
};
const post = (bench: number, path: string, body: unknown, heads: Readonly<Record<string, string>> = {}) =>
  fetch(`${benches[bench].url}api/jobs/Set/${path}`, {
    method: "POST",
    headers: { "x-fettle": "page", "content-type": "application/json", ...heads },
    body: JSON.stringify(body),
  });
const step = (note: string) => ({ step: "01", note });
const line = (text: string) => ({ values: [{ path: "line.today", text }], origin: "measured", why: "" });

describe.skipIf(skip)("two servers on one shop's database (skipped where PostgreSQL is not installed)", () => {
  it("tell each other's pages what was recorded", async () => {
    const stop = new AbortController();
    const events = await fetch(`${benches[1].url}api/events`, { signal: stop.signal });
    const reader = events.body!.getReader();
    await reader.read();
    await post(0, "done", step("seen elsewhere"));
    const { value } = await reader.read();
    expect(new TextDecoder().decode(value)).toContain("event: change");
    const seen = await (await fetch(`${benches[1].url}api/jobs/Set`)).json();
    expect(seen.document.entries.at(-1)).toMatchObject({ note: "seen elsewhere", who: "ann" });
    stop.abort();
  });
  it("record a request once, however often it is sent", async () => {
    const before = (await entries()).length;
    for (let i = 0; i < 3; i++) expect((await post(0, "done", step("sent again"), { "x-request": "r-1" })).status).toBe(200);
    expect((await entries()).length).toBe(before + 1);
    await post(0, "done", step("another"), { "x-request": "r-2" });
    await post(1, "done", step("by another"), { "x-request": "r-2" });
    expect((await entries()).length).toBe(before + 3);
  });
  it("keep both of two values written past each other, name them on both, and take a person's word for which is right", async () => {
    const seen = (await entries()).at(-1)!.id;
    for (const [bench, volts] of ["117 V", "121 V"].entries()) await post(bench, "values", line(volts), { "x-seen": seen });
    const { crossed } = await (await post(0, "settle", {})).json();
    expect(crossed).toMatchObject([{ key: "line.today", claims: [{ who: "ann" }, { who: "ben" }] }]);
    const no = await post(1, "settle", { place: "line.today", take: "nobody" });
    expect([no.status, (await no.json()).issues[0].path]).toEqual([400, "id of the entry that is right"]);
    const { says } = await (await post(1, "settle", { place: "line.today", take: crossed[0].claims[0].entry })).json();
    expect(says).toMatch(/117.*ann.*121.*ben.*history/);
    expect(await (await post(1, "settle", {})).json()).toEqual({ crossed: [] });
    const values = (await entries()).filter((e) => e.kind === "values");
    expect(values.map((e) => e.values["line.today"].value)).toEqual([117, 121, 117]);
    expect((await post(0, "settle", { place: "line.today", take: "x" })).status).toBe(400);
    const store = await openHome(home!);
    const told = await store.keeping().audit.rows(10);
    await store.close();
    expect(told.map((r) => [r.who, r.what, r.about])).toEqual([["ben", "settled: line.today", "Set"]]);
  });
  it("lose nothing and double nothing while the database is killed again and again", async () => {
    const before = (await entries()).length;
    let [on, n] = [true, 0];
    const sent: string[][] = [[], []];
    const writing = [0, 1].map(async (bench) => {
      while (on) {
        const note = `${bench}-${n++}`;
        // sent until it is acknowledged, as the page does it
        for (;;) {
          const r = await post(bench, "done", step(note), { "x-request": note });
          if (r.ok) break;
          expect(r.status).toBeLessThan(500);
        }
        sent[bench].push(note);
      }
    });
    for (let round = 0; round < 4; round++) {
      const from = n;
      while (n < from + 8) await new Promise((r) => setTimeout(r, 10));
      await shop!.kill();
      await new Promise((r) => setTimeout(r, 200));
      await shop!.start();
    }
    on = false;
    await Promise.all(writing);
    const notes = (await entries()).slice(before).flatMap((e) => (e.kind === "done" ? [e.note] : []));
    expect(notes.length).toBe(sent[0].length + sent[1].length);
    for (const bench of [0, 1]) expect(notes.filter((t) => t.startsWith(`${bench}-`))).toEqual(sent[bench]);
  });
});
