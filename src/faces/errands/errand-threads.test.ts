/** Threads of the built bundle: what runs long holds nobody up, and what runs past its limits ends alone. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { demoSet, demoSweepCsv } from "../../desk/demo";
import type { JobDocument } from "../../job/document";
import { formatVersion } from "../../job/format";
import { openSqlite } from "../../store/sqlite";
import { InputError } from "../../units/issue";
import { serve } from "../server/app";
import { errandThreads } from "./errand-threads";
import { usualLimits } from "./thread-limits";

const built = join(import.meta.dirname, "..", "..", "..", "dist", "fettle.mjs");
const document: JobDocument = {
  format: "fettle-job",
  version: formatVersion,
  id: "j",
  name: "Set",
  created: "2026-02-01T00:00:00.000Z",
  set: demoSet(),
  entries: [],
};
const signed = { at: "2026-02-01T00:00:00.000Z", who: "t" };
const sweep = { name: "s.csv", bytes: new TextEncoder().encode(demoSweepCsv()) };
const long = { name: "long.csv", bytes: new TextEncoder().encode(`V,V\n${"1.5,2.5\n".repeat(400_000)}`) };
const noZip = { name: "x.zip", bytes: new Uint8Array(50), broughtIn: { at: signed.at, by: "t" } };
const quick = { document, sheet: "image", ask: { draws: 200, points: 11 } };
const codeOf = (run: Promise<unknown>): Promise<string> =>
  run.then(
    () => "done",
    (e) => (e instanceof InputError ? e.issues[0].code : String(e)),
  );
const closing: (() => Promise<unknown>)[] = [];
const threads = (limits: Partial<typeof usualLimits> = {}) => {
  const t = errandThreads(built, { ...usualLimits, ...limits });
  closing.push(t.close);
  return t;
};
afterAll(() => Promise.all(closing.map((close) => close())));

describe("errands on threads", () => {
  it("come back whole, and bad input as the issue that it is", async () => {
    const t = threads();
    const r = await t.run("read", { document, file: sweep, how: { as: "if-sweep", state: "as-found" }, signed });
    expect(r.entries.map((e) => e.kind)).toEqual(["reading", "estimate", "values"]);
    expect(r.file.bytes).toEqual(sweep.bytes);
    expect((await t.run("sheet", quick)).sheet).toBe("image");
    expect(await codeOf(t.run("sheet", { ...quick, sheet: "no-such" }))).toBe("no-sheet");
    expect(await codeOf(t.run("unpack", noZip))).toBe("not-a-zip");
  });
  it("end at their time, when they are given up, and at their memory; the next one is done all the same", async () => {
    const t = threads({ threads: 1, seconds: { ...usualLimits.seconds, report: 0.05 } });
    expect(await codeOf(t.run("report", { document }))).toBe("too-long");
    const stop = new AbortController();
    const given = t.run("parts", { document }, { signal: stop.signal });
    setTimeout(() => stop.abort(), 20);
    expect(await codeOf(given)).toBe("stopped");
    expect(await codeOf(t.run("sheet", quick))).toBe("done");
    const small = threads({ threads: 1, memoryMb: 16 });
    expect(await codeOf(small.run("read", { document, file: long, how: { as: "table", state: "as-found" }, signed }))).toBe("too-much");
  });
  it("never all wait for slow ones, nor without end", async () => {
    const t = threads({ waiting: 3 });
    const done: string[] = [];
    const slow = [1, 2].map((i) => t.run("parts", { document }).then(() => done.push(`parts ${i}`)));
    await codeOf(t.run("unpack", noZip)).then((c) => done.push(c));
    await Promise.all(slow);
    expect(done).toEqual(["not-a-zip", "parts 1", "parts 2"]);
    const many = Array.from({ length: 9 }, () => codeOf(t.run("sheet", quick)));
    expect((await Promise.all(many)).filter((c) => c === "busy").length).toBeGreaterThan(0);
  });
  it("leave the server free: others are answered while a list of parts is worked out", async () => {
    const folder = mkdtempSync(join(tmpdir(), "threads-"));
    const store = await openSqlite(join(folder, "jobs.db"));
    const { id, name, created, set } = document;
    await store.create({ id, name, created, set, entries: [] });
    const host = "127.0.0.1:1";
    const t = threads();
    const app = serve({
      page: folder,
      hosts: () => [host],
      secret: "s",
      desk: () => ({ store, errands: t, stamp: { ...signed, newId: () => "i" } }),
    });
    const get = async (path: string) => app.request(`http://${host}/s${path}`, { headers: { host } });
    let written = false;
    const list = get("/api/jobs/Set/parts").then((r) => {
      written = true;
      return r.json();
    });
    for (let i = 0; i < 5; i++) expect((await get("/api/jobs")).status).toBe(200);
    expect(written).toBe(false);
    expect((await list).lines.length).toBeGreaterThan(0);
    await store.close();
    rmSync(folder, { recursive: true, force: true });
  });
});
