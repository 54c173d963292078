import type { Context, MiddlewareHandler } from "hono";
import { deleteCookie, getCookie, setCookie } from "hono/cookie";
import { html } from "hono/html";
import { suffices } from "../../../desk/roles";
import type { Account } from "../../../store/accounts/accounts";
import { sessionLives } from "../../../store/accounts/sessions";
import { inJson } from "../guard";
import type { OwnRoute } from "./own-routes";
import { plainPage } from "./plain-page";
import { asked, type ShopServing } from "./serving";

/** Source: RFC 6265bis, section 4.1.3.2: a cookie of this prefix is this host's alone, over TLS, for every path of it. */
const cookie = "__Host-fettle";
export const tokenOf = (c: Context): string | undefined => getCookie(c, cookie);
export const giveToken = (c: Context, token: string): void =>
  setCookie(c, cookie, token, { path: "/", secure: true, httpOnly: true, sameSite: "Strict", maxAge: sessionLives.wholeMs / 1000 });
export const takeToken = (c: Context): void => void deleteCookie(c, cookie, { path: "/", secure: true });

const issue = (code: string, expected: string) => ({ issues: [{ path: "account", code, read: "", expected }] });
const wantsPage = (c: Context): boolean => c.req.method === "GET" && (c.req.header("accept") ?? "").includes("text/html");
/** The same page asked again by itself: from another site's link a browser brings no cookie along the first time. */
const again = () =>
  html`<!doctype html><html lang="en"><head><meta charset="utf-8" /><meta http-equiv="refresh" content="0;url=/" /><title>Fettle</title></head><body><a href="/">Fettle</a></body></html>`;

/** Nobody is signed in, or no longer: a page leads to where one signs in, the rest says so. */
function nobody(c: Context): Response | Promise<Response> {
  if (c.req.header("sec-fetch-site") === "cross-site" && c.req.path === "/") return c.html(again(), 401);
  if (wantsPage(c)) return c.redirect("/sign-in", 303);
  return inJson(
    c,
    issue("signed-out", "you to sign in: open this address in another tab and sign in there; what you typed is kept here"),
    401,
  );
}
function tooLittle(c: Context, account: Account, may: string): Response | Promise<Response> {
  const words = `a ${may} for that: ${account.name} is signed in as ${account.role}`;
  return wantsPage(c)
    ? c.html(plainPage("Not here", html`<p>It takes ${words}.</p>`, account.name), 403)
    : inJson(c, issue("not-yours", words), 403);
}

/** Who is signed in: asked of every route, with what the route wants, before anything of the request is read. */
export const may =
  ({ keeping }: Pick<ShopServing, "keeping">, route: Pick<OwnRoute, "method" | "path" | "may">): MiddlewareHandler =>
  async (c, next) => {
    asked.setRoute(c, `${route.method} ${route.path}`);
    if (route.may === "anyone") return next();
    const token = tokenOf(c);
    // a page that only listens is no work of anybody's
    const account = token === undefined ? undefined : await keeping.sessions.of(token, route.path !== "/api/events");
    if (!account) return nobody(c);
    asked.setAccount(c, account);
    if (!suffices(account.role, route.may)) return tooLittle(c, account, route.may);
    return next();
  };

/** Whether somebody holds a good link; anything else of that address is answered alike. Its job is kept with the request. */
export const linked =
  ({ keeping }: Pick<ShopServing, "keeping">, path: string): MiddlewareHandler =>
  async (c, next) => {
    asked.setRoute(c, `GET ${path}`);
    const secret = c.req.param("secret") ?? "";
    const link = await keeping.links.of(secret);
    if (!link) {
      const words = html`<p>This link is over, or was withdrawn. Ask the shop for another one.</p>`;
      return c.html(plainPage("No report here", words), 404);
    }
    if ((await keeping.sessions.count("link", link.id)) !== undefined)
      return c.html(
        plainPage("Later", html`<p>This report was asked for very often just now. Try again in a quarter of an hour.</p>`),
        429,
      );
    asked.setLink(c, link);
    await next();
    c.header("cache-control", "no-store");
    // nobody's search finds what only its owner was told
    c.header("x-robots-tag", "noindex");
    return undefined;
  };
