import { createHash, timingSafeEqual } from "node:crypto";
import type { Context, Hono, MiddlewareHandler } from "hono";
import { bodyLimit } from "hono/body-limit";
import { compress } from "hono/compress";
import type { ContentfulStatusCode } from "hono/utils/http-status";
import { getPath } from "hono/utils/url";
import { tell } from "../../desk/tell";
import { InputError, type Issue } from "../../units/issue";

/** What stands between the routes and whoever asks: whose page it is, how much may come, and how an error is told. */

const largestUploadBytes = 64 * 1024 * 1024;
const largestJsonBytes = 4 * 1024 * 1024;
const policy =
  "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; connect-src 'self'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'";
const always: Readonly<Record<string, string>> = {
  "content-security-policy": policy,
  "x-content-type-options": "nosniff",
  "referrer-policy": "no-referrer",
  "cross-origin-resource-policy": "same-origin",
  "cross-origin-opener-policy": "same-origin",
};
/** Parts of the page and its type hold no document and start no worker: what a document may do is not said with each, of which a first load has thirty. */
const isPart = /^\/(?:part-[\w-]+\.js|[\w-]+\.woff2)$/;
const onParts: typeof always = { "x-content-type-options": "nosniff", "cross-origin-resource-policy": "same-origin" };
/** Where a request ends up that doesn't hold the secret of the address. */
const outside = "//outside";

const wrong = (path: string, read: string, expected: string): InputError => new InputError([{ path, code: "bad-request", read, expected }]);
/** Fields and files of an upload. */
export async function bodyOf(c: Context): Promise<Record<string, unknown>> {
  try {
    return await c.req.parseBody();
  } catch {
    throw wrong("body", c.req.header("content-type") ?? "", "an upload of a file");
  }
}

/** An answer as JSON, with its length: a short one is not worth packing. */
export function inJson(c: Context, value: unknown, status: ContentfulStatusCode = 200): Response {
  const text = JSON.stringify(value) ?? "";
  return c.body(text, status, { "content-type": "application/json", "content-length": String(Buffer.byteLength(text)) });
}

/** Bytes as an answer's body takes them: never of shared memory. */
export const bytesOf = (bytes: Uint8Array): Uint8Array<ArrayBuffer> =>
  bytes.buffer instanceof ArrayBuffer ? (bytes as Uint8Array<ArrayBuffer>) : new Uint8Array(bytes);

const digest = (text: string): Buffer => createHash("sha256").update(text).digest();

/**
 * The path of a request behind the secret that its address begins with: `/SECRET/api/jobs` is `/api/jobs`. Without the secret it is no route at all.
 *
 * @param secret what the address must begin with; compared in constant time
 * @returns for Hono's `getPath`
 */
export function pathBehind(secret: string): (request: Request) => string {
  const wanted = digest(secret);
  return (request) => {
    const path = getPath(request);
    const end = path.indexOf("/", 1);
    const said = path.slice(1, end < 0 ? undefined : end);
    return timingSafeEqual(digest(said), wanted) && end > 0 ? path.slice(end) : outside;
  };
}

/** Whether the browser says that another page asked: another site, another port of this machine. Opening the page itself from there is no harm. */
function fromElsewhere(c: Context, isEntrance: (path: string) => boolean): boolean {
  const site = c.req.header("sec-fetch-site");
  if (site === undefined || site === "same-origin" || site === "none") return false;
  return !(
    c.req.method === "GET" &&
    isEntrance(c.req.path) &&
    c.req.header("sec-fetch-mode") === "navigate" &&
    c.req.header("sec-fetch-dest") === "document"
  );
}

const issue = (path: string, code: string, read: string, expected: string): { readonly issues: readonly Issue[] } => ({
  issues: [{ path, code, read, expected }],
});
const tooLarge = (c: Context, bytes: number): Response =>
  inJson(c, issue("file", "too-large", "more", `at most ${bytes / 1048576} MB`), 413);
/** At most so many bytes of a body: by what it says of itself, where it does; else each piece is counted. */
function atMost(bytes: number): MiddlewareHandler {
  const counting = bodyLimit({ maxSize: bytes, onError: (c) => tooLarge(c, bytes) });
  return (c, next) => {
    if (c.req.method === "GET" || c.req.method === "HEAD") return next();
    const said = c.req.header("content-length");
    if (said === undefined || c.req.header("transfer-encoding") !== undefined) return counting(c, next);
    return Number.parseInt(said, 10) > bytes ? Promise.resolve(tooLarge(c, bytes)) : next();
  };
}
const packed = compress();
/** Packs answers for whoever can unpack them. */
const packing: MiddlewareHandler = async (c, next) => {
  if (c.req.header("accept-encoding") !== undefined) return packed(c, next);
  await next();
  if (!c.res.headers.has("vary")) c.res.headers.set("vary", "Accept-Encoding");
  return undefined;
};

/** What an app is guarded by. */
export interface Guarded {
  /** `host:port` names that it answers to */
  readonly hosts: () => readonly string[];
  /** whether files are sent to a path */
  readonly takesUploads: (path: string) => boolean;
  /** pages of the server's own, on the network behind TLS, whose fields the browser sends by itself */
  readonly plain?: {
    /** pages that another site may lead to; they show nothing of anybody's and change nothing */
    readonly isEntrance: (path: string) => boolean;
    readonly takesFields: (path: string) => boolean;
  };
}
/** The server's own pages send their fields to itself alone, and say where they come from when they do. */
const onPlain: typeof always = {
  ...always,
  "content-security-policy": policy.replace("form-action 'none'", "form-action 'self'"),
  "referrer-policy": "same-origin",
};

/**
 * Guards every route of an app: this machine, this page and the secret of its address only, nothing too large, a strict policy, errors as issues.
 *
 * @param app the app, made with `pathBehind` where its address has a secret, before its routes are added
 * @param by whom it answers, and what
 */
export function guard(app: Hono, { hosts, takesUploads, plain }: Guarded): void {
  const heads = plain ? onPlain : always;
  const isEntrance = plain?.isEntrance ?? ((path: string) => path === "/");
  app.use("*", async (c, next) => {
    await next();
    // set on the answer as it is: `c.header` would make it anew, each time
    const { headers } = c.res;
    for (const [name, value] of Object.entries(isPart.test(c.req.path) ? onParts : heads)) headers.set(name, value);
    if (c.req.path.startsWith("/api/")) headers.set("cache-control", "no-store");
  });
  app.use("*", packing);
  app.use("*", async (c, next) => {
    const host = c.req.header("host") ?? "";
    if (!hosts().includes(host)) return inJson(c, issue("host", "wrong-host", host, "this machine's own address"), 421);
    // said by a browser with whatever changes something; another page's own origin is none of this one's
    const origin = c.req.header("origin");
    if (origin !== undefined && origin !== `${plain ? "https" : "http"}://${host}`)
      return inJson(c, issue("origin", "wrong-page", origin, "a request of Fettle's own page"), 403);
    if (c.req.path === outside || fromElsewhere(c, isEntrance))
      return c.text("This page opens only at the address that Fettle printed when it started.\n", 403);
    // A page of another origin can't send this header without asking first, and is never told that it may; fields say where they come from.
    const own = c.req.header("x-fettle") === "page" || (origin !== undefined && plain?.takesFields(c.req.path) === true);
    if (c.req.method !== "GET" && !own) return inJson(c, issue("x-fettle", "wrong-page", "", "a request of Fettle's own page"), 403);
    await next();
    return undefined;
  });
  const [upload, other] = [atMost(largestUploadBytes), atMost(largestJsonBytes)];
  app.use("*", (c, next) => (takesUploads(c.req.path) ? upload : other)(c, next));
  app.onError((e, c) => {
    const told = tell(e);
    if (told.kind === "defect" && process.env.FETTLE_TRACE) console.error(e);
    return inJson(c, { issues: told.issues }, told.status);
  });
}
