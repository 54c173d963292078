/** The two homes of a store for the siege: a file of its own, and a database of a real server that is started for it; writers that say what was acknowledged. */
import { rmSync } from "node:fs";
import { join } from "node:path";
import { isDeepStrictEqual } from "node:util";
import { demoSet } from "../../../src/desk/demo";
import type { Entry } from "../../../src/job/document";
import type { Home } from "../../../src/store/home";
import { setUpShop } from "../../../src/store/set-up-shop";
import { type Shop, serverPrograms, startShop } from "../../../src/store/shop.testdata";
import type { JobStore } from "../../../src/store/store";
import { folder, type troubles } from "../kit";
import { entriesFrom, sayKinds } from "./entries";

export const at = "2026-02-01T00:00:00.000Z";
export const pause = (ms: number): Promise<void> => new Promise((r) => setTimeout(r, ms));
let next: ReturnType<typeof entriesFrom> | undefined;
/** An entry of any kind, as property draws them. */
export function entry(id: string, who: string): Entry {
  next ??= entriesFrom(0);
  return next(id, who, at);
}
export const emptyJob = (name: string) => ({ id: `id-${name}`, name, created: at, set: demoSet(), entries: [] });

/** Does something in a home of its own of either kind; where PostgreSQL is not installed, in a file alone. */
export async function inBothHomes<T>(work: (home: Home, where: "file" | "database") => Promise<T>): Promise<T[]> {
  const place = folder();
  const done = [await work({ kind: "file", path: join(place, "jobs.db") }, "file")];
  rmSync(place, { recursive: true, force: true });
  if (serverPrograms !== undefined)
    done.push(await inShop(async (shop) => work({ kind: "shop", url: await servedDatabase(shop) }, "database")));
  return done;
}
/** A database set up as a shop's page says: asked by the server's own account, which can't alter its tables, nor change or take out an entry. */
export async function servedDatabase(shop: Shop): Promise<string> {
  const { owner, server } = await shop.accounts();
  await setUpShop(owner, new URL(server).username);
  return server;
}
export async function inShop<T>(work: (shop: Shop) => Promise<T>, settings: Readonly<Record<string, string>> = {}): Promise<T> {
  const shop = await startShop(settings);
  try {
    return await work(shop);
  } finally {
    await shop.end();
  }
}
/** What a writer was told is recorded, in the order in which it was told. */
export interface Writer {
  readonly acknowledged: readonly string[];
  /** each entry that was sent, by its id, as it was written */
  readonly sent: ReadonlyMap<string, Entry>;
  readonly stop: () => Promise<void>;
}
/** Writes pairs of entries without a pause. What was not acknowledged is sent again under the same ids, as a page does. */
export function writer(s: JobStore, job: string, who: string, t: ReturnType<typeof troubles>): Writer {
  const acknowledged: string[] = [];
  const sent = new Map<string, Entry>();
  let on = true;
  const writing = (async () => {
    for (let i = 0; on; i++) {
      const pair = [entry(`${who}-${i}-a`, who), entry(`${who}-${i}-b`, who)];
      for (const e of pair) sent.set(e.id, e);
      for (let sentOk = false; !sentOk && on; )
        try {
          await s.append(job, pair);
          acknowledged.push(...pair.map((e) => e.id));
          sentOk = true;
        } catch (e) {
          if (!["away", "busy", "full"].includes(String((e as { code?: unknown }).code))) t.add("refused", String(e));
          await pause(50);
        }
      await pause(0);
    }
  })();
  return {
    acknowledged,
    sent,
    stop: () => {
      on = false;
      return writing;
    },
  };
}
/** How many kinds of entries and of work there are among what some writers were told is recorded. */
export const kindsAmong = (writers: readonly Writer[]): string =>
  sayKinds(writers.flatMap((w) => w.acknowledged.flatMap((id) => w.sent.get(id) ?? [])));
/** Holds a job to what its writers were told: each entry there, once, as it was written, each writer's in its order, pairs whole. Returns how many were not acknowledged. */
export async function heldTo(s: JobStore, job: string, writers: readonly Writer[], t: ReturnType<typeof troubles>): Promise<number> {
  const found = await s.load(job);
  const entries = found?.document.entries ?? [];
  const ids = entries.map((e) => e.id);
  const sent = new Map(writers.flatMap((w) => [...w.sent]));
  for (const e of entries)
    if (sent.has(e.id) && !isDeepStrictEqual(JSON.parse(JSON.stringify(sent.get(e.id))), e)) t.add("not as written", e.id);
  if ((found?.unreadable.length ?? 1) > 0) t.add("unreadable", job);
  const placeOf = new Map(ids.map((id, i) => [id, i]));
  if (placeOf.size !== ids.length) t.add("doubled", `${ids.length - placeOf.size} entries`);
  for (const { acknowledged } of writers)
    acknowledged.forEach((id, i) => {
      const place = placeOf.get(id);
      const before = i > 0 ? placeOf.get(acknowledged[i - 1]) : -1;
      if (place === undefined) t.add("lost", id);
      else if (before !== undefined && before > place) t.add("out of order", id);
    });
  for (const id of ids) if (!placeOf.has(id.endsWith("a") ? id.replace(/a$/, "b") : id.replace(/b$/, "a"))) t.add("torn", id);
  return ids.length - writers.reduce((n, w) => n + w.acknowledged.length, 0);
}
