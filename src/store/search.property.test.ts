/** A search that looks into those jobs alone that may hold a text finds what the plain way finds: every entry of every job looked through, on both homes. */
import fc from "fast-check";
import { expect, it } from "vitest";
import { demoSet } from "../desk/demo";
import type { Entry } from "../job/document";
import { bothHomes } from "./both-homes.testdata";
import { openHome } from "./home";
import type { JobStore } from "./store";

const { inEach } = bothHomes("search");
let n = 0;
const day = (d: number): string => `2026-01-${String(d).padStart(2, "0")}T00:00:00.000Z`;
const noted = (d: number, note: string): Entry => ({ id: `e${++n}`, at: day(d), who: "t", kind: "done", step: "01", note }) as Entry;
const job = (name: string, entries: readonly Entry[] = []) => ({ id: `id${++n}`, name, created: day(1), set: demoSet(), entries });
const names = ["Mill", "Weir", "Lock", "日本 📻"] as const;
const words = ["hum", "HUM at 100 Hz", 'so-called "full"', "50 % of_it", "a\\b", "Ärger", "ärger", "日本 📻", "a\nb", "crackle at the pin"];
const looked = ["hum", "Hum", "m a", "%", "_", "\\", '"', "Ä", "ä", "日", "📻", "\n", "crackle", "01", "nothing of it", ""];
const small = (text: string): string => text.replace(/[A-Z]/g, (c) => c.toLowerCase());
const byLetters = (a: string, b: string): number => Buffer.compare(Buffer.from(a), Buffer.from(b));

/** The plain way: what is stored, row by row. */
async function plainly(store: JobStore, text: string): Promise<string[]> {
  const rows = [];
  for (const { name } of (await store.list()).jobs)
    for (const e of (await store.stored(name))?.entries ?? [])
      rows.push({ job: name, id: String(e.id), at: String(e.at), seq: Number(e.seq), said: JSON.parse(String(e.body_json)) as object });
  return rows
    .filter((r) => Object.values(r.said).some((v) => typeof v === "string" && small(v).includes(small(text))))
    .sort((a, b) => byLetters(b.at, a.at) || byLetters(a.job, b.job) || a.seq - b.seq)
    .map((r) => `${r.job} ${r.id}`);
}
async function same(store: JobStore, limit: number): Promise<void> {
  for (const text of looked) {
    const [plain, { found, more }] = [await plainly(store, text), await store.search(text, limit)];
    expect(
      found.map((f) => `${f.job} ${f.id}`),
      text,
    ).toEqual(plain.slice(0, limit));
    expect(more, text).toBe(plain.length > limit);
  }
}

const act = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.record({
      does: fc.constant("write" as const),
      name: fc.constantFrom(...names),
      d: fc.integer({ min: 1, max: 5 }),
      note: fc.constantFrom(...words),
    }),
  },
  { weight: 1, arbitrary: fc.record({ does: fc.constant("erase" as const), name: fc.constantFrom(...names) }) },
  { weight: 2, arbitrary: fc.record({ does: fc.constant("look" as const), limit: fc.integer({ min: 1, max: 6 }) }) },
);
inEach("what is searched for in", (home) => {
  it("is found as the plain way finds it, after any history, written here and by another", async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(fc.tuple(act, fc.boolean()), { minLength: 4, maxLength: 20 }), async (acts) => {
        const own = await home.fresh();
        const [store, beside] = [await openHome(own), await openHome(own)];
        for (const [a, isOwn] of acts) {
          const by = isOwn ? store : beside;
          if (a.does === "look") {
            await same(by, a.limit);
            continue;
          }
          const revision = await by.revision(a.name);
          if (a.does === "erase") {
            if (revision !== undefined) await by.erase(a.name, revision, "t");
            continue;
          }
          if (revision === undefined) await by.create(job(a.name));
          await by.append(a.name, [noted(a.d, a.note)]);
        }
        await same(store, 4);
        await Promise.all([store.close(), beside.close()]);
      }),
      { numRuns: 5, seed: 20260101 },
    );
  });
  it("is found in the latest of many jobs first, though most of them are never looked into", async () => {
    const store = await openHome(await home.fresh());
    // times that fall back and forth, so that a job's latest entry is not its last
    for (let j = 0; j < 130; j++)
      await store.create(
        job(
          `Set ${j}`,
          Array.from({ length: 3 }, (_, i) => noted(1 + ((j * 7 + i * 11) % 28), words[(j + i) % words.length])),
        ),
      );
    for (const limit of [1, 7, 60, 500]) await same(store, limit);
    await store.close();
  });
});
