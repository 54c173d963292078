/** A shop's server over one store, asked without a socket: people of each role, and requests as a browser sends them. */
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { demoSet } from "../../../desk/demo";
import { cheap, good } from "../../../store/accounts/people.testdata";
import { type Home, openHome } from "../../../store/home";
import type { JobStore } from "../../../store/store";
import { errandsHere } from "../../errands/errands-here";
import { asJson } from "./log";
import { type Metrics, metrics } from "./metrics";
import type { ShopServing } from "./serving";
import { serveShop } from "./shop-app";

export const host = "shop.example:8443";
export const origin = `https://${host}`;
export const password = good;
export const title = "A set with <b>marks</b> & signs";

interface AtShop {
  readonly store: JobStore;
  readonly serving: ShopServing;
  readonly app: ReturnType<typeof serveShop>;
  readonly metrics: Metrics;
  /** every line of the log so far */
  readonly log: () => string;
  readonly wait: (ms: number) => void;
  readonly ask: (path: string, init?: RequestInit & { readonly cookie?: string | undefined }) => Promise<Response>;
  /** fields as a page of the server's own sends them */
  readonly send: (
    path: string,
    fields: Readonly<Record<string, string>>,
    cookie?: string,
    more?: Readonly<Record<string, string>>,
  ) => Promise<Response>;
  /** signs in by the page; returns the cookie */
  readonly enter: (name: string, cookie?: string) => Promise<string>;
  readonly close: () => Promise<void>;
}
export const cookieOf = (r: Response): string => /^__Host-fettle=[^;]*/.exec(r.headers.get("set-cookie") ?? "")?.[0] ?? "";

/** Opens a shop in a home, with Ann who keeps it, Ben at a bench, and a job of each of two owners. */
async function atShop(home: Home, folder: string): Promise<AtShop> {
  let ms = Date.parse("2026-02-01T08:00:00.000Z");
  let n = 0;
  const now = () => new Date(ms).toISOString();
  const store = await openHome(home, now);
  const page = join(folder, "page");
  mkdirSync(page, { recursive: true });
  for (const [f, text] of [
    ["index.html", "<!doctype html><html lang=en><title>Fettle</title>"],
    ["page.js", "// page"],
    ["shop.css", "a{}"],
    ["x.woff2", "w"],
  ])
    writeFileSync(join(page, f), text);
  const set = { ...demoSet(), title };
  for (const name of ["Mill", "Pier"]) await store.create({ id: name, name, created: now(), set, entries: [] });
  const keeping = store.keeping(cheap);
  for (const [name, role] of [
    ["Ann", "keeper"],
    ["Ben", "bench"],
  ] as const)
    await keeping.accounts.setPassword(await keeping.accounts.make(name, role, "t"), password, "");
  const lines: string[] = [];
  const counts = metrics(0, () => 1);
  const newId = () => `n${++n}`;
  const serving: ShopServing = {
    desk: (who) => ({ store, errands: errandsHere(newId), stamp: { at: now(), who, newId } }),
    keeping,
    page,
    hosts: () => [host],
    from: (c) => c.req.header("x-from") ?? "192.168.1.20",
    log: (line) => void lines.push(asJson(line)),
    metrics: counts,
  };
  const app = serveShop(serving);
  const ask: AtShop["ask"] = async (path, { cookie, ...init } = {}) =>
    app.request(`${origin}${path}`, { ...init, headers: { host, "x-fettle": "page", ...(cookie ? { cookie } : {}), ...init.headers } });
  const send: AtShop["send"] = async (path, fields, cookie, more = {}) =>
    app.request(`${origin}${path}`, {
      method: "POST",
      body: new URLSearchParams(fields),
      headers: { host, origin, ...(cookie ? { cookie } : {}), "content-type": "application/x-www-form-urlencoded", ...more },
    });
  return {
    store,
    serving,
    app,
    metrics: counts,
    log: () => lines.join("\n"),
    wait: (by) => {
      ms += by;
    },
    ask,
    send,
    enter: async (name, cookie) => cookieOf(await send("/sign-in", { name, password }, cookie)),
    close: () => store.close(),
  };
}

/** Runs a test at a shop that is opened for it in a fresh home, and closed after it whatever comes. */
export const withinShop =
  (fresh: () => Promise<Home>, folder: string) =>
  async (work: (at: AtShop) => Promise<void>): Promise<void> => {
    const at = await atShop(await fresh(), folder);
    await work(at).finally(() => at.close());
  };
