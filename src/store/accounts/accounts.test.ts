/** Who has an account, in both homes: made by codes, one of each name, never without a keeper; and what owners are let see. */
import { expect, it } from "vitest";
import { bothHomes } from "../both-homes.testdata";
import { job } from "../jobs.testdata";
import { behind, codeOf, enter, entered, good, withPeople } from "./people.testdata";

const { inEach } = bothHomes("accounts");

inEach("accounts in", ({ fresh }) => {
  it("begin with a code for the first keeper, which is good once, for a day, and as long as there is none", () =>
    withPeople(fresh, async ({ keeping: { accounts }, wait, beside }) => {
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
    withPeople(fresh, async ({ keeping: { accounts }, person }) => {
      const first = await accounts.firstCode();
      await person("Ann", "keeper");
      expect(await codeOf(accounts.setPassword(first!, good, "Eve"))).toBe("no-code");
      const code = await accounts.make("Ben", "bench", "Ann");
      expect(await accounts.setPassword(code, good, "")).toMatchObject({ name: "Ben", role: "bench" });
      expect(await codeOf(accounts.setPassword(code, "another long sentence", ""))).toBe("no-code");
      expect((await accounts.list()).map((a) => a.name)).toEqual(["Ann", "Ben"]);
    }));
  it("of one name are one, and the last keeper stays", () =>
    withPeople(fresh, async ({ keeping: { accounts }, person }) => {
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
  it("that are shut, changed or given a code lose their sessions at once", () =>
    withPeople(fresh, async ({ keeping, person }) => {
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
    withPeople(fresh, async ({ keeping, person }) => {
      await person("Ann", "keeper");
      const r = await entered(keeping, "Ann");
      const next = "another long sentence";
      expect(await keeping.sessions.changePassword(r.account, "wrong word here", next)).toBe(false);
      expect(await codeOf(keeping.sessions.changePassword(r.account, good, "Ann"))).toBe("weak");
      expect(await keeping.sessions.of(r.token)).toBeDefined();
      expect(await keeping.sessions.changePassword(r.account, good, next)).toBe(true);
      expect(await keeping.sessions.of(r.token)).toBeUndefined();
      expect([(await enter(keeping, "Ann")).is, (await enter(keeping, "Ann", next)).is]).toEqual(["no", "in"]);
    }));
  it("give an owner a link to one job, by its digest alone, until it ends, is withdrawn, or the job is erased", () =>
    withPeople(fresh, async ({ store, home, keeping: { links }, wait }) => {
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
});
