import { gunzipSync } from "node:zlib";
import { Hono } from "hono";
import { expect, it } from "vitest";
import { standing } from "./standing";

it("writes and packs an object once for as long as it is the same, and another anew", async () => {
  let written = 0;
  const made = (says: string) => ({
    says,
    long: "a reading ".repeat(20_000),
    toJSON() {
      written++;
      return { says, long: this.long };
    },
  });
  let now = made("one");
  const app = new Hono().get("/", (c) => standing(c, now));
  const asked = async (encoding?: string) => {
    const r = await app.request("/", encoding === undefined ? {} : { headers: { "accept-encoding": encoding } });
    const bytes = new Uint8Array(await r.arrayBuffer());
    const isPacked = r.headers.get("content-encoding") === "gzip";
    expect(r.headers.get("vary")).toBe("Accept-Encoding");
    return {
      isPacked,
      length: bytes.length,
      says: JSON.parse(isPacked ? gunzipSync(bytes).toString() : new TextDecoder().decode(bytes)).says,
    };
  };
  const [packed, plain] = [await asked("gzip, br"), await asked()];
  expect([packed.isPacked, packed.says, plain.isPacked, plain.says]).toEqual([true, "one", false, "one"]);
  expect(packed.length).toBeLessThan(plain.length / 20);
  expect(await asked("gzip")).toEqual(packed);
  expect(written).toBe(1);
  now = made("two");
  expect([(await asked("gzip")).says, (await asked("gzip")).says, written]).toEqual(["two", "two", 2]);
});
