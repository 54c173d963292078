/** Who may ask what of a shop's server, on both homes: every route and every role, other sites, owners, hostile bodies. */
import { expect, it } from "vitest";
import { commands } from "../../../desk/commands/index";
import { roles, suffices } from "../../../desk/roles";
import { bothHomes } from "../../../store/both-homes.testdata";
import { ownRoutes } from "./own-routes";
import { host, origin, password, withinShop } from "./shop-app.testdata";

const { inEach, folder } = bothHomes("who-may-what");
/** Every route that is declared, a command's or the server's own, with who may ask it. */
const declared = [
  ...commands.flatMap((c) => c.served.map(({ method, path, may }) => ({ method, path, may }))),
  ...Object.values(ownRoutes),
  ...commands.flatMap((c) =>
    c.served.filter((r) => r.may === "owner").map((r) => ({ ...r, path: r.path.replace("/api/jobs/:name/", "/view/:secret/") })),
  ),
];
const keyOf = (r: { readonly method: string; readonly path: string }): string => `${r.method} ${r.path}`;

inEach("what may be asked of a shop's server on", ({ fresh }) => {
  const within = withinShop(fresh, folder);
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
  it("shows an owner the report of one job, and no other, until the link ends or is withdrawn", () =>
    within(async ({ ask, send, enter, wait, serving: { keeping } }) => {
      const ann = await enter("Ann");
      const made = await (await send("/people/link", { job: "Mill", days: "7" }, ann)).text();
      const [, at] = /https:\/\/shop\.example:8443(\/view\/[\w-]{43})/.exec(made) ?? [];
      const led = { "sec-fetch-site": "cross-site", "sec-fetch-mode": "navigate", "sec-fetch-dest": "document" };
      const view = await ask(at, { headers: led });
      expect([view.status, view.headers.get("cache-control"), view.headers.get("x-robots-tag")]).toEqual([200, "no-store", "noindex"]);
      const text = await view.text();
      expect(text).toContain("Mill");
      expect(text).toContain("8 February 2026");
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
    }));
  it("refuses in words whatever hostile bodies it is sent, signed in or not: every route", () =>
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
    }));
});
