import { promisify } from "node:util";
import { gzip } from "node:zlib";
import type { Context } from "hono";
import { bytesOf, inJson } from "./guard";

/** Below this packing isn't worth its time, bytes. House rule. */
const shortBytes = 64 * 1024;
/** Packed for this machine's own page, or one in the house: quickly, and small enough. */
const packing = { level: 3 };
const packed = new WeakMap<object, Promise<Uint8Array<ArrayBuffer>>>();
const written = new WeakMap<object, string>();
/** As it was written before, where it was. */
function textOf(value: object): string {
  const text = written.get(value) ?? JSON.stringify(value);
  written.set(value, text);
  return text;
}
/**
 * An answer as JSON, of an object that always says the same: it is written and packed once, for as long as the object is kept.
 *
 * @param c the request
 * @param value what is answered
 * @returns the answer
 */
export async function standing(c: Context, value: unknown): Promise<Response> {
  if (typeof value !== "object" || value === null) return inJson(c, value);
  const text = textOf(value);
  const head = { "content-type": "application/json", vary: "Accept-Encoding" };
  const takesGzip = /\bgzip\b/.test(c.req.header("accept-encoding") ?? "");
  if (!takesGzip || text.length < shortBytes) return c.body(text, 200, { ...head, "content-length": String(Buffer.byteLength(text)) });
  const bytes = packed.get(value) ?? promisify(gzip)(text, packing).then(bytesOf);
  packed.set(value, bytes);
  return c.body(await bytes, 200, { ...head, "content-encoding": "gzip" });
}
