import { randomUUID } from "node:crypto";
import { createServer as createTls } from "node:https";
import type { AddressInfo } from "node:net";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { serve as listen, type ServerType } from "@hono/node-server";
import { type Context, Hono } from "hono";
import type { ShopKeeping } from "../../../store/accounts/shop-keeping";
import { type Home, openHome, sayHome } from "../../../store/home";
import { warningOf } from "../../../store/upgrade";
import { InputError } from "../../../units/issue";
import { builtThread, errandThreads } from "../../errands/errand-threads";
import { errandsWhenAsked } from "../../errands/errands-when-asked";
import type { LogLine } from "./log";
import { metrics as metricsOf, metricsType } from "./metrics";
import type { Plan } from "./plan";
import type { ShopServing } from "./serving";
import { serveShop, storeAnswers } from "./shop-app";

export interface ShopRunning {
  readonly address: string;
  readonly keeping: ShopKeeping;
  readonly close: () => Promise<void>;
}
/** The socket that a request came over, as the listener hands it on. */
export interface Bound {
  readonly incoming?: { readonly socket?: { readonly remoteAddress?: string | undefined } };
}
const plainAddress = (address = ""): string => address.replace(/^::ffff:(?=\d+\.)/, "");
const remote = (env: Bound): string => plainAddress(env.incoming?.socket?.remoteAddress);

/**
 * The address that a request comes from: the socket's, or what a proxy says that is named. It puts the sender last.
 *
 * @param proxies addresses of that proxy
 */
export const senderOf =
  (proxies: readonly string[] | undefined) =>
  (c: Context<{ Bindings: Bound }>): string => {
    const by = remote(c.env ?? {});
    if (!proxies?.includes(by)) return by;
    return plainAddress(c.req.header("x-forwarded-for")?.split(",").at(-1)?.trim()) || by;
  };
/** The server for a plan; where a proxy is named nobody else is heard. */
export const heardBy =
  (app: { readonly fetch: (request: Request, env: Bound) => Response | Promise<Response> }, proxies: readonly string[] | undefined) =>
  (request: Request, env: Bound): Response | Promise<Response> =>
    proxies && !proxies.includes(remote(env)) ? new Response("Ask the shop's own address.\n", { status: 403 }) : app.fetch(request, env);

const opened = (server: ServerType, port: number): Promise<number> =>
  new Promise((resolve, reject) => {
    server.once("error", (e: NodeJS.ErrnoException) => {
      const expected =
        e.code === "EADDRINUSE"
          ? "a free port: another server uses it"
          : e.code === "EADDRNOTAVAIL"
            ? "an address of this machine"
            : e.code === "EACCES"
              ? "a port from 1024 up, or the right to use this one"
              : undefined;
      reject(expected ? new InputError([{ path: "--host", code: String(e.code), read: `port ${port}`, expected }]) : e);
    });
    server.once("listening", () => resolve((server.address() as AddressInfo).port));
  });
const shut = (server: ServerType | undefined): Promise<void> =>
  new Promise((done) => {
    if (!server) return done();
    server.close(() => done());
    if ("closeAllConnections" in server) server.closeAllConnections();
  });

/** What is told to programs of this machine: counts, whether the store answers, and what is wrong with how it is set up; never to the network. */
function forPrograms(of: ShopServing, port: number, warning: string | undefined): Hono {
  const app = new Hono();
  app.use("*", async (c, next) => {
    if (![`127.0.0.1:${port}`, `localhost:${port}`].includes(c.req.header("host") ?? "")) return c.text("not here\n", 421);
    await next();
    return undefined;
  });
  app.get("/metrics", async (c) => c.body(of.metrics.text(await storeAnswers(of)), 200, { "content-type": metricsType }));
  const detail = warning === undefined ? {} : { detail: [warning] };
  app.get("/health", async (c) =>
    (await storeAnswers(of)) ? c.json({ status: "ok", ...detail }) : c.json({ status: "store away", ...detail }, 503),
  );
  return app;
}
function listenerFor(plan: Plan, fetch: ReturnType<typeof heardBy>): ServerType {
  const where = { hostname: plan.host, port: plan.port };
  if (!plan.tls) return listen({ fetch, ...where });
  try {
    return listen({ fetch, ...where, createServer: createTls, serverOptions: { ...plan.tls, minVersion: "TLSv1.2" } });
  } catch {
    const expected = "a certificate and the key that belongs to it, both as PEM files";
    throw new InputError([{ path: "--certificate", code: "not-a-certificate", read: "", expected }]);
  }
}

/**
 * Serves a shop: accounts asked of everybody, over TLS or behind a proxy that is named.
 *
 * @param home where the jobs are kept, a file or a shop's database
 * @param plan how
 * @param more where counts are told, and who writes the log
 */
export async function startShop(
  home: Home,
  plan: Plan,
  more: { readonly metricsPort?: number | undefined; readonly log: (line: LogLine) => void },
): Promise<ShopRunning> {
  const warn = (says: string): void => more.log({ event: "warning", at: new Date().toISOString(), says });
  const store = await openHome(home, undefined, warn);
  const script = builtThread();
  const threads = script ? errandThreads(script) : undefined;
  const errands = threads ?? errandsWhenAsked(randomUUID);
  const now = (): string => new Date().toISOString();
  let names: readonly string[] = [];
  const serving: ShopServing = {
    desk: (who) => ({ store, errands, stamp: { at: now(), who, newId: randomUUID } }),
    keeping: store.keeping(),
    page: join(dirname(fileURLToPath(import.meta.url)), "page"),
    hosts: () => names,
    from: senderOf(plan.proxies),
    log: more.log,
    metrics: metricsOf(Date.now() / 1000, () => process.memoryUsage().rss),
  };
  let [main, counts]: (ServerType | undefined)[] = [];
  const close = async (): Promise<void> => {
    await Promise.all([shut(main), shut(counts)]);
    await Promise.all([store.close(), threads?.close()]);
  };
  try {
    const warning = await warningOf(home);
    if (warning !== undefined) warn(warning);
    main = listenerFor(plan, heardBy(serveShop(serving), plan.proxies));
    names = plan.names(await opened(main, plan.port));
    if (more.metricsPort !== undefined) {
      counts = listen({ fetch: forPrograms(serving, more.metricsPort, warning).fetch, hostname: "127.0.0.1", port: more.metricsPort });
      await opened(counts, more.metricsPort);
    }
    const address = `https://${names[0]}/`;
    more.log({ event: "started", at: now(), address, home: sayHome(home) });
    return { address, keeping: serving.keeping, close: () => close().then(() => more.log({ event: "stopped", at: now() })) };
  } catch (e) {
    await close();
    throw e;
  }
}
