import { createHash } from "node:crypto";
import { existsSync, readFileSync } from "node:fs";
import { extname, join, normalize, sep } from "node:path";
import { Hono } from "hono";
import { streamSSE } from "hono/streaming";
import type { Desk } from "../../desk/actions";
import { bytesOf, guard, pathBehind } from "./guard";
import { commandRoutes, takesUploads } from "./routes";
import { stateRoute } from "./states";

const media: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript",
  ".css": "text/css",
  ".woff2": "font/woff2",
  ".svg": "image/svg+xml",
};
export interface Serving {
  /** a fresh stamp for each request, over one store */
  readonly desk: () => Desk;
  /** folder of the built page */
  readonly page: string;
  /** `host:port` names that this server answers to; anything else is somebody else's page */
  readonly hosts: () => readonly string[];
  /** what every address of it begins with: who doesn't know it gets nothing */
  readonly secret: string;
}

/** The server's routes over one store. It answers this machine and the page of its own address only, and asks nothing of any other. */
export function serve({ desk, page, hosts, secret }: Serving): Hono {
  const app = new Hono({ getPath: pathBehind(secret) });
  guard(app, hosts, takesUploads);
  stateRoute(app, desk);
  commandRoutes(app, desk);
  app.get("/api/events", (c) =>
    streamSSE(c, async (stream) => {
      let last = -1;
      while (!stream.aborted) {
        const now = await desk().store.changeCount();
        if (now !== last) await stream.writeSSE({ event: "change", data: String(now) });
        last = now;
        await stream.sleep(500);
      }
    }),
  );

  app.get("*", (c) => {
    const path = normalize(c.req.path === "/" ? "/index.html" : c.req.path);
    const file = join(page, path);
    if (!file.startsWith(`${page}${sep}`) || extname(file) === "" || !existsSync(file)) return c.text("not here", 404);
    const bytes = readFileSync(file);
    const tag = `"${createHash("sha256").update(bytes).digest("hex").slice(0, 16)}"`;
    // a compressed answer's tag is a weak one
    if (c.req.header("if-none-match")?.replace(/^W\//, "") === tag) return c.body(null, 304);
    return c.body(bytesOf(bytes), 200, {
      "content-type": media[extname(file)] ?? "application/octet-stream",
      etag: tag,
      "cache-control": "no-cache",
    });
  });
  return app;
}
