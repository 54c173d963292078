/** What a shop keeps and how long, in both homes: nothing goes but what was listed, by who says so. */
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import Database from "better-sqlite3";
import { describe, expect, it } from "vitest";
import type { Entry } from "../../job/document";
import { wholeRecord } from "../../job/proved.testdata";
import { cheap, codeOf, good as words } from "../accounts/people.testdata";
import { hashOfBytes, readArchive, writeArchive } from "../archive";
import { backupStore } from "../backup";
import { bothHomes } from "../both-homes.testdata";
import { checkHome } from "../check-home";
import { type Home, openHome } from "../home";
import { job } from "../jobs.testdata";
import { restoreStore } from "../restore";
import type { JobStore } from "../store";
import { columnsKnown } from "../tables";
import { before, readSpan } from "./spans";

const { inEach, file, path } = bothHomes("kept");

let id = 0;
const head = () => ({ id: `e${++id}`, at: "2016-01-02T00:00:00Z", who: "t" });
const proved = (step: string): Entry => ({ ...head(), kind: "done", step, note: "" });
/** All that has to be proved, up to the set being handed back. */
const handedBack = (): Entry[] => [...wholeRecord(head), ...["02", "03", "04", "08", "35", "36"].map(proved)];
const fileOf = (said: string, media: string) => {
  const bytes = new TextEncoder().encode(said.repeat(1000));
  return { hash: hashOfBytes(bytes), name: said, media, bytes };
};
const [sound, photograph] = [fileOf("hum", "audio/flac"), fileOf("chassis", "image/png")];
const attached = ({ hash, name, media }: ReturnType<typeof fileOf>): Entry => ({
  ...head(),
  kind: "attachment",
  name,
  hash,
  media,
  note: "",
});
const years = (count: number) => ({ count, unit: "years" as const });

inEach("a shop's keeping in", ({ fresh }) => {
  const within = async (work: (s: JobStore, home: Home, to: (iso: string) => void) => Promise<void>) => {
    const home = await fresh();
    let at = "2016-02-03T00:00:00.000Z";
    const s = await openHome(home, () => at);
    const to = (iso: string) => {
      at = `${iso}T00:00:00.000Z`;
    };
    return work(s, home, to).finally(() => s.close());
  };
  const told = async (s: JobStore) => (await s.keeping().audit.rows(100)).map((r) => `${r.who}: ${r.what} | ${r.about}`);

  it("is for ever where nobody says how long", () =>
    within(async (s, _, to) => {
      await s.create(job("old", handedBack()), [sound]);
      to("2116-01-01");
      expect(await s.retention().spans()).toEqual({});
      const { past, code } = await s.retention().list();
      expect(past).toEqual([]);
      expect(await codeOf(s.retention().clearOut(code, "Ann"))).toBe("conflict");
      expect((await s.list()).total).toBe(1);
    }));
  it("lists finished jobs past their time, and removes what was listed by an act of its own, told in the trail by whom and how much", () =>
    within(async (s, home, to) => {
      await s.create(job("finished", handedBack()), [sound, photograph]);
      await s.create(job("unfinished", [proved("36")]), [photograph]);
      await s.retention().keepFor("jobs", years(10), "Ann");
      to("2026-02-02");
      expect((await s.retention().list()).past).toEqual([]);
      to("2026-02-04");
      await s.create(job("finished lately", handedBack()));
      const { past, code } = await s.retention().list();
      expect(past).toMatchObject([
        { kind: "jobs", about: "finished", since: "2016-02-03T00:00:00.000Z", entriesCount: 11, filesCount: 2, bytesCount: 10_000 },
      ]);
      // listing takes nothing, however often
      expect((await s.retention().list()).code).toBe(code);
      expect((await s.list()).total).toBe(3);
      expect(await codeOf(s.retention().clearOut("00000000", "Ann"))).toBe("conflict");
      await s.append("finished", [proved("01")]);
      expect(await codeOf(s.retention().clearOut(code, "Ann"))).toBe("conflict");
      to("2036-03-01");
      const later = await s.retention().list();
      expect(later.past.map((p) => p.about)).toEqual(["finished", "finished lately"]);
      expect(await s.retention().clearOut(later.code, "Ann")).toMatchObject({ bytesCount: 3000 });
      expect((await s.list()).jobs.map((j) => j.name)).toEqual(["unfinished"]);
      expect(await s.files("unfinished")).toEqual([photograph]);
      expect(await told(s)).toEqual([
        "Ann: kept for 10 years from now on | jobs",
        "Ann: finished job cleared out: 12 entries, 2 files of 0.0 MB | finished",
        "Ann: finished job cleared out: 11 entries | finished lately",
      ]);
      expect(await s.keeping().audit.verify()).toMatchObject({ wrong: [] });
      expect((await checkHome(home)).wrong).toEqual([]);
    }));
  it("takes the sound of a finished job alone: what was read from it stays, the job says what went, also once it is elsewhere", () =>
    within(async (s, home, to) => {
      await s.create(job("finished", [attached(sound), attached(photograph), ...handedBack()]), [sound, photograph]);
      await s.create(job("on the bench", [attached(sound)]), [sound]);
      await s.retention().keepFor("recordings", years(5), "Ann");
      to("2022-01-01");
      const { past, code } = await s.retention().list();
      expect(past).toMatchObject([{ kind: "recordings", about: "finished", entriesCount: 0, filesCount: 1, ids: [sound.hash] }]);
      // read before, it is read again once they are gone
      expect((await s.load("finished"))!.document.clearedOut).toBeUndefined();
      // another job points at the same bytes
      expect(await s.retention().clearOut(code, "Ann")).toMatchObject({ bytesCount: 0 });
      expect(await s.files("finished")).toEqual([photograph]);
      expect(await s.files("on the bench")).toEqual([sound]);
      const { document } = (await s.load("finished"))!;
      const gone = { hash: sound.hash, name: "hum", media: "audio/flac", at: "2022-01-01T00:00:00.000Z", who: "Ann" };
      expect(document.clearedOut).toEqual([gone]);
      expect(document.entries).toHaveLength(13);
      expect(await checkHome(home)).toMatchObject({ wrong: [], filesCount: 2 });
      expect((await s.retention().list()).past).toEqual([]);
      const back = readArchive(writeArchive(document, await s.files("finished")), "a.zip");
      expect(back.ok && back.value.document.clearedOut).toEqual([gone]);
      const [to2, backup] = [await fresh(), path()];
      await backupStore(home, backup);
      await restoreStore(to2, backup);
      expect(await checkHome(to2)).toMatchObject({ wrong: [], jobsCount: 2, filesCount: 2 });
      const other = await openHome(to2);
      expect(await other.retention().spans()).toEqual({ recordings: years(5) });
      await other.close();
    }));
  it("keeps what is over of sign-ins and links as well, until a keeper says otherwise and clears it out", () =>
    within(async (s, _, to) => {
      const k = s.keeping(cheap);
      await k.accounts.setPassword(await k.accounts.make("Ann", "keeper", "t"), words, "");
      await s.create(job("a"));
      const enter = () => k.sessions.signIn({ name: "Ann", password: words, from: "192.168.1.20" });
      const [first, second] = [await enter(), await enter()];
      if (first.is === "in") await k.sessions.signOut(first.token);
      await k.links.make("a", 30, "Ann");
      for (const kind of ["sessions", "tries", "links"] as const) await s.retention().keepFor(kind, { count: 6, unit: "months" }, "Ann");
      expect((await s.retention().list()).past).toEqual([]);
      to("2016-08-04");
      // both sessions were over half a year ago; the link ended only in March
      await enter();
      const { past, code } = await s.retention().list();
      expect(past.map((p) => [p.kind, p.entriesCount])).toEqual([["sessions", 2]]);
      to("2016-09-10");
      expect(await codeOf(s.retention().clearOut(code, "Ann"))).toBe("conflict");
      const all = await s.retention().list();
      expect(all.past.map((p) => [p.kind, p.entriesCount])).toEqual([
        ["sessions", 2],
        ["links", 1],
      ]);
      await s.retention().clearOut(all.code, "Ann");
      expect((await s.retention().list()).past).toEqual([]);
      expect(await k.links.list()).toEqual([]);
      expect((await told(s)).slice(-2)).toEqual([
        "Ann: sign-ins that were over cleared out: 2 | ",
        "Ann: owners' links that were over cleared out: 1 | ",
      ]);
      if (second.is === "in") expect(await k.sessions.of(second.token)).toBeUndefined();
      // set back to for ever
      await s.retention().keepFor("sessions", undefined, "Ann");
      expect(Object.keys(await s.retention().spans()).sort()).toEqual(["links", "tries"]);
    }));
});

describe("how long", () => {
  it.each([
    ["10 years", "2026-02-28T01:02:03.000Z", "2016-02-28T01:02:03.000Z"],
    ["1 year", "2024-02-29T00:00:00.000Z", "2023-02-28T00:00:00.000Z"],
    ["1 month", "2026-03-31T00:00:00.000Z", "2026-02-28T00:00:00.000Z"],
    ["18 months", "2026-01-15T00:00:00.000Z", "2024-07-15T00:00:00.000Z"],
    ["90 days", "2026-04-01T00:00:00.000Z", "2026-01-01T00:00:00.000Z"],
  ])("%s before %s is %s", (said, now, then) => {
    const span = readSpan(said);
    expect(span.ok && span.value && before(now, span.value)).toBe(then);
  });
  it("is said in words, or for ever; anything else is refused", () => {
    expect(readSpan("For  ever")).toEqual({ ok: true, value: undefined });
    for (const said of ["", "0 days", "ten years", "-1 days", "5", "1.5 years", "99999 days"]) expect(readSpan(said).ok).toBe(false);
  });
});

describe("nothing is deleted silently", () => {
  /** Every place of the program that takes rows out of a store, how many statements, and why they may. */
  const mayRemove: Readonly<Record<string, readonly [count: number, why: string]>> = {
    "store/change-jobs.ts": [1, "a job that a person erases by its name, told in the trail"],
    "store/content.ts": [1, "bytes that no job points at any more, after an erase or a clear-out"],
    "store/mend.ts": [3, "what can't be read, once it is set aside"],
    "store/kept/retention.ts": [6, "a clear-out of what was listed, told in the trail; a span that is said anew"],
    "store/accounts/accounts.ts": [3, "codes that were used or replaced: secrets, not records"],
  };
  const source = fileURLToPath(new URL("../..", import.meta.url));
  it("is so in the program: rows are taken out in these places and no others", () => {
    const found: Record<string, number> = {};
    for (const name of readdirSync(source, { recursive: true, encoding: "utf8" })) {
      if (!/\.tsx?$/.test(name) || /\.(test|testdata|testscript)\.tsx?$/.test(name)) continue;
      const count =
        readFileSync(join(source, name), "utf8").match(
          /\.deleteFrom\(|\bdelete from |\btruncate (?!on )\w|\.replaceInto\(|\bdrop table \w/gi,
        )?.length ?? 0;
      if (count > 0) found[relative(source, join(source, dirname(name), name.replace(/.*\//, "")))] = count;
    }
    expect(found).toEqual(Object.fromEntries(Object.entries(mayRemove).map(([place, [count]]) => [place, count])));
  });
  it("is so where it runs: a year of work and of signing in takes no row out of any table of the records", async () => {
    const home = file();
    let ms = Date.parse("2016-01-01T00:00:00.000Z");
    const s = await openHome(home, () => new Date(ms).toISOString());
    const raw = new Database(home.path);
    const tables = Object.keys(columnsKnown).filter((t) => t !== "set_code");
    for (const t of tables)
      raw.exec(`create trigger kept_${t} before delete on ${t} begin select raise(abort, 'a row of ${t} is taken out'); end`);
    raw.close();
    const k = s.keeping(cheap);
    await k.accounts.setPassword(await k.accounts.make("Ann", "keeper", "t"), words, "");
    await s.create(job("a", handedBack()), [sound]);
    for (let month = 0; month < 12; month++) {
      ms += 31 * 24 * 3600_000;
      for (const password of ["wrong words here", words]) await k.sessions.signIn({ name: "Ann", password, from: "192.168.1.20" });
      const r = await k.sessions.signIn({ name: "Ann", password: words, from: "192.168.1.20" });
      await s.append("a", [proved("01")], [fileOf(`of month ${month}`, "audio/wav")]);
      await k.links.withdraw((await k.links.make("a", 3, "Ann")).id, "Ann");
      if (r.is === "in") await (month % 2 ? k.sessions.signOut(r.token) : k.sessions.signOutEverywhere(r.account));
      await s.retention().list();
    }
    await k.accounts.change("Ann", { role: "keeper" }, "Ann");
    expect(await s.files("a")).toHaveLength(13);
    await expect(s.erase("a", (await s.revision("a"))!, "Ann")).rejects.toThrow();
    await s.close();
  });
});
