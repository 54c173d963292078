/** A job that has grown long: what it takes to show and to record grows with its entries, and not with their square. Counted in reads of entries, on jobs of every drawn kind. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { entriesFrom } from "../bench/siege/shop/entries";
import type { Desk } from "../src/desk/actions";
import { commands } from "../src/desk/commands/index";
import { demoSet } from "../src/desk/demo";
import { errandsHere } from "../src/faces/errands/errands-here";
import type { Entry } from "../src/job/document";
import { openSqlite } from "../src/store/sqlite";
import type { JobStore } from "../src/store/store";

const folder = mkdtempSync(join(tmpdir(), "long-"));
const [short, long] = [700, 2800];
let store: JobStore;
let reads = 0;
/** The same entries; each look at one of their fields is counted. */
const counted = (entries: readonly Entry[]): Entry[] =>
  entries.map(
    (e) =>
      new Proxy(e, {
        get: (of, key) => {
          reads++;
          return Reflect.get(of, key);
        },
      }),
  );
const load: JobStore["load"] = async (name) => {
  const found = await store.load(name);
  return found && { ...found, document: { ...found.document, entries: counted(found.document.entries) } };
};
let n = 0;
const newId = () => `i${++n}`;
const desk = (): Desk => ({
  store: { ...store, load },
  errands: errandsHere(newId),
  stamp: { at: "2026-03-01T00:00:00.000Z", who: "drawn", newId },
});
beforeAll(async () => {
  store = await openSqlite(join(folder, "jobs.db"));
  for (const size of [short, long]) {
    const next = entriesFrom(0);
    const at = (i: number): string => new Date(Date.parse("2026-02-01T00:00:00.000Z") + i * 1000).toISOString();
    const entries = Array.from({ length: size }, (_, i) => next(`e${i}`, "drawn", at(i)));
    await store.create({ id: `${size}`, name: `${size}`, created: at(0), set: demoSet(), entries });
  }
});
afterAll(async () => {
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

/** What a request says of each command, so that it is done and not refused for want of words. */
const said: Readonly<Record<string, object>> = {
  done: { step: "01", note: "x" },
  fill: { card: "intake", fields: { Owner: "x" } },
  set: { values: [{ path: "plateWatts", text: "65 W" }], origin: "stated", why: "plate" },
  instrument: { id: "dmm", kind: "DC volts", label: "x", ranges: [], uncertainty: "2 %", lastCheck: "1960", offset: "none" },
  history: { said: { slugsTurned: "told" } },
  fault: { does: "notice", place: "set", words: "hum" },
  sitting: { initials: "T.", thermal: "cold" },
  wait: { for: "a part" },
  chassis: { state: "live", confirm: "live", how: "no transformer seen" },
  "zero-beat": { band: "a", setPoint: "", reading: "0.8", frequency: "0.8 MHz", approach: "up", thermal: "warm" },
  mend: {
    part: "resistor",
    place: "stages.if1",
    label: "R14",
    out: "330 ohm",
    came: "330 ohm",
    dress: "",
    fault: "",
    note: "x",
    now: {},
    record: true,
  },
  amend: { list: "tubes", member: "V1", fields: { type: "6BA6" }, why: "read", record: true },
  work: { work: "capacitor-replaced", subject: "stages.if1", note: "x", record: true, now: {} },
  correct: { entry: "e1", why: "misread" },
  undo: { why: "misread" },
  leave: { power: "unplugged", case: "closed" },
};
/** Those that want a file, a recording, another job or somebody's name for it first; what they read of the job the others read too. */
const leftOut = ["copy", "erase", "file", "read", "take-back-beat", "zero-beats", "attach", "heard", "taken", "dial-scale"];
const routes = commands.flatMap((c) =>
  leftOut.includes(c.name)
    ? []
    : c.served.filter((r) => r.path.includes("/:name")).map((r) => [`${r.method} ${r.path}`, c.name, r] as const),
);
/** Four times the entries may take so many times the reads: four, and what there is more of in a longer job until there is some of everything. The square would be sixteen. */
const mostTimes = 6;
it.each(routes)("%s reads about as much of each entry, however many there are", async (what, name, route) => {
  const readsOf = async (size: number): Promise<number> => {
    reads = 0;
    const d = desk();
    const at = { desk: <T>(work: (d: Desk) => Promise<T>) => work(d), errands: d.errands, signal: new AbortController().signal };
    // what such a job doesn't allow is refused once it has been looked at
    const refused = await route.answer({ ...said[name], job: String(size) }, at).then(
      () => "",
      (e) => String(e),
    );
    expect(refused, what).not.toContain("nothing given, expected Invalid");
    return reads;
  };
  const [few, many] = [await readsOf(short), await readsOf(long)];
  if (process.env.SHOW) console.log(what, few, many, (many / few).toFixed(2));
  expect(many).toBeLessThan(mostTimes * few + 1);
});
