import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { brotliCompressSync, brotliDecompressSync, gunzipSync } from "node:zlib";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { demoSet } from "../../desk/demo";
import { openSqlite } from "../../store/sqlite";
import type { JobStore } from "../../store/store";
import { errandsHere } from "../errands/errands-here";
import { serve } from "./app";

const folder = mkdtempSync(join(tmpdir(), "guard-"));
const page = join(folder, "page");
const host = "127.0.0.1:1";
const secret = "an-address-of-this-test";
const entries = "/api/jobs/Set/fill";
let store: JobStore;
const ask = (path: string, headers: Readonly<Record<string, string>> = {}, init: RequestInit & { readonly duplex?: "half" } = {}) =>
  serve({
    page,
    hosts: () => [host],
    secret,
    desk: () => ({ store, errands: errandsHere(() => "i"), stamp: { at: "", who: "t", newId: () => "i" } }),
  }).request(`http://${host}${path}`, { ...init, headers: { host, "x-fettle": "page", ...headers } });
beforeAll(async () => {
  mkdirSync(page);
  writeFileSync(join(page, "index.html"), "<!doctype html><title>Fettle</title>");
  writeFileSync(join(page, "page.js"), `// ${"a page ".repeat(2000)}`);
  store = await openSqlite(join(folder, "jobs.db"));
  await store.create({ id: "s", name: "Set", created: "2026-02-01T00:00:00.000Z", set: demoSet(), entries: [] });
});
afterAll(async () => {
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

describe("the secret of the address", () => {
  it("is asked of every route: without it, with part of it or another one there is nothing but one plain sentence", async () => {
    for (const path of ["/", "/page.js", "/api/jobs", "/api/events", entries, "/api/jobs/Set/report.pdf"])
      for (const before of ["", "/an-address", `/${secret}x`, `/${secret.toUpperCase()}`, "/undefined"]) {
        const r = await ask(`${before}${path}`, {}, path === entries ? { method: "POST", body: "{}" } : {});
        expect(r.status, `${before}${path}`).toBe(403);
        expect(await r.text()).toBe("This page opens only at the address that Fettle printed when it started.\n");
      }
    expect((await ask(`/${secret}`)).status).toBe(403);
    expect((await ask(`/${secret}/`)).status).toBe(200);
    expect((await ask(`/${secret}/api/jobs`)).status).toBe(200);
    expect((await store.load("Set"))?.document.entries).toEqual([]);
  });
  it("does not help another site or another port that learned it, but to open the page itself", async () => {
    const from = (site: string, mode: string, dest: string) => ({ "sec-fetch-site": site, "sec-fetch-mode": mode, "sec-fetch-dest": dest });
    for (const site of ["cross-site", "same-site"]) {
      expect((await ask(`/${secret}/api/jobs/Set/report.pdf`, from(site, "no-cors", "image"))).status).toBe(403);
      expect((await ask(`/${secret}/api/jobs`, from(site, "navigate", "document"))).status).toBe(403);
      expect((await ask(`/${secret}/`, from(site, "navigate", "iframe"))).status).toBe(403);
      expect((await ask(`/${secret}/`, from(site, "navigate", "document"))).status).toBe(200);
    }
    expect((await ask(`/${secret}/api/jobs`, from("same-origin", "cors", "empty"))).status).toBe(200);
    expect((await ask(`/${secret}/`, from("none", "navigate", "document"))).status).toBe(200);
  });
  it("comes with a policy that lets no other page look on, on answers and refusals alike", async () => {
    for (const path of ["/", `/${secret}/`, `/${secret}/api/jobs`, `/${secret}/nothing.here`]) {
      const { headers } = await ask(path);
      expect(headers.get("cross-origin-resource-policy")).toBe("same-origin");
      expect(headers.get("cross-origin-opener-policy")).toBe("same-origin");
      expect(headers.get("content-security-policy")).toContain("default-src 'none'");
      expect(headers.get("referrer-policy")).toBe("no-referrer");
    }
  });
});

describe("what comes in", () => {
  const endless = (mb: number): { readonly body: ReadableStream; readonly given: () => number } => {
    let given = 0;
    return {
      given: () => given,
      body: new ReadableStream({
        pull: (c) => {
          if (given >= mb) return c.close();
          given++;
          c.enqueue(new Uint8Array(1_048_576));
        },
      }),
    };
  };
  it("is counted as it streams, and cut at the limit", async () => {
    for (const [path, most] of [
      [entries, 4],
      ["/api/import", 64],
    ] as const) {
      const { body, given } = endless(200);
      const r = await ask(`/${secret}${path}`, { "content-type": "application/json" }, { method: "POST", body, duplex: "half" });
      expect(r.status).toBe(413);
      expect((await r.json()).issues[0]).toMatchObject({ code: "too-large", expected: `at most ${most} MB` });
      expect(given()).toBeLessThanOrEqual(most + 3);
    }
  });
  it("is no JSON that is nested without end", async () => {
    const deep = `{"entries":${"[".repeat(5000)}${"]".repeat(5000)}}`;
    const r = await ask(`/${secret}${entries}`, { "content-type": "application/json" }, { method: "POST", body: deep });
    expect([r.status, (await r.json()).issues[0].code]).toEqual([400, "too-deep"]);
  });
});

describe("what goes out", () => {
  it("is compressed where the browser takes it, and still known by its tag", async () => {
    const r = await ask(`/${secret}/page.js`, { "accept-encoding": "gzip" });
    expect(r.headers.get("content-encoding")).toBe("gzip");
    const bytes = new Uint8Array(await r.arrayBuffer());
    expect(bytes.length).toBeLessThan(1000);
    expect(gunzipSync(bytes).toString()).toContain("a page a page");
    expect((await ask(`/${secret}/page.js`, { "accept-encoding": "gzip", "if-none-match": r.headers.get("etag") ?? "" })).status).toBe(304);
    expect((await ask(`/${secret}/page.js`)).headers.get("content-encoding")).toBe(null);
    expect((await ask(`/${secret}/api/jobs/Set`, { "accept-encoding": "gzip" })).headers.get("content-encoding")).toBe("gzip");
  });
  it("is packed as it was built where the browser takes that", async () => {
    writeFileSync(join(page, "page.js.br"), brotliCompressSync(readFileSync(join(page, "page.js"))));
    try {
      const r = await ask(`/${secret}/page.js`, { "accept-encoding": "gzip, br" });
      expect([r.headers.get("content-encoding"), r.headers.get("content-type")]).toEqual(["br", "text/javascript"]);
      expect(brotliDecompressSync(new Uint8Array(await r.arrayBuffer())).toString()).toContain("a page a page");
      expect((await ask(`/${secret}/page.js`, { "if-none-match": r.headers.get("etag") ?? "" })).status).toBe(304);
      expect((await ask(`/${secret}/page.js`, { "accept-encoding": "gzip" })).headers.get("content-encoding")).toBe("gzip");
      expect((await ask(`/${secret}/page.js.br`)).status).toBe(404);
    } finally {
      rmSync(join(page, "page.js.br"));
    }
  });
  it("is never compressed where it is a stream of events", async () => {
    const gone = new AbortController();
    const r = await ask(`/${secret}/api/events`, { "accept-encoding": "gzip" }, { signal: gone.signal });
    expect([r.headers.get("content-type"), r.headers.get("content-encoding")]).toEqual(["text/event-stream", null]);
    gone.abort();
    await r.body?.cancel();
  });
});
