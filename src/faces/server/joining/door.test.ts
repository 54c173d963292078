import { mkdtempSync, rmSync } from "node:fs";
import { request } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { commands } from "../../../desk/commands/index";
import { demoSet } from "../../../desk/demo";
import { openSqlite } from "../../../store/sqlite";
import { type Running, startServer } from "../listen";
import type { DoorState } from "./door";

const folder = mkdtempSync(join(tmpdir(), "door-"));
const path = join(folder, "jobs.db");
let bench: Running;

interface Said {
  readonly status: number;
  readonly text: string;
}
/** Asks over a socket, so that Host and Origin are what the test says they are. */
const ask = (url: string, method = "GET", body?: unknown, headers: Readonly<Record<string, string>> = {}): Promise<Said> =>
  new Promise((resolve, reject) => {
    const { hostname, port, pathname, search } = new URL(url);
    const own = { "x-fettle": "page", ...(body === undefined ? {} : { "content-type": "application/json" }), ...headers };
    const r = request({ hostname, port, path: pathname + search, method, headers: own, agent: false }, (answer) => {
      let text = "";
      answer.on("data", (d) => {
        text += d;
      });
      answer.on("end", () => resolve({ status: answer.statusCode ?? 0, text }));
      answer.on("close", () => resolve({ status: answer.statusCode ?? 0, text }));
    });
    r.on("error", reject);
    r.end(body === undefined ? undefined : JSON.stringify(body));
  });
const codeOf = (said: Said): string => JSON.parse(said.text).issues[0].code;
const newCode = async (job = "Set"): Promise<NonNullable<DoorState["code"]>> =>
  JSON.parse((await ask(`${bench.url}api/joined/code`, "POST", { job })).text).code;
/** Joins a device; the address that it is served at. */
async function joined(device: string, job = "Set"): Promise<string> {
  const { code, url } = await newCode(job);
  const r = await ask(`${url}api/join`, "POST", { code, device });
  expect(r.status).toBe(200);
  return `${url}${JSON.parse(r.text).at}/`;
}
const state = async (): Promise<DoorState> => JSON.parse((await ask(`${bench.url}api/joined`)).text);
const fields = { card: "voltage-chart", fields: { "Line volts": "121" } };

beforeAll(async () => {
  const store = await openSqlite(path);
  const created = "2026-02-01T00:00:00.000Z";
  for (const name of ["Set", "Other"]) await store.create({ id: name, name, created, set: demoSet(), entries: [] });
  await store.close();
  bench = await startServer({ kind: "file", path }, 0, () => ["127.0.0.1"]);
});
afterAll(async () => {
  await bench.close();
  rmSync(folder, { recursive: true, force: true });
});

describe("the door to the house network", () => {
  it("is shut until a code is made, and shuts when the last device is sent away", async () => {
    expect(await state()).toEqual({ addresses: ["127.0.0.1"], joined: [] });
    const at = await joined("phone");
    expect((await ask(`${at}api/jobs/Set`)).status).toBe(200);
    const { joined: who } = await state();
    expect(who).toMatchObject([{ device: "phone", job: "Set" }]);
    await ask(`${bench.url}api/joined/away`, "POST", { id: who[0].id });
    await expect(ask(`${at}api/jobs/Set`)).rejects.toThrow("ECONNREFUSED");
    expect((await state()).joined).toEqual([]);
  });
  it("refuses a wrong, a used and a replaced code, and whoever has none", async () => {
    const { code, url } = await newCode();
    expect(codeOf(await ask(`${url}api/join`, "POST", { code: "22222222", device: "phone" }))).toBe("wrong-code");
    expect((await ask(`${url}api/join`, "POST", { code, device: "phone" })).status).toBe(200);
    expect(codeOf(await ask(`${url}api/join`, "POST", { code, device: "phone" }))).toBe("no-code");
    const next = await newCode();
    expect(codeOf(await ask(`${url}api/join`, "POST", { code, device: "phone" }))).toBe("wrong-code");
    expect((await ask(`${url}api/join`, "POST", { code: next.code, device: "" })).status).toBe(400);
    for (const way of ["api/jobs", "api/jobs/Set", "api/events", "api/joined", "x/api/jobs/Set"])
      expect((await ask(`${url}${way}`)).status, way).toBe(403);
    for (const { id } of (await state()).joined) await ask(`${bench.url}api/joined/away`, "POST", { id });
  });
  it("answers its own address and its own page only: other hosts, origins and pages get nothing, joined or not", async () => {
    const at = await joined("phone");
    const { origin, host } = new URL(at);
    const { code, url } = await newCode();
    for (const hostile of ["fettle.example", "127.0.0.1", `localhost:${host.split(":")[1]}`, new URL(bench.url).host]) {
      expect((await ask(`${at}api/jobs/Set`, "GET", undefined, { host: hostile })).status, hostile).toBe(421);
      expect((await ask(`${url}api/join`, "POST", { code, device: "x" }, { host: hostile })).status, hostile).toBe(421);
    }
    for (const hostile of ["http://fettle.example", "null", `https://${host}`, new URL(bench.url).origin]) {
      expect((await ask(`${at}api/jobs/Set/fill`, "POST", fields, { origin: hostile })).status, hostile).toBe(403);
      expect((await ask(`${url}api/join`, "POST", { code, device: "x" }, { origin: hostile })).status, hostile).toBe(403);
    }
    expect((await ask(`${at}api/jobs/Set/fill`, "POST", fields, { "x-fettle": "" })).status).toBe(403);
    expect((await ask(`${url}api/join`, "POST", { code, device: "x" }, { "x-fettle": "" })).status).toBe(403);
    // none of these cost the code a try or recorded anything
    expect((await ask(`${url}api/join`, "POST", { code, device: "tablet" }, { origin })).status).toBe(200);
    expect(JSON.parse((await ask(`${at}api/jobs/Set`)).text).document.entries).toEqual([]);
  });
  it("is no way round the address of this machine's own page", async () => {
    const at = await joined("phone");
    const secret = new URL(at).pathname;
    const { origin: own, pathname } = new URL(bench.url);
    expect((await ask(`${own}${secret}api/jobs/Set`)).status).toBe(403);
    expect((await ask(`${new URL(at).origin}${pathname}api/jobs/Set`)).status).toBe(403);
    expect((await ask(`${bench.url}api/jobs`, "GET", undefined, { host: new URL(at).host })).status).toBe(421);
  });
});

describe("a joined device", () => {
  it("sees its one job, types readings, and is named beside what it wrote", async () => {
    for (const { id } of (await state()).joined) await ask(`${bench.url}api/joined/away`, "POST", { id });
    const at = await joined("thumb phone");
    expect((await ask(`${at}api/jobs/Set/fill`, "POST", fields)).status).toBe(200);
    const { entries } = JSON.parse((await ask(`${at}api/jobs/Set`)).text).document;
    expect(entries.at(-1)).toMatchObject({ kind: "form", form: "voltage-chart" });
    expect(entries.at(-1).who).toMatch(/ \(thumb phone\)$/);
    expect((await ask(`${at}api/jobs/Other`)).status).toBe(403);
    expect((await ask(`${at}api/jobs/Other/fill`, "POST", fields)).status).toBe(403);
    expect(
      (await ask(`${at}api/jobs/Set/fill`, "POST", { card: "voltage-chart", fields: { "Line volts": "122" }, job: "Other" })).status,
    ).toBe(200);
    expect(JSON.parse((await ask(`${bench.url}api/jobs/Other`)).text).document.entries).toEqual([]);
  });
  it("is refused every other route of the server, each by name", async () => {
    const at = await joined("tablet");
    const allowed = commands.flatMap((c) => c.served.flatMap((r) => (r.joined ? [`${r.method} ${r.path}`] : []))).sort();
    expect(allowed).toEqual([
      "GET /api/jobs/:name",
      "GET /api/jobs/:name/faults",
      "GET /api/jobs/:name/files/:hash",
      "GET /api/jobs/:name/found-and-left",
      "GET /api/jobs/:name/history",
      "GET /api/jobs/:name/where",
      "GET /api/jobs/:name/worth",
      "POST /api/jobs/:name/fill",
      "POST /api/jobs/:name/read",
      "POST /api/jobs/:name/zero-beat",
      "POST /api/jobs/:name/zero-beats",
    ]);
    const before = JSON.parse((await ask(`${bench.url}api/jobs/Set`)).text).revision;
    const others = [
      ...commands.flatMap((c) => c.served.map((r) => [r.method, r.path] as const)),
      ["GET", "/api/joined"],
      ["POST", "/api/joined/code"],
      ["POST", "/api/joined/away"],
      ["POST", "/api/states"],
      ["POST", "/api/join"],
    ] as const;
    for (const [method, route] of others) {
      if (allowed.includes(`${method} ${route}`)) continue;
      const to = route.replace(":name", "Set").slice(1);
      const r = await ask(`${at}${to}`, method, method === "POST" ? { job: "Set", code: "", device: "x" } : undefined);
      expect([r.status, codeOf(r)], `${method} ${route}`).toEqual([403, "not-here"]);
    }
    for (const card of ["intake", "handover", "nothing", undefined])
      expect((await ask(`${at}api/jobs/Set/fill`, "POST", { card, fields: {} })).status, String(card)).toBe(403);
    expect(JSON.parse((await ask(`${bench.url}api/jobs/Set`)).text).revision).toBe(before);
  });
  it("sees nothing any more once it is sent away, while another stays", async () => {
    for (const { id } of (await state()).joined) await ask(`${bench.url}api/joined/away`, "POST", { id });
    const [gone, stays] = [await joined("phone"), await joined("tablet")];
    const { id } = (await state()).joined.find((d) => d.device === "phone") ?? { id: "" };
    const following = ask(`${gone}api/events`);
    await ask(`${bench.url}api/joined/away`, "POST", { id });
    expect((await ask(`${gone}api/jobs/Set`)).status).toBe(403);
    expect((await ask(gone)).status).toBe(403);
    // what it followed ends by itself
    expect((await following).status).toBe(200);
    expect((await ask(`${stays}api/jobs/Set`)).status).toBe(200);
  });
});
