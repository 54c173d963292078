import { createHash } from "node:crypto";
import type { Context, Hono, MiddlewareHandler } from "hono";
import type { Desk } from "../../desk/actions";
import { commands } from "../../desk/commands/index";
import type { At, Reply, Served } from "../../desk/declare";
import { suffices } from "../../desk/roles";
import { orThrow } from "../../units/issue";
import { readJson } from "../../units/json";
import { bodyOf, bytesOf, inJson } from "./guard";
import { standing } from "./standing";

/** Fields and file of an upload; a field left empty is not said. */
async function uploaded(c: Context): Promise<Readonly<Record<string, unknown>>> {
  const { file, ...fields } = await bodyOf(c);
  const said = Object.fromEntries(Object.entries(fields).filter(([, text]) => text !== ""));
  return file instanceof File ? { ...said, file: { name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) } } : said;
}
/** What a request says, the names in its path with it: `:name` is the job. What is no record of fields stays as it is, to be refused. */
async function saidIn(c: Context, { method, upload }: Served): Promise<unknown> {
  const { name, ...inPath }: Readonly<Record<string, string>> = c.req.param();
  const body = method === "GET" ? c.req.query() : upload ? await uploaded(c) : orThrow(readJson(await c.req.text(), "body"));
  if (typeof body !== "object" || body === null || Array.isArray(body)) return body;
  return { ...body, ...inPath, ...(name === undefined ? {} : { job: name }) };
}
function reply(c: Context, gives: Reply): Response | Promise<Response> {
  if ("json" in gives) return gives.stands ? standing(c, gives.json) : inJson(c, gives.json, gives.status ?? 200);
  const { paper, type, file, revision } = gives;
  return c.body(typeof paper === "string" ? paper : bytesOf(paper), 200, {
    "content-type": type,
    ...(file === undefined ? {} : { "content-disposition": file === "" ? "attachment" : `attachment; filename="${file}"` }),
    ...(revision === undefined ? {} : { "x-revision": String(revision) }),
  });
}

/** Whether a request's path is one that files are sent to. */
export const takesUploads = (path: string): boolean => uploadEnds.has(path.slice(path.lastIndexOf("/")));
const uploadEnds: ReadonlySet<string> = new Set(
  commands.flatMap((command) => command.served.flatMap((r) => (r.upload ? [r.path.slice(r.path.lastIndexOf("/"))] : []))),
);

/** As page and server agree on it: names a request that may be sent again, says what the person had before them, and when it was done and sent by the bench's own clock. */
const heads = { request: "x-request", seen: "x-seen", done: "x-done", sent: "x-sent" };
const shortWord = /^[\w-]{1,64}$/;
/** Held for less than that is done when it comes in; for more than a year is a clock that was put on meanwhile. Common practice, no source. */
const [leastHeldMs, mostHeldMs] = [60e3, 366 * 86_400e3];
/** When it was done, where a bench held it: as long ago as its own clock says, whatever that clock is set to, and never later than now. */
function heldBack(c: Context, { at }: Desk["stamp"]): { readonly at: string; readonly received: string } | undefined {
  const [done, sent] = [heads.done, heads.sent].map((h) => Date.parse(c.req.header(h) ?? ""));
  const heldMs = sent - done;
  return heldMs > leastHeldMs && heldMs < mostHeldMs ? { at: new Date(Date.parse(at) - heldMs).toISOString(), received: at } : undefined;
}
/**
 * The desk for one request. Ids of what it records follow from the request's own, so that a request that is sent again, since its answer got lost, records
 * nothing twice.
 */
function deskFor(c: Context, given: Desk): Desk {
  const [request, seen] = [c.req.header(heads.request), c.req.header(heads.seen)];
  let n = 0;
  const hash = (): string => createHash("sha256").update(`${given.stamp.who} ${request} ${n++}`).digest("hex");
  const named = request !== undefined && shortWord.test(request) ? { newId: () => uuidOf(hash()) } : {};
  const held = heldBack(c, given.stamp);
  const stamp = { ...given.stamp, ...named, ...(held ? { at: held.at } : {}) };
  const received = held ? { received: held.received } : {};
  return { ...given, stamp, ...received, ...(seen !== undefined && shortWord.test(seen) ? { seen } : {}) };
}
/** A digest in the shape of an id. Source: RFC 9562, version 8. */
const uuidOf = (hex: string): string =>
  `${hex.slice(0, 8)}-${hex.slice(8, 12)}-8${hex.slice(13, 16)}-8${hex.slice(17, 20)}-${hex.slice(20, 32)}`;

/** How a route is added to an app. */
interface Adding {
  readonly desk: (c: Context) => Desk;
  /** comes before all else, and may refuse */
  readonly first?: MiddlewareHandler;
  /** why it is refused to whoever asks, before anything is done */
  readonly refused?: (said: unknown) => string | undefined;
  /** the job that it is about, where that is not said but held */
  readonly job?: (c: Context) => string;
}
/** Adds a command's route. */
function add(app: Hono, route: Served, { desk, first, refused, job }: Adding): void {
  app.on(route.method, route.path, first ?? ((_, next) => next()), async (c) => {
    const d = deskFor(c, desk(c));
    // whether it was given up is made out for whoever looks
    const at: At = {
      desk: (work) => work(d),
      errands: d.errands,
      get signal() {
        return c.req.raw.signal;
      },
    };
    const stated = await saidIn(c, route);
    const said = job && typeof stated === "object" ? { ...stated, job: job(c) } : stated;
    const why = refused?.(said);
    if (why !== undefined) return inJson(c, { issues: [{ path: "this device", code: "not-here", read: "", expected: why }] }, 403);
    return reply(c, await route.answer(said, at));
  });
}

/** The route of every command that has one: its method, its address, its check and its action are the command's own. */
export function commandRoutes(app: Hono, desk: () => Desk): void {
  for (const command of commands) for (const route of command.served) add(app, route, { desk });
}

/** The same for whoever has signed in: `first` asks what the route wants, under the name of its command. */
export function signedInRoutes(app: Hono, desk: (c: Context) => Desk, first: (route: Served, command: string) => MiddlewareHandler): void {
  for (const command of commands) for (const route of command.served) add(app, route, { desk, first: first(route, command.name) });
}

/** What an owner may ask, behind a link: papers of the one job that it is for. `/api/jobs/:name/x` is `/view/:secret/x`. */
export function ownerRoutes(app: Hono, of: Required<Pick<Adding, "desk" | "first" | "job">>): readonly string[] {
  const owners = commands.flatMap((c) => c.served.filter((r) => suffices("owner", r.may)));
  const asked = owners.map((r) => ({ ...r, path: r.path.replace("/api/jobs/:name/", "/view/:secret/") }));
  for (const route of asked) add(app, route, of);
  return asked.map((r) => r.path);
}

/** The routes that a device which joined may use, of the one job that it joined for. */
export function joinedRoutes(app: Hono, desk: () => Desk, job: string): void {
  for (const command of commands)
    for (const route of command.served) {
      const { joined } = route;
      if (!joined) continue;
      const refused = (said: unknown): string | undefined => {
        const fields: Readonly<Record<string, unknown>> = typeof said === "object" && said !== null ? { ...said } : {};
        if (fields.job !== job) return "the job that this device joined for";
        return joined(fields) ? undefined : "Fettle's own machine for that: here you see, read and listen";
      };
      add(app, route, { desk, refused });
    }
}
