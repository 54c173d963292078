import type { Context, Hono } from "hono";
import type { z } from "zod";
import { StoreError } from "../../store/store";
import { InputError, type Issue } from "../../units/issue";

/** What stands between the routes and whoever asks: whose page it is, how much may come, and how an error is told. */

const largestUploadBytes = 64 * 1024 * 1024;
const policy =
  "default-src 'none'; script-src 'self'; worker-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; connect-src 'self'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'";

export const wrong = (path: string, read: string, expected: string): InputError =>
  new InputError([{ path, code: "bad-request", read, expected }]);
/** A request's data by its schema, or the field that is wrong. */
export const parsed = <T>(schema: z.ZodType<T>, data: unknown): T => {
  const r = schema.safeParse(data);
  if (r.success) return r.data;
  const first = r.error.issues[0];
  throw wrong(first.path.map(String).join(".") || "body", "", first.message);
};

/** Fields and files of an upload. */
export async function bodyOf(c: Context): Promise<Record<string, unknown>> {
  try {
    return await c.req.parseBody();
  } catch {
    throw wrong("body", c.req.header("content-type") ?? "", "an upload of a file");
  }
}

/**
 * Guards every route of an app: this machine and this page only, nothing too large, a strict policy, errors as issues.
 *
 * @param app the app, before its routes are added
 * @param hosts `host:port` names that it answers to
 */
export function guard(app: Hono, hosts: () => readonly string[]): void {
  app.use("*", async (c, next) => {
    const host = c.req.header("host") ?? "";
    if (!hosts().includes(host))
      return c.json({ issues: [{ path: "host", code: "wrong-host", read: host, expected: "this machine's own address" }] }, 421);
    // A page of another origin can't send this header without asking first, and is never told that it may.
    if (c.req.method !== "GET" && c.req.header("x-fettle") !== "page")
      return c.json({ issues: [{ path: "x-fettle", code: "wrong-page", read: "", expected: "a request of Fettle's own page" }] }, 403);
    if (Number(c.req.header("content-length") ?? 0) > largestUploadBytes)
      return c.json(
        {
          issues: [
            {
              path: "file",
              code: "too-large",
              read: `${Math.round(Number(c.req.header("content-length")) / 1048576)} MB`,
              expected: `at most ${largestUploadBytes / 1048576} MB`,
            },
          ],
        },
        413,
      );
    await next();
    c.header("content-security-policy", policy);
    c.header("x-content-type-options", "nosniff");
    c.header("referrer-policy", "no-referrer");
    if (c.req.path.startsWith("/api/")) c.header("cache-control", "no-store");
    return undefined;
  });
  app.onError((e, c) => {
    if (e instanceof InputError) return c.json({ issues: e.issues }, 400);
    if (e instanceof StoreError)
      return c.json(
        { issues: [{ path: "store", code: e.code, read: "", expected: e.message } satisfies Issue] },
        e.code === "full" ? 507 : e.code === "no-job" ? 404 : 409,
      );
    if (e instanceof SyntaxError) return c.json({ issues: [{ path: "body", code: "not-json", read: "", expected: "JSON" }] }, 400);
    return c.json({ issues: [{ path: "server", code: "defect", read: e.name, expected: "no defect: please report it" }] }, 500);
  });
}
