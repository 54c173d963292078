/** Names that somebody else chose: of files that are attached, and within a zip. None leads anywhere but into the store. */
import { existsSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { demoSet } from "../../desk/demo";
import { openSqlite } from "../../store/sqlite";
import type { JobStore } from "../../store/store";
import { errandsHere } from "../errands/errands-here";
import { serve } from "./app";

const folder = mkdtempSync(join(tmpdir(), "names-"));
const host = "127.0.0.1:1";
let store: JobStore;
let n = 0;
const newId = () => `i${++n}`;
const desk = () => ({ store, errands: errandsHere(newId), stamp: { at: "2026-02-01T00:00:00.000Z", who: "t", newId } });
let app: ReturnType<typeof serve>;
beforeAll(async () => {
  store = await openSqlite(join(folder, "in", "jobs.db"));
  await store.create({ id: "d", name: "Set", created: "2026-02-01T00:00:00.000Z", set: demoSet(), entries: [] });
  app = serve({ page: join(folder, "page"), hosts: () => [host], secret: "s", desk });
});
afterAll(async () => {
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});
const ask = (path: string, init: RequestInit = {}) =>
  app.request(`http://${host}/s${path}`, { ...init, headers: { host, "x-fettle": "page" } });
const upload = (path: string, name: string, bytes: BlobPart) => {
  const form = new FormData();
  form.set("note", "");
  form.set("file", new File([bytes], name));
  return ask(path, { method: "POST", body: form });
};
const png = (last: number) => Uint8Array.from([137, 80, 78, 71, 13, 10, 26, 10, ...Buffer.from("iVBORw"), last]);
const hostile = [
  "../../../../up.png",
  "/etc/cron.d/up.png",
  "..\\..\\up.png",
  'a"; filename="up.png',
  "a\r\nset-cookie: x=1.png",
  "up.png\0.exe",
  "<img src=x onerror=alert(1)>.png",
  `${"../".repeat(60)}up.png`,
];

describe("a name that somebody else chose", () => {
  it("of a photograph is words beside it: it is found by its bytes, and exported under their digest", async () => {
    for (const [i, name] of hostile.entries()) expect((await upload("/api/jobs/Set/attach", name, png(i))).status, name).toBe(200);
    const files = await store.files("Set");
    expect(files).toHaveLength(hostile.length);
    for (const { hash } of files) {
      const r = await ask(`/api/jobs/Set/files/${hash}`);
      expect([r.status, r.headers.get("content-type"), r.headers.get("set-cookie")]).toEqual([200, "image/png", null]);
      expect(r.headers.get("content-disposition") ?? "attachment").toBe("attachment");
    }
    const zip = unzipSync(new Uint8Array(await (await ask("/api/jobs/Set/export.zip")).arrayBuffer()));
    for (const name of Object.keys(zip))
      expect(name).toMatch(/^(?:[\w-]+(?:\.schema)?\.(?:txt|json)|files\/[0-9a-f]{32}-[\w.-]+|readings\/[\w.-]+)$/);
  });
  it("within a zip leads nowhere: it is taken in, and nothing is written beside the store", async () => {
    const zip = unzipSync(new Uint8Array(await (await ask("/api/jobs/Set/export.zip")).arrayBuffer()));
    const more = Object.fromEntries(hostile.map((name) => [name, strToU8("x")]));
    expect((await upload("/api/import", "j.zip", zipSync({ ...zip, ...more }).slice())).status).toBe(200);
    expect(strFromU8(zip["job.json"])).toContain("Set");
    expect(readdirSync(folder)).toEqual(["in"]);
    expect(readdirSync(join(folder, "in")).every((f) => f.startsWith("jobs.db"))).toBe(true);
    for (const up of ["up.png", "../up.png", "/etc/cron.d/up.png"]) expect(existsSync(join(folder, up))).toBe(false);
    expect((await store.files("Set 2")).map((f) => f.hash).sort()).toEqual((await store.files("Set")).map((f) => f.hash).sort());
  });
});
