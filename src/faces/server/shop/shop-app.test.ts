/** Who may ask what of a shop's server, and how it keeps everybody else out: on both homes. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { commands } from "../../../desk/commands/index";
import { roles, suffices } from "../../../desk/roles";
import { mostTries } from "../../../store/accounts/tries";
import type { Home } from "../../../store/home";
import { done } from "../../../store/jobs.testdata";
import { type Shop, serverPrograms, startShop } from "../../../store/shop.testdata";
import { ownRoutes } from "./own-routes";
import { type AtShop, atShop, cookieOf, host, origin, password, title } from "./shop-app.testdata";

const folder = mkdtempSync(join(tmpdir(), "shop-app-"));
let server: Shop | undefined;
beforeAll(async () => {
  if (serverPrograms !== undefined) server = await startShop();
});
afterAll(async () => {
  await server?.end();
  rmSync(folder, { recursive: true, force: true });
});
let n = 0;
const homes: readonly { readonly where: string; readonly fresh: () => Promise<Home>; readonly skip: boolean }[] = [
  { where: "a file", fresh: async () => ({ kind: "file", path: join(folder, `s${++n}.db`) }), skip: false },
  {
    where: "a shop's database (skipped where PostgreSQL is not installed)",
    fresh: async () => ({ kind: "shop", url: await server!.database() }),
    skip: serverPrograms === undefined,
  },
];
/** Every route that is declared, a command's or the server's own, with who may ask it. */
const declared = [
  ...commands.flatMap((c) => c.served.map(({ method, path, may }) => ({ method, path, may }))),
  ...Object.values(ownRoutes),
  ...commands.flatMap((c) =>
    c.served.filter((r) => r.may === "owner").map((r) => ({ ...r, path: r.path.replace("/api/jobs/:name/", "/view/:secret/") })),
  ),
];
const keyOf = (r: { readonly method: string; readonly path: string }): string => `${r.method} ${r.path}`;

describe.each(homes.filter((h) => !h.skip))("a shop's server on $where", ({ fresh }) => {
  const within = async (work: (at: AtShop) => Promise<void>) => {
    const at = await atShop(await fresh(), folder);
    try {
      await work(at);
    } finally {
      await at.close();
    }
  };
  it("has no route but those that say who may ask them", () =>
    within(async ({ app }) => {
      const routes = new Set(app.routes.filter((r) => r.method !== "ALL").map(keyOf));
      expect([...routes].sort()).toEqual([...new Set(declared.map(keyOf))].sort());
      expect(roles).toEqual(["owner", "bench", "keeper"]);
      // what answers every path is no more than guards, and the last, which asks as well
      const others = app.routes.filter((r) => r.method === "ALL").map((r) => r.path);
      expect(others.filter((p) => p !== "/*" && p !== "*")).toEqual(["/api/jobs/:name/erase"]);
    }));
  it("lets each role ask what its table says, and nobody else: every route, every role, no session", () =>
    within(async ({ ask, send, enter, serving: { keeping } }) => {
      const link = await keeping.links.make("Mill", 7, "Ann");
      let checkedCount = 0;
      for (const r of declared)
        for (const role of [undefined, "bench", "keeper"] as const) {
          const cookie = role && (await enter(role === "keeper" ? "Ann" : "Ben"));
          const path = r.path
            .replace("/:type{[\\w-]+\\.woff2}", "/x.woff2")
            .replace(":secret", role === undefined ? "unknown" : link.secret)
            .replace(/:\w+/g, "Nobody")
            .replace("/*", "/page.js");
          const stop = new AbortController();
          const fields = r.method === "POST" && !r.path.startsWith("/api/");
          const answer = fields
            ? await send(path, { name: "", id: "" }, cookie)
            : await ask(path, {
                method: r.method,
                cookie,
                signal: stop.signal,
                ...(r.method === "POST" ? { body: "{}", headers: { "content-type": "application/json" } } : {}),
              });
          stop.abort();
          const what = `${role} ${keyOf(r)}: ${answer.status}`;
          const owners = path.startsWith("/view/");
          const may = r.may === "anyone" || (owners ? role !== undefined : suffices(role, r.may));
          if (may) expect([401, 403], what).not.toContain(answer.status === 401 && r.path === "/sign-in" ? 200 : answer.status);
          else expect(answer.status, what).toBe(owners ? 404 : role === undefined ? 401 : 403);
          if (!may) expect(await answer.text(), what).not.toMatch(/Mill|Pier|marks/);
          else await answer.body?.cancel();
          checkedCount++;
        }
      expect(checkedCount).toBe(declared.length * 3);
      expect(checkedCount).toBeGreaterThan(200);
    }));
  it("leads a stranger's browser to where one signs in, and tells a stranger's program nothing", () =>
    within(async ({ ask }) => {
      const page = await ask("/", { headers: { accept: "text/html" } });
      expect([page.status, page.headers.get("location")]).toEqual([303, "/sign-in"]);
      for (const path of [
        "/",
        "/index.html",
        "/page.js",
        "/../page.js",
        "/api/jobs",
        "/nothing",
        "/people",
        "/API/jobs",
        "//api/jobs",
        "/api/jobs/",
      ]) {
        const r = await ask(path);
        expect([r.status, r.headers.get("cache-control")?.includes("max-age") ?? false], path).toEqual([401, false]);
      }
      const form = await (await ask("/sign-in")).text();
      for (const word of ["Mill", "Ann", "Ben", "PostgreSQL", "SQLite"]) expect(form).not.toContain(word);
      const { headers } = await ask("/sign-in");
      expect(headers.get("content-security-policy")).toMatch(/default-src 'none'.*form-action 'self'/);
      expect(headers.get("content-security-policy")).not.toContain("unsafe-inline");
    }));
  it("gives a cookie of this host alone, another at each sign-in; a planted one counts for nothing before and after", () =>
    within(async ({ ask, send, enter }) => {
      const planted = "__Host-fettle=planted";
      expect((await ask("/api/jobs", { cookie: planted })).status).toBe(401);
      const r = await send("/sign-in", { name: "ben", password }, planted);
      expect([r.status, r.headers.get("location")]).toEqual([303, "/"]);
      expect(r.headers.get("set-cookie")).toMatch(/^__Host-fettle=[\w-]{43}; Max-Age=2592000; Path=\/; HttpOnly; Secure; SameSite=Strict$/);
      const first = cookieOf(r);
      expect((await ask("/api/jobs", { cookie: planted })).status).toBe(401);
      expect((await ask("/api/jobs", { cookie: first })).status).toBe(200);
      const second = await enter("Ben", first);
      expect(second).not.toBe(first);
      expect((await ask("/api/jobs", { cookie: first })).status).toBe(401);
      const out = await send("/account/sign-out", {}, second);
      expect([out.status, out.headers.get("set-cookie")]).toEqual([303, expect.stringMatching(/^__Host-fettle=; Max-Age=0/)]);
      expect((await ask("/api/jobs", { cookie: second })).status).toBe(401);
      const all = [await enter("Ben"), await enter("Ben")];
      await send("/account/sign-out-everywhere", {}, all[0]);
      for (const c of all) expect((await ask("/api/jobs", { cookie: c })).status).toBe(401);
    }));
  it("answers an unknown name as a wrong password, and holds off who tries too often", () =>
    within(async ({ send }) => {
      const wrong = (name: string, from = "10.0.0.1") =>
        send("/sign-in", { name, password: "not this one here" }, undefined, { "x-from": from });
      const [known, unknown] = [await wrong("Ann"), await wrong("Nobody")];
      expect([known.status, unknown.status]).toEqual([401, 401]);
      expect(await known.text()).toBe(await unknown.text());
      expect([...known.headers]).toEqual([...unknown.headers]);
      for (let i = 1; i < mostTries.account; i++) expect((await wrong("Ann", `10.0.1.${i}`)).status).toBe(401);
      const right = await send("/sign-in", { name: "Ann", password }, undefined, { "x-from": "10.0.2.1" });
      expect([right.status, right.headers.get("retry-after"), cookieOf(right)]).toEqual([429, "900", ""]);
      for (let i = 0; i < mostTries.address - 2; i++)
        await send("/password", { code: `x${i}`, password }, undefined, { "x-from": "10.0.0.1" });
      expect((await send("/password", { code: "x", password }, undefined, { "x-from": "10.0.0.1" })).status).toBe(429);
    }));
  it("hears its own pages alone: no other site, no other name, no fields that don't say where they come from", () =>
    within(async ({ ask, send, enter, app, serving: { keeping } }) => {
      const cookie = await enter("Ann");
      const fields = { name: "Eve", act: "make", role: "keeper" };
      const elsewhere: Readonly<Record<string, string>>[] = [
        { origin: "https://evil.example" },
        { origin: "null" },
        { origin: `http://${host}` },
        { "sec-fetch-site": "cross-site" },
        { "sec-fetch-site": "same-site" },
      ];
      for (const heads of elsewhere) {
        expect((await send("/people/account", fields, cookie, heads)).status, JSON.stringify(heads)).toBe(403);
        expect((await ask("/api/jobs", { cookie, headers: heads })).status, JSON.stringify(heads)).toBe(403);
        expect((await send("/sign-in", { name: "Ann", password }, undefined, heads)).status).toBe(403);
      }
      const silent = { method: "POST", body: new URLSearchParams(fields), headers: { host, cookie } };
      expect((await app.request(`${origin}/people/account`, silent)).status).toBe(403);
      const json = { method: "POST", body: "{}", headers: { host, origin, cookie, "content-type": "text/plain" } };
      expect((await app.request(`${origin}/api/jobs/Mill/erase`, json)).status).toBe(403);
      for (const other of ["evil.example", "shop.example", `evil.example#${host}`, ""])
        expect((await ask("/api/jobs", { cookie, headers: { host: other } })).status, other).toBe(421);
      expect((await keeping.accounts.list()).map((a) => a.name)).toEqual(["Ann", "Ben"]);
      // a link on another site opens the page, which asks again by itself with its cookie
      const led = { "sec-fetch-site": "cross-site", "sec-fetch-mode": "navigate", "sec-fetch-dest": "document", accept: "text/html" };
      expect(await (await ask("/", { headers: led })).text()).toContain('http-equiv="refresh"');
      expect((await ask("/people", { cookie, headers: led })).status).toBe(403);
    }));
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
  it(
    "shows an owner the report of one job, and no other, until the link ends or is withdrawn",
    () =>
      within(async ({ ask, send, enter, wait, serving: { keeping } }) => {
        const ann = await enter("Ann");
        const made = await (await send("/people/link", { job: "Mill", days: "7" }, ann)).text();
        const [, at] = /https:\/\/shop\.example:8443(\/view\/[\w-]{43})/.exec(made) ?? [];
        const led = { "sec-fetch-site": "cross-site", "sec-fetch-mode": "navigate", "sec-fetch-dest": "document" };
        const view = await ask(at, { headers: led });
        expect([view.status, view.headers.get("cache-control"), view.headers.get("x-robots-tag")]).toEqual([200, "no-store", "noindex"]);
        const text = await view.text();
        expect(text).toContain("Mill");
        expect(text).toContain("2026-02-08");
        expect(text).not.toContain("Pier");
        const report = await ask(`${at}/report.pdf?job=Pier&name=Pier`);
        expect([report.status, report.headers.get("content-type")]).toEqual([200, "application/pdf"]);
        expect(
          Buffer.from(await report.arrayBuffer())
            .subarray(0, 5)
            .toString(),
        ).toBe("%PDF-");
        for (const more of ["/technical-record.pdf", "/export.zip", "/../Pier/report.pdf", "/report.pdf/x"])
          expect([401, 404], more).toContain((await ask(`${at}${more}`)).status);
        expect((await ask("/api/jobs/Mill/report.pdf")).status).toBe(401);
        const other = await keeping.links.make("Pier", 7, "Ann");
        const [{ id }] = await keeping.links.list();
        expect((await send("/people/withdraw", { id }, ann)).status).toBe(200);
        wait(3600_000);
        const gone = [await ask(at), await ask(`${at}/report.pdf`), await ask("/view/never-was")];
        expect((await ask(`/view/${other.secret}`)).status).toBe(200);
        wait(7 * 24 * 3600_000);
        gone.push(await ask(`/view/${other.secret}`));
        expect(gone.map((r) => r.status)).toEqual([404, 404, 404, 404]);
        const texts = new Set(await Promise.all(gone.map((r) => r.text())));
        expect(texts.size).toBe(1);
      }),
    120_000,
  );
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
  it("lets a keeper make, change and shut accounts on a page, each code told once", () =>
    within(async ({ ask, send, enter }) => {
      const ann = await enter("Ann");
      const made = await (await send("/people/account", { name: "Cleo", act: "make", role: "bench" }, ann)).text();
      const [code] = /(\w{5}-){4}\w{5}/.exec(made) ?? [""];
      expect(await (await ask("/people", { cookie: ann })).text()).not.toContain(code);
      expect((await send("/password", { code, name: "", password: "short" })).status).toBe(400);
      expect(await (await send("/password", { code, name: "", password })).text()).toContain("Sign in as Cleo now");
      expect((await send("/password", { code, name: "", password })).status).toBe(400);
      const cleo = await enter("Cleo");
      expect((await ask("/people", { cookie: cleo })).status).toBe(403);
      await send("/people/account", { name: "Cleo", act: "role", role: "keeper" }, ann);
      expect((await ask("/people", { cookie: cleo })).status).toBe(401);
      expect((await ask("/people", { cookie: await enter("Cleo") })).status).toBe(200);
      await send("/people/account", { name: "Cleo", act: "shut" }, ann);
      expect(await enter("Cleo")).toBe("");
      expect((await send("/people/account", { name: "Ann", act: "shut" }, ann)).status).toBe(400);
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
  it(
    "refuses in words whatever hostile bodies it is sent, signed in or not: every route",
    () =>
      within(async ({ app, enter, metrics }) => {
        const cookie = await enter("Ann");
        const deep = "[".repeat(5000);
        const bodies: readonly (readonly [type: string, body: string])[] = [
          ["application/json", '{"name":'],
          ["application/json", "[]"],
          ["application/json", `{"name":${deep}`],
          ["application/json", JSON.stringify({ name: ["x"], job: { $ne: 1 }, password: null, __proto__: { role: "keeper" } })],
          ["application/x-www-form-urlencoded", "name=a&name=b&act[]=make&role=keeper&password=%00%ff&code=%E0%A4%A"],
          ["multipart/form-data; boundary=x", "--x\r\ncontent-disposition: form-data; name=name\r\n\r\nno end"],
          ["multipart/form-data", "no boundary"],
          ["text/plain", "\u0000\ud800"],
        ];
        const posts = declared.filter((r) => r.method === "POST" && !r.path.startsWith("/account/sign-out"));
        for (const r of posts)
          for (const [type, body] of bodies)
            for (const signedIn of [true, false]) {
              const path = r.path.replace(/:\w+/g, "Mill");
              const init = {
                method: "POST",
                body,
                headers: { host, origin, "x-fettle": "page", "x-from": "10.3.3.3", "content-type": type, ...(signedIn ? { cookie } : {}) },
              };
              const answer = await app.request(`${origin}${path}`, init);
              expect(answer.status, `${path} ${type} ${body.slice(0, 30)}`).toBeLessThan(500);
              await answer.body?.cancel();
            }
        expect(posts.length).toBeGreaterThan(30);
        expect(metrics.text(true)).not.toMatch(/status="5/);
      }),
    120_000,
  );
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
