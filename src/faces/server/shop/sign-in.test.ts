/** How people come in to a shop's server and go out, on both homes: cookies, tries, accounts and their codes. */
import { expect, it } from "vitest";
import { mostTries } from "../../../store/accounts/tries";
import { bothHomes } from "../../../store/both-homes.testdata";
import { cookieOf, password, withinShop } from "./shop-app.testdata";

const { inEach, folder } = bothHomes("sign-in");

inEach("signing in to a shop's server on", ({ fresh }) => {
  const within = withinShop(fresh, folder);
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
});
