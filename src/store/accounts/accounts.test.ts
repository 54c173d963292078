/** Who may come in, on both homes: a file of SQLite's, and a real PostgreSQL server. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { backupStore } from "../backup";
import { type Home, openHome } from "../home";
import { job } from "../jobs.testdata";
import { restoreStore } from "../restore";
import { type Shop, serverPrograms, startShop } from "../shop.testdata";
import type { JobStore } from "../store";
import { passwords } from "./passwords";
import { sessionLives } from "./sessions";
import type { ShopKeeping } from "./shop-keeping";
import { mostTries } from "./tries";

const folder = mkdtempSync(join(tmpdir(), "accounts-"));
let shop: Shop | undefined;
beforeAll(async () => {
  if (serverPrograms !== undefined) shop = await startShop();
});
afterAll(async () => {
  await shop?.end();
  rmSync(folder, { recursive: true, force: true });
});
let n = 0;
const homes: readonly { readonly where: string; readonly fresh: () => Promise<Home>; readonly skip: boolean }[] = [
  { where: "a file", fresh: async () => ({ kind: "file", path: join(folder, `s${++n}.db`) }), skip: false },
  {
    where: "a shop's database (skipped where PostgreSQL is not installed)",
    fresh: async () => ({ kind: "shop", url: await shop!.database() }),
    skip: serverPrograms === undefined,
  },
];
/** Asks the database itself, as somebody does who is past the application. */
async function behind(home: Home, text: string): Promise<readonly Record<string, unknown>[]> {
  if (home.kind === "shop")
    return (
      await shop!.query(
        home.url,
        text.replaceAll(/\b(audit(?:_head)?|account|session|set_code|owner_link|sign_in_try)\b(?!')/g, "fettle.$1"),
      )
    ).rows;
  const raw = new Database(home.path);
  try {
    const s = raw.prepare(text);
    if (s.reader) return s.all() as Record<string, unknown>[];
    s.run();
    return [];
  } finally {
    raw.close();
  }
}
const cheap = passwords({ ln: 4, r: 8, p: 1 });
const good = "four old brass knobs";
const from = "192.168.1.20";
interface At {
  readonly store: JobStore;
  readonly home: Home;
  readonly keeping: ShopKeeping;
  readonly wait: (ms: number) => void;
  /** another server on the same database */
  readonly beside: <T>(work: (k: ShopKeeping) => Promise<T>) => Promise<T>;
  readonly person: (name: string, role: "bench" | "keeper", password?: string) => Promise<void>;
}

describe.each(homes.filter((h) => !h.skip))("accounts in $where", ({ fresh }) => {
  const within = async (work: (at: At) => Promise<void>) => {
    let ms = Date.parse("2026-02-01T08:00:00.000Z");
    const now = () => new Date(ms).toISOString();
    const home = await fresh();
    const store = await openHome(home, now);
    const keeping = store.keeping(cheap);
    try {
      await work({
        store,
        home,
        keeping,
        wait: (by) => {
          ms += by;
        },
        beside: async (act) => {
          const other = await openHome(home, now);
          return act(other.keeping(cheap)).finally(() => other.close());
        },
        person: async (name, role, password = good) => {
          await keeping.accounts.setPassword(await keeping.accounts.make(name, role, "t"), password, "");
        },
      });
    } finally {
      await store.close();
    }
  };
  const codeOf = (p: Promise<unknown>) =>
    p.then(
      () => "taken",
      (e) => e.issues?.[0].code ?? e.code,
    );
  const enter = async (k: ShopKeeping, name: string, password = good, more = {}) => k.sessions.signIn({ name, password, from, ...more });

  it("begin with a code for the first keeper, which is good once, for a day, and as long as there is none", () =>
    within(async ({ keeping: { accounts }, wait, beside }) => {
      const early = await accounts.firstCode();
      const code = await beside((k) => k.accounts.firstCode());
      expect(code).toMatch(/^([2-9A-HJKMNP-TV-Z]{5}-){4}[2-9A-HJKMNP-TV-Z]{5}$/);
      expect(await codeOf(accounts.setPassword(early!, good, "Ann"))).toBe("no-code");
      expect(await codeOf(accounts.setPassword(code!, "short", "Ann"))).toBe("weak");
      expect(await codeOf(accounts.setPassword(code!, good, "<b>"))).toBe("bad-name");
      expect(await accounts.setPassword(code!.toLowerCase().replaceAll("-", " "), good, " Ann ")).toMatchObject({
        name: "Ann",
        role: "keeper",
      });
      expect(await codeOf(accounts.setPassword(code!, good, "Eve"))).toBe("no-code");
      expect(await accounts.firstCode()).toBeUndefined();
      const bench = await accounts.make("Ben", "bench", "Ann");
      wait(24 * 3600_000);
      expect(await codeOf(accounts.setPassword(bench, good, ""))).toBe("no-code");
      expect((await accounts.list()).map((a) => [a.name, a.role, a.set])).toEqual([
        ["Ann", "keeper", true],
        ["Ben", "bench", false],
      ]);
    }));
  it("are opened by a code once; the first keeper's is worth nothing once another way has made one", () =>
    within(async ({ keeping: { accounts }, person }) => {
      const first = await accounts.firstCode();
      await person("Ann", "keeper");
      expect(await codeOf(accounts.setPassword(first!, good, "Eve"))).toBe("no-code");
      const code = await accounts.make("Ben", "bench", "Ann");
      expect(await accounts.setPassword(code, good, "")).toMatchObject({ name: "Ben", role: "bench" });
      expect(await codeOf(accounts.setPassword(code, "another long sentence", ""))).toBe("no-code");
      expect((await accounts.list()).map((a) => a.name)).toEqual(["Ann", "Ben"]);
    }));
  it("of one name are one, and the last keeper stays", () =>
    within(async ({ keeping: { accounts }, person }) => {
      await person("Ann", "keeper");
      for (const again of ["ann", "ANN", " Ａnn "]) expect(await codeOf(accounts.make(again, "bench", "t"))).toBe("exists");
      expect(await codeOf(accounts.change("Ann", { shut: true }, "t"))).toBe("last-keeper");
      expect(await codeOf(accounts.change("Ann", { role: "bench" }, "t"))).toBe("last-keeper");
      expect(await codeOf(accounts.codeFor("Ann", "t"))).toBe("last-keeper");
      await person("Ben", "keeper");
      await accounts.change("Ann", { role: "bench" }, "t");
      expect(await codeOf(accounts.change("Ben", { shut: true }, "t"))).toBe("last-keeper");
      expect(await codeOf(accounts.change("Nobody", { shut: true }, "t"))).toBe("no-account");
    }));
  it("let in by the right password only, and keep neither it nor a session's secret as it is", () =>
    within(async ({ home, keeping, person }) => {
      await person("Ann", "keeper");
      const r = await enter(keeping, "ann");
      if (r.is !== "in") throw new Error("not in");
      expect(Buffer.from(r.token, "base64url")).toHaveLength(32);
      expect(await keeping.sessions.of(r.token)).toMatchObject({ name: "Ann", role: "keeper" });
      for (const [name, password] of [
        ["Ann", `${good} `],
        ["Ann", ""],
        ["Nobody", good],
        ["' or 1=1 --", good],
      ])
        expect(await enter(keeping, name, password)).toEqual({ is: "no" });
      expect(await keeping.sessions.of(`${r.token}x`)).toBeUndefined();
      const all = JSON.stringify([
        await behind(home, "select * from account"),
        await behind(home, "select * from session"),
        await behind(home, "select * from audit"),
      ]);
      for (const secret of [good, r.token, "' or 1=1"]) expect(all).not.toContain(secret);
    }));
  it("take as long for a name that is not there as for one that is: a password is worked out for each", async () => {
    const asked: (string | null)[] = [];
    const noted = {
      hash: cheap.hash,
      fits: (p: string, stored: string | null) => {
        asked.push(stored);
        return cheap.fits(p, stored);
      },
    };
    await within(async ({ store, person }) => {
      await person("Ann", "keeper");
      const k = store.keeping(noted);
      for (const name of ["Ann", "Nobody"]) expect(await enter(k, name, "wrong word here")).toEqual({ is: "no" });
      expect(asked).toEqual([expect.stringContaining("$scrypt$"), null]);
    });
  });
  it("get another session at each sign-in, the one that came along ended; end one, or all", () =>
    within(async ({ keeping, person }) => {
      const { sessions } = keeping;
      await person("Ann", "keeper");
      const [a, b] = [await enter(keeping, "Ann"), await enter(keeping, "Ann")];
      if (a.is !== "in" || b.is !== "in") throw new Error("not in");
      const c = await enter(keeping, "Ann", good, { before: a.token });
      if (c.is !== "in") throw new Error("not in");
      expect(new Set([a.token, b.token, c.token, "planted"]).size).toBe(4);
      expect(await sessions.of(a.token)).toBeUndefined();
      const planted = await enter(keeping, "Ann", good, { before: "planted" });
      expect(planted).toMatchObject({ is: "in" });
      expect(await sessions.of("planted")).toBeUndefined();
      await sessions.signOut(b.token);
      expect(await sessions.of(b.token)).toBeUndefined();
      expect(await sessions.of(c.token)).toBeDefined();
      await sessions.signOutEverywhere(c.account);
      expect(await sessions.of(c.token)).toBeUndefined();
    }));
  it("end with the time: nobody at work, and at all; a page that only listens doesn't put it off", () =>
    within(async ({ keeping, person, wait }) => {
      await person("Ann", "keeper");
      const r = await enter(keeping, "Ann");
      if (r.is !== "in") throw new Error("not in");
      const of = (work: boolean) => keeping.sessions.of(r.token, work);
      for (let at = 0; at + sessionLives.idleMs / 2 < sessionLives.wholeMs; at += sessionLives.idleMs / 2) {
        expect(await of(true)).toBeDefined();
        wait(sessionLives.idleMs / 2);
      }
      expect(await of(true)).toBeDefined();
      wait(sessionLives.idleMs / 2);
      expect(await of(true)).toBeUndefined();
      const s = await enter(keeping, "Ann");
      if (s.is !== "in") throw new Error("not in");
      wait(sessionLives.idleMs - 1);
      expect(await keeping.sessions.of(s.token, false)).toBeDefined();
      wait(1);
      expect(await keeping.sessions.of(s.token, false)).toBeUndefined();
    }));
  it("that are shut, changed or given a code lose their sessions at once", () =>
    within(async ({ keeping, person }) => {
      await person("Ann", "keeper");
      await person("Ben", "bench");
      const acts = [
        () => keeping.accounts.change("Ben", { role: "keeper" }, "Ann"),
        () => keeping.accounts.change("Ben", { shut: true }, "Ann"),
        () => keeping.accounts.change("Ben", { shut: false }, "Ann"),
        () => keeping.accounts.codeFor("Ben", "Ann"),
      ];
      for (const [i, act] of acts.entries()) {
        const r = await enter(keeping, "Ben");
        expect(r.is, String(i)).toBe(i === 2 ? "no" : "in");
        await act();
        if (r.is === "in") expect(await keeping.sessions.of(r.token)).toBeUndefined();
      }
      expect(await enter(keeping, "Ben")).toEqual({ is: "no" });
    }));
  it("change their password by the one of before", () =>
    within(async ({ keeping, person }) => {
      await person("Ann", "keeper");
      const r = await enter(keeping, "Ann");
      if (r.is !== "in") throw new Error("not in");
      const next = "another long sentence";
      expect(await keeping.sessions.changePassword(r.account, "wrong word here", next)).toBe(false);
      expect(await codeOf(keeping.sessions.changePassword(r.account, good, "Ann"))).toBe("weak");
      expect(await keeping.sessions.of(r.token)).toBeDefined();
      expect(await keeping.sessions.changePassword(r.account, good, next)).toBe(true);
      expect(await keeping.sessions.of(r.token)).toBeUndefined();
      expect([(await enter(keeping, "Ann")).is, (await enter(keeping, "Ann", next)).is]).toEqual(["no", "in"]);
    }));
  it("may be tried so often, counted by account and by address over all servers, the right password among what is refused then", () =>
    within(async ({ keeping, person, wait, beside }) => {
      await person("Ann", "keeper");
      const tries = Array.from({ length: mostTries.account }, (_, i) => i);
      for (const i of tries) {
        const one = (k: ShopKeeping) => enter(k, "Ann", "wrong word here", { from: `10.0.0.${i}` });
        expect(await (i % 2 ? one(keeping) : beside(one))).toEqual({ is: "no" });
      }
      expect(await enter(keeping, "ANN", good, { from: "10.0.0.99" })).toEqual({ is: "later", minutes: 15 });
      expect((await beside((k) => enter(k, "Ann", good))).is).toBe("later");
      wait(15 * 60_000 + 1);
      expect((await enter(keeping, "Ann")).is).toBe("in");
      const byAddress: string[] = [];
      // many at once, as a program tries them
      for (let i = 0; i < mostTries.address + 10; i += 10) {
        const some = Array.from({ length: 10 }, (_, j) => enter(keeping, `n${i + j}`, good, { from: "10.9.9.9" }));
        byAddress.push(...(await Promise.all(some)).map((r) => r.is));
      }
      expect(byAddress.filter((is) => is === "no")).toHaveLength(mostTries.address);
      expect((await enter(keeping, "Ann", good, { from: "10.9.9.9" })).is).toBe("later");
      expect((await enter(keeping, "Ann")).is).toBe("in");
      wait(-40 * 60_000);
      expect((await enter(keeping, "Ann", good, { from: "10.9.9.9" })).is).toBe("in");
    }));
  it("give an owner a link to one job, by its digest alone, until it ends, is withdrawn, or the job is erased", () =>
    within(async ({ store, home, keeping: { links }, wait }) => {
      await store.create(job("a"));
      await store.create(job("b"));
      const [one, two, three] = [await links.make("a", 7, "Ann"), await links.make("a", 30, "Ann"), await links.make("b", 30, "Ann")];
      expect(await links.of(one.secret)).toMatchObject({ job: "a", id: one.id, until: "2026-02-08T08:00:00.000Z" });
      expect(JSON.stringify(await behind(home, "select * from owner_link"))).not.toContain(one.secret);
      expect(await links.of(one.id)).toBeUndefined();
      await links.withdraw(two.id, "Ann");
      expect(await links.of(two.secret)).toBeUndefined();
      expect(await codeOf(links.withdraw("none", "Ann"))).toBe("no-link");
      expect(await codeOf(links.make("nobody's", 7, "Ann"))).toBe("no-job");
      wait(7 * 24 * 3600_000);
      expect(await links.of(one.secret)).toBeUndefined();
      expect(await links.of(three.secret)).toBeDefined();
      await store.erase("b", 1, "t");
      expect(await links.of(three.secret)).toBeUndefined();
      expect((await links.list()).map((l) => [l.id, l.withdrawn])).toEqual(
        expect.arrayContaining([
          [one.id, false],
          [two.id, true],
        ]),
      );
    }));
  it("leave a trail that the database itself won't have changed, and in which what was changed past it shows", () =>
    within(async ({ home, keeping, person, beside }) => {
      await person("Ann", "keeper");
      await Promise.all([1, 2, 3, 4].map((i) => beside((k) => k.audit.tell({ who: "Ann", what: "erase", about: `job ${i}` }))));
      await enter(keeping, "Ann", "wrong word here");
      const { audit } = keeping;
      const rows = await audit.rows(100);
      expect(rows.map((r) => r.what)).toEqual([
        "account made: keeper",
        "password set",
        "erase",
        "erase",
        "erase",
        "erase",
        "sign-in refused",
      ]);
      expect(rows.map((r) => r.seq)).toEqual([1, 2, 3, 4, 5, 6, 7]);
      const whole = await audit.verify();
      expect(whole).toMatchObject({ rowsCount: 7, wrong: [], head: { seq: 7 } });
      for (const act of ["update audit set who = 'Eve' where seq = 3", "delete from audit where seq = 3", "delete from audit"])
        await expect(behind(home, act), act).rejects.toThrow("the audit trail only grows");
      if (home.kind === "file")
        await expect(
          behind(home, "insert or replace into audit select seq, at, 'Eve', what, about, before, hash from audit where seq = 3"),
        ).rejects.toThrow("only grows");
      else await expect(behind(home, "truncate audit")).rejects.toThrow("only grows");
      expect(await audit.rows(100)).toEqual(rows);
      // past the application: by whoever owns the database
      const off =
        home.kind === "file" ? ["drop trigger audit_changed", "drop trigger audit_removed"] : ["alter table audit disable trigger user"];
      for (const o of off) await behind(home, o);
      const found = async (...acts: string[]) => {
        for (const a of acts) await behind(home, a);
        return (await audit.verify(whole.head)).wrong;
      };
      expect(await found("update audit set who = 'Eve' where seq = 3")).toEqual(["row 3 was changed"]);
      expect(await found("update audit set who = 'Ann' where seq = 3", "delete from audit where seq = 4")).toEqual(["row 4 was taken out"]);
      expect(await found("delete from audit where seq > 5")).toEqual(
        expect.arrayContaining(["rows 6 to 7 were taken out", "row 7, which was written down, is not there"]),
      );
      expect(await found("delete from audit", "update audit_head set seq = 0, hash = ''")).toEqual([
        "row 7, which was written down, is not there",
      ]);
    }));
  it("go into a backup with their trail, their sessions don't; and come back into a store that has none", () =>
    within(async ({ store, home, keeping, person }) => {
      await store.create(job("a"));
      await person("Ann", "keeper");
      const r = await enter(keeping, "Ann");
      const link = await keeping.links.make("a", 7, "Ann");
      const { head } = await keeping.audit.verify();
      const backup = join(folder, `b${++n}.db`);
      await backupStore(home, backup);
      const to = await fresh();
      await restoreStore(to, backup);
      await restoreStore(to, backup);
      const other = await openHome(to, () => "2026-02-01T08:00:00.000Z");
      const k = other.keeping(cheap);
      try {
        expect(await k.audit.verify(head)).toMatchObject({ wrong: [], head });
        expect(await k.links.of(link.secret)).toMatchObject({ job: "a" });
        if (r.is === "in") expect(await k.sessions.of(r.token)).toBeUndefined();
        expect((await enter(k, "Ann")).is).toBe("in");
      } finally {
        await other.close();
      }
    }));
});
