import { createHash } from "node:crypto";
import { existsSync, readFileSync } from "node:fs";
import { basename, extname, join, normalize, sep } from "node:path";
import type { Context, Hono } from "hono";
import { bytesOf } from "./guard";

const media: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript",
  ".css": "text/css",
  ".woff2": "font/woff2",
  ".svg": "image/svg+xml",
};

/** Where the page is opened: at this machine, on a device that has joined at the chassis, or on one that is still at the door. */
export type Opened = "here" | "chassis" | "door";

/** The built page's own files. The document says where it is opened, so that the page shows what may be done there. */
export function pageFiles(app: Hono, page: string, opened: Opened): void {
  app.get("*", (c) => pageFile(c, page, opened === "here" ? "" : ` data-opened="${opened}"`));
}
/**
 * One of the page's files.
 *
 * @param c the request
 * @param page folder of the built page
 * @param marks what the document's first tag says beside its own
 */
export function pageFile(c: Context, page: string, marks: string): Response {
  const path = normalize(c.req.path === "/" ? "/index.html" : c.req.path);
  const file = join(page, path);
  if (!file.startsWith(`${page}${sep}`) || !Object.hasOwn(media, extname(file)) || !existsSync(file)) return c.text("not here", 404);
  const read = readFileSync(file);
  const marked = marks !== "" && extname(file) === ".html";
  const bytes = marked ? Buffer.from(read.toString("utf8").replace("<html", () => `<html${marks}`)) : read;
  const tag = `"${createHash("sha256").update(bytes).digest("hex").slice(0, 16)}"`;
  // a compressed answer's tag is a weak one
  if (c.req.header("if-none-match")?.replace(/^W\//, "") === tag) return c.body(null, 304);
  // packed as it was built; other ways of packing are the server's own
  const packed = /\bbr\b/.test(c.req.header("accept-encoding") ?? "") && existsSync(`${file}.br`) ? readFileSync(`${file}.br`) : undefined;
  return c.body(bytesOf(packed ?? bytes), 200, {
    "content-type": media[extname(file)],
    etag: packed ? `W/${tag}` : tag,
    // what a part holds is in its name; behind an address that is new at each start
    "cache-control": /^part-.*-[A-Z0-9]{8}\.js$|-[A-Z0-9]{8}\.woff2$/.test(basename(file))
      ? "private, max-age=86400, immutable"
      : "no-cache",
    vary: "Accept-Encoding",
    ...(packed ? { "content-encoding": "br" } : {}),
  });
}
