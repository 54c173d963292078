/** What a shop's server writes down, logs, shows and tells, on both homes. */
import { expect, it } from "vitest";
import { bothHomes } from "../../../store/both-homes.testdata";
import { done } from "../../../store/jobs.testdata";
import { password, title, withinShop } from "./shop-app.testdata";

const { inEach, folder } = bothHomes("shop-app");

inEach("a shop's server on", ({ fresh }) => {
  const within = withinShop(fresh, folder);
  it("writes down the account that asked, whatever the browser says, and what a keeper did", () =>
    within(async ({ ask, enter, store, serving: { keeping } }) => {
      const [ann, ben] = [await enter("Ann"), await enter("Ben")];
      const post = (path: string, body: object, cookie: string) =>
        ask(path, { method: "POST", cookie, body: JSON.stringify(body), headers: { "content-type": "application/json", "x-who": "Eve" } });
      expect((await post("/api/jobs/Mill/done", { step: "01", note: "seen", who: "Eve" }, ben)).status).toBe(200);
      expect((await store.load("Mill"))!.document.entries.map((e) => e.who)).toEqual(["Ben"]);
      expect((await post("/api/jobs/Pier/erase", { confirm: "Pier" }, ben)).status).toBe(403);
      expect((await post("/api/jobs/Pier/erase", { confirm: "pier" }, ann)).status).toBe(400);
      expect(await store.revision("Pier")).toBe(1);
      expect((await post("/api/jobs/Pier/erase", { confirm: "Pier", revision: 1 }, ann)).status).toBe(200);
      const told = (await keeping.audit.rows(100)).filter((r) => r.what.startsWith("erase"));
      expect(told.map((r) => [r.who, r.what, r.about])).toEqual([
        ["Ann", "erase asked for", "Pier"],
        ["Ann", "erase refused", "Pier"],
        ["Ann", "erase asked for", "Pier"],
      ]);
      expect(await keeping.audit.verify()).toMatchObject({ wrong: [] });
    }));
  it("shows whatever anybody wrote as text: in an account's name, a job's, a set's, in the trail", () =>
    within(async ({ ask, send, enter, serving: { keeping } }) => {
      const marks = "<img src=x onerror=alert(1)>\"'&";
      await keeping.audit.tell({ who: marks, what: marks, about: marks });
      const link = await keeping.links.make("Mill", 7, marks);
      const ann = await enter("Ann");
      const pages = [
        await ask("/people", { cookie: ann }),
        await ask(`/view/${link.secret}`),
        await send("/people/account", { name: marks, act: "make", role: "bench" }, ann),
        await send("/people/link", { job: marks, days: "7" }, ann),
        await send("/people/withdraw", { id: marks }, ann),
        await send("/sign-in", { name: marks, password: marks }),
        await send("/password", { name: marks, code: marks, password: marks }),
        await send("/account/password", { before: marks, password: marks }, ann),
      ];
      for (const [i, p] of pages.entries()) expect(await p.text(), String(i)).not.toMatch(/<img|<b>/);
      expect(await (await ask(`/view/${link.secret}`)).text()).toContain(
        title.replace("&", "&amp;").replace("<b>", "&lt;b&gt;").replace("</b>", "&lt;/b&gt;"),
      );
    }));
  it("logs every request in a line of JSON, and never a password, a code, a cookie or a link", () =>
    within(async ({ ask, send, enter, log, serving: { keeping } }) => {
      const link = await keeping.links.make("Mill", 7, "Ann");
      const code = await keeping.accounts.make("Cleo", "bench", "Ann");
      const typo = "this is my own password";
      await send("/sign-in", { name: typo, password: typo });
      await send("/password", { code, name: "", password });
      const cookie = await enter("Ben");
      await ask(`/view/${link.secret}`);
      await ask(`/view/${link.secret}/nothing?x=${link.secret}`);
      await ask(`/${link.secret}`, { cookie });
      await ask(`/api/jobs/Mill/worth?password=${encodeURIComponent(password)}`, { cookie });
      await ask("/api/jobs", { cookie });
      const lines = log().split("\n");
      expect(lines.map((l) => JSON.parse(l)).filter((l) => l.event === "request")).toHaveLength(8);
      expect(JSON.parse(lines.at(-1)!)).toEqual({
        event: "request",
        at: "2026-02-01T08:00:00.000Z",
        route: "GET /api/jobs",
        status: 200,
        ms: expect.any(Number),
        from: "192.168.1.20",
        who: "Ben",
      });
      const told = JSON.stringify(await keeping.audit.rows(100));
      for (const secret of [password, encodeURIComponent(password), typo, code, code.replaceAll("-", ""), cookie.slice(14), link.secret]) {
        expect(log()).not.toContain(secret);
        expect(told).not.toContain(secret);
      }
    }));
  it("tells a page that listens of changes, and ends with its session", () =>
    within(async ({ ask, send, enter, store, metrics }) => {
      const cookie = await enter("Ben");
      const reader = (await ask("/api/events", { cookie })).body!.getReader();
      const next = async () => new TextDecoder().decode((await reader.read()).value);
      expect(await next()).toContain("event: change");
      await store.append("Mill", [done("e1")]);
      expect(await next()).toContain("event: change");
      expect(metrics.text(true)).toContain("fettle_pages_listening 1\n");
      await send("/account/sign-out", {}, cookie);
      // what was on its way already, then nothing more
      while (!(await reader.read()).done);
      expect(metrics.text(true)).toContain("fettle_pages_listening 0\n");
      expect((await ask("/api/events", { cookie })).status).toBe(401);
    }));
  it("says whether it is well to anybody, and no more", () =>
    within(async ({ ask, store }) => {
      const r = await ask("/health");
      expect([r.status, await r.json()]).toEqual([200, { status: "ok" }]);
      await store.close();
      const gone = await ask("/health");
      expect([gone.status, await gone.json()]).toEqual([503, { status: "store away" }]);
    }));
});
