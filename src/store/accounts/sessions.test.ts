/** Who is let in, in both homes: by the right password, for so long, and not after too many tries. */
import { expect, it } from "vitest";
import { bothHomes } from "../both-homes.testdata";
import { behind, cheap, enter, entered, good, withPeople } from "./people.testdata";
import { sessionLives } from "./sessions";
import type { ShopKeeping } from "./shop-keeping";
import { mostTries } from "./tries";

const { inEach } = bothHomes("sessions");

inEach("sign-ins in", ({ fresh }) => {
  it("let in by the right password only; neither it nor a session's secret is kept as it is", () =>
    withPeople(fresh, async ({ home, keeping, person }) => {
      await person("Ann", "keeper");
      const r = await entered(keeping, "ann");
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
    await withPeople(fresh, async ({ store, person }) => {
      await person("Ann", "keeper");
      const k = store.keeping(noted);
      for (const name of ["Ann", "Nobody"]) expect(await enter(k, name, "wrong word here")).toEqual({ is: "no" });
      expect(asked).toEqual([expect.stringContaining("$scrypt$"), null]);
    });
  });
  it("give another session each time, the one that came along ended; one is ended, or all", () =>
    withPeople(fresh, async ({ keeping, person }) => {
      const { sessions } = keeping;
      await person("Ann", "keeper");
      const [a, b] = [await entered(keeping, "Ann"), await entered(keeping, "Ann")];
      const c = await entered(keeping, "Ann", good, { before: a.token });
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
    withPeople(fresh, async ({ keeping, person, wait }) => {
      await person("Ann", "keeper");
      const r = await entered(keeping, "Ann");
      const of = (work: boolean) => keeping.sessions.of(r.token, work);
      for (let at = 0; at + sessionLives.idleMs / 2 < sessionLives.wholeMs; at += sessionLives.idleMs / 2) {
        expect(await of(true)).toBeDefined();
        wait(sessionLives.idleMs / 2);
      }
      expect(await of(true)).toBeDefined();
      wait(sessionLives.idleMs / 2);
      expect(await of(true)).toBeUndefined();
      const s = await entered(keeping, "Ann");
      wait(sessionLives.idleMs - 1);
      expect(await keeping.sessions.of(s.token, false)).toBeDefined();
      wait(1);
      expect(await keeping.sessions.of(s.token, false)).toBeUndefined();
    }));
  it("may be tried so often, counted by account and by address over all servers; the right password is among what is refused then", () =>
    withPeople(fresh, async ({ keeping, person, wait, beside }) => {
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
});
