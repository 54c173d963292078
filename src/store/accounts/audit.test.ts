/** The trail of what was done, in both homes: it only grows, shows what was changed past the application, and goes along in a backup. */
import { expect, it } from "vitest";
import { backupStore } from "../backup";
import { bothHomes } from "../both-homes.testdata";
import { openHome } from "../home";
import { job } from "../jobs.testdata";
import { restoreStore } from "../restore";
import { behind, cheap, enter, withPeople } from "./people.testdata";

const { inEach, path } = bothHomes("audit");

inEach("a shop's trail in", ({ fresh }) => {
  it("is one that the database itself won't have changed, and in which what was changed past it shows", () =>
    withPeople(fresh, async ({ home, keeping, person, beside }) => {
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
  it("goes into a backup with the accounts, without their sessions; and comes back into a store that has none", () =>
    withPeople(fresh, async ({ store, home, keeping, person }) => {
      await store.create(job("a"));
      await person("Ann", "keeper");
      const r = await enter(keeping, "Ann");
      const link = await keeping.links.make("a", 7, "Ann");
      const { head } = await keeping.audit.verify();
      const backup = path();
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
