import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { demoSet, demoSweepCsv } from "../../desk/demo";
import { openSqlite } from "../../store/sqlite";
import type { JobStore } from "../../store/store";
import { errandsHere } from "../errands/errands-here";
import { serve } from "./app";

const folder = mkdtempSync(join(tmpdir(), "server-"));
let store: JobStore;
let n = 0;
const host = "127.0.0.1:1";
const secret = "a-secret-of-this-test";
const newId = () => `i${++n}`;
let served: ReturnType<typeof serve> | undefined;
const app = () => {
  served ??= serve({
    page: join(folder, "page"),
    hosts: () => [host],
    secret,
    desk: () => ({ store, errands: errandsHere(newId), stamp: { at: "2026-02-01T00:00:00.000Z", who: "t", newId } }),
  });
  return served;
};
const ask = (path: string, init: RequestInit = {}) =>
  app().request(`http://${host}/${secret}${path}`, { ...init, headers: { host, "x-fettle": "page", ...(init.headers ?? {}) } });
const post = (path: string, body: unknown) =>
  ask(path, { method: "POST", body: JSON.stringify(body), headers: { "content-type": "application/json" } });
const upload = (path: string, fields: Record<string, string>, name: string, bytes: BlobPart) => {
  const form = new FormData();
  for (const [k, v] of Object.entries(fields)) form.set(k, v);
  form.set("file", new File([bytes], name));
  return ask(path, { method: "POST", body: form });
};
beforeAll(async () => {
  store = await openSqlite(join(folder, "jobs.db"));
  await store.create({ id: "d", name: "Set", created: "2026-02-01T00:00:00.000Z", set: demoSet(), entries: [] });
});
afterAll(async () => {
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

describe("the server", () => {
  it("answers its own address only, and its own page only", async () => {
    expect((await app().request(`http://elsewhere/${secret}/api/jobs`, { headers: { host: "elsewhere" } })).status).toBe(421);
    expect((await app().request(`http://${host}/${secret}/api/jobs`, { method: "POST", headers: { host }, body: "{}" })).status).toBe(403);
    const r = await ask("/api/jobs");
    expect(r.status).toBe(200);
    expect(r.headers.get("content-security-policy")).toContain("default-src 'none'");
    expect((await ask("/x/../../../etc/passwd")).status).toBe(403);
    expect((await ask("/%2e%2e%2fetc/passwd")).status).toBe(404);
  });
  it("reads a sweep: a look records nothing, keeping it does", async () => {
    const fields = { as: "if-sweep", state: "as-found", record: "no" };
    const look = await (await upload("/api/jobs/Set/read", fields, "s.csv", demoSweepCsv())).json();
    expect(look.fit.directionsCount).toBeGreaterThan(3);
    expect((await store.load("Set"))!.document.entries).toHaveLength(0);
    expect((await upload("/api/jobs/Set/read", { ...fields, record: "yes" }, "s.csv", demoSweepCsv())).status).toBe(200);
    expect((await store.load("Set"))!.document.entries.map((e) => e.kind)).toEqual(["reading", "estimate", "values"]);
    const bad = await upload("/api/jobs/Set/read", fields, "s.csv", "kHz,dB\n450,1\n451,x\n452,1\n453,1\n454,1\n");
    expect(bad.status).toBe(400);
    expect((await bad.json()).issues[0]).toMatchObject({ path: "s.csv line 3", read: "x" });
  });
  it("plans work before it records it, keeps values, writes cards, takes the last entry back", async () => {
    const plan = await (await post("/api/jobs/Set/work", { work: "cable-fitted", subject: "fittings.qm", note: "", record: false })).json();
    expect(plan.due.map((d: { target: string }) => d.target)).toContain("35");
    const before = (await store.load("Set"))!.document.entries.length;
    await post("/api/jobs/Set/values", { values: [{ path: "line.today", text: "231 V" }], origin: "measured", why: "meter" });
    const bad = await post("/api/jobs/Set/values", { values: [{ path: "line.today", text: "231 kHz" }], origin: "measured", why: "" });
    expect((await bad.json()).issues[0].path).toBe("line.today");
    await post("/api/jobs/Set/fill", { card: "intake", fields: { Owner: "the club" } });
    expect((await post("/api/jobs/Set/entries", { entries: [{ kind: "estimate" }] })).status).toBe(404);
    expect((await post("/api/jobs/Set/fill", { card: "intake", fields: { Nothing: "x" } })).status).toBe(400);
    const early = await post("/api/jobs/Set/done", { step: "08", note: "" });
    const codes: string[] = (await early.json()).issues.map((i: { code: string }) => i.code);
    expect(codes.filter((c) => c === "not-before")).toHaveLength(3);
    expect(codes).toContain("not-measured");
    expect(codes).toContain("chassis-not-proved");
    const undone = await (await post("/api/jobs/Set/undo", { why: "typed wrong" })).json();
    expect(undone.kind).toBe("form");
    expect((await store.load("Set"))!.document.entries).toHaveLength(before + 3);
  });
  it("keeps a photograph and refuses what is none; exports and takes in", async () => {
    const png = Uint8Array.from(
      atob("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg=="),
      (c) => c.charCodeAt(0),
    );
    expect((await upload("/api/jobs/Set/attach", { note: "" }, "p.png", png)).status).toBe(200);
    expect((await upload("/api/jobs/Set/attach", { note: "" }, "p.png", "<svg/>")).status).toBe(400);
    const hash = (await store.files("Set")).find((f) => f.media === "image/png")!.hash;
    expect((await ask(`/api/jobs/Set/files/${hash}`)).headers.get("content-type")).toBe("image/png");
    const zip = await (await ask("/api/jobs/Set/export.zip")).arrayBuffer();
    expect(await (await upload("/api/import", {}, "j.zip", zip)).json()).toEqual({ name: "Set 2" });
  });
  it("makes a job from a description, naming what is wrong with it, and copies one whole or its set alone", async () => {
    const wrong = await post("/api/jobs", { name: "Mine", outline: { lineVoltage: "240 Hz", cans: "9" } });
    expect((await wrong.json()).issues.map((i: { path: string }) => i.path).sort()).toEqual(["cans", "lineVoltage"]);
    expect((await post("/api/jobs", { name: "Mine", outline: { lineVoltage: "240 V", cans: "2" } })).status).toBe(200);
    expect((await store.load("Mine"))!.document.set.strip.cans).toHaveLength(2);
    expect((await post("/api/jobs/Set/copy", { name: "Whole", setAlone: false })).status).toBe(200);
    expect((await post("/api/jobs/Set/copy", { name: "Whole", setAlone: true })).status).toBe(409);
    expect((await post("/api/jobs/Set/copy", { name: "Kind", setAlone: true })).status).toBe(200);
    const [own, whole, kind] = await Promise.all(["Set", "Whole", "Kind"].map(async (n) => (await store.load(n))!.document));
    expect(whole.entries.map(({ broughtIn: _, ...e }) => e)).toEqual(own.entries.map(({ broughtIn: _, ...e }) => e));
    expect([whole, ...whole.entries].every((x) => x.broughtIn?.copyOf === "Set")).toBe(true);
    expect((await store.files("Whole")).map((f) => f.hash)).toEqual((await store.files("Set")).map((f) => f.hash));
    expect(kind.entries).toEqual([]);
    expect(JSON.stringify(kind.set)).not.toMatch(/"origin":"(measured|fitted)"/);
    const states = await (await post("/api/states", { names: ["Set", "Whole", "Kind", "Nobody"] })).json();
    expect(states).toMatchObject({ Whole: states.Set, Kind: expect.stringMatching(/^0 of \d+ proven$/), Nobody: "" });
    const list = await (await ask("/api/jobs?search=who")).json();
    expect(list).toMatchObject({ total: 1, jobs: [{ name: "Whole" }] });
  });
  it("erases a job by its name said twice, as it was exported, and no later one", async () => {
    await post("/api/jobs", { name: "Gone", outline: { lineVoltage: "240 V", cans: "2" } });
    const revision = Number((await ask("/api/jobs/Gone/export.zip")).headers.get("x-revision"));
    expect((await (await post("/api/jobs/Gone/erase", { confirm: "Set" })).json()).issues[0].code).toBe("not-confirmed");
    expect((await post("/api/jobs/Gone/erase", { confirm: "Gone", revision: revision - 1 })).status).toBe(409);
    expect((await (await post("/api/jobs/Gone/erase", { confirm: "Gone", revision })).json()).says[0]).toContain('Erased "Gone"');
    expect((await ask("/api/jobs/Gone")).status).toBe(404);
    expect((await post("/api/jobs/Gone/erase", { confirm: "Gone" })).status).toBe(400);
  });
  it("under hostile requests: always a status, never a defect, the job untouched", async () => {
    const before = JSON.stringify((await store.load("Set"))!.document);
    // every route that records is among them by itself; the demo only takes long
    const recording = app()
      .routes.filter((r) => r.method === "POST" && r.path !== "/api/demo")
      .map((r) => r.path.replace(":name", "Set"));
    const paths = [...recording, "/api/jobs/Nobody/undo", "/api/jobs?search=%25_\\", "/%2e%2e/x", "/api/jobs/%00"];
    const bodies = fc.oneof(
      fc.json(),
      fc.string(),
      fc.constantFrom(
        "{}",
        "null",
        '{"card":"intake","fields":{}}',
        '{"step":"01"}',
        '{"values":[{"path":"__proto__.x","text":"1"}],"origin":"measured","why":""}',
        '{"work":"constructor","subject":"","note":"","record":true}',
      ),
    );
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom(...paths),
        fc.constantFrom("GET", "POST"),
        bodies,
        fc.constantFrom("application/json", "text/plain", "multipart/form-data; boundary=x"),
        async (path, method, body, type) => {
          const r = await ask(path, { method, ...(method === "POST" ? { body, headers: { "content-type": type } } : {}) });
          expect(r.status, `${method} ${path} ${type} ${body}`).toBeLessThan(500);
        },
      ),
      { numRuns: 6_000 },
    );
    expect(JSON.stringify((await store.load("Set"))!.document)).toBe(before);
  });
});

describe("killed while it serves", () => {
  const built = join(import.meta.dirname, "..", "..", "..", "dist", "fettle.mjs");
  const start = (path: string): Promise<{ url: string; process: ChildProcess }> =>
    new Promise((resolve, reject) => {
      const p = spawn(process.execPath, [built, "open", "--no-browser"], { env: { ...process.env, FETTLE_STORE: path } });
      let text = "";
      p.stdout.on("data", (d) => {
        text += d;
        const m = /http:\S+/.exec(text);
        if (m) resolve({ url: m[0], process: p });
      });
      p.on("error", reject);
      p.on("exit", () => reject(new Error("it ended before it served: ./fettle --prepare-only builds it")));
    });
  it("ten times in mid-write, beside a second server: no acknowledged entry is lost, nothing is corrupt", async () => {
    const path = join(folder, "kill.db");
    const other = await openSqlite(path);
    await other.create({ id: "k", name: "K", created: "", set: demoSet(), entries: [] });
    const beside = await start(path);
    const acknowledged: string[] = [];
    for (let round = 0; round < 10; round++) {
      const { url, process: p } = await start(path);
      // killed a little after so many of its own were acknowledged, however slow this machine is
      let own = 0;
      const send = async (to: string): Promise<void> => {
        const r = await fetch(`${to}api/jobs/K/done`, {
          method: "POST",
          headers: { "x-fettle": "page", "content-type": "application/json" },
          body: JSON.stringify({ step: "01", note: "" }),
        });
        if (r.ok) acknowledged.push(...(await r.json()).ids);
        if (to === url && ++own === 3 + round) setTimeout(() => p.kill("SIGKILL"), round);
      };
      try {
        for (;;) await Promise.all([send(url), send(beside.url)]);
      } catch {
        // the server is gone, as it was told to be
      }
    }
    beside.process.kill("SIGKILL");
    const ids = new Set((await other.load("K"))!.document.entries.map((e) => e.id));
    expect(acknowledged.length).toBeGreaterThan(40);
    for (const id of acknowledged) expect(ids.has(id)).toBe(true);
    await other.close();
  });
});
