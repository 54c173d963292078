import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { safetyOut } from "../../job/proved.testdata";
import { openSqlite } from "../../store/sqlite";
import type { JobStore } from "../../store/store";
import { commandLine } from "../cli/main";
import { errandsHere } from "../errands/errands-here";
import { serve } from "./app";

/** One store, the command line and the page's routes on it, and a clock that can be put on. */
const folder = mkdtempSync(join(tmpdir(), "both-"));
const path = join(folder, "jobs.db");
let now = "2026-02-01T10:00:00.000Z";
let store: JobStore;
let n = 0;
const newId = () => `both-${++n}`;
const host = "127.0.0.1:1";
const secret = "a-secret-of-this-test";
const app = serve({
  page: join(folder, "page"),
  hosts: () => [host],
  secret,
  desk: () => ({ store, errands: errandsHere(newId), stamp: { at: now, who: "t", newId } }),
});
async function page<T>(route: string, body?: object): Promise<{ readonly status: number; readonly json: T }> {
  const headers = { host, "x-fettle": "page", "content-type": "application/json" };
  const init = body ? { method: "POST", body: JSON.stringify(body), headers } : { headers };
  const r = await app.request(`http://${host}/${secret}/api/jobs/${encodeURIComponent("Kitchen set")}/${route}`, init);
  return { status: r.status, json: await r.json() };
}
async function fettle(command: string, ...argv: readonly string[]) {
  const out: string[] = [];
  const err: string[] = [];
  const code = await commandLine({
    out: (t) => void out.push(t),
    err: (t) => void err.push(t),
    progress: () => undefined,
    page: { columns: 400, bold: (s: string) => s },
    now: () => now,
    env: { FETTLE_STORE: path },
  }).run([command, "Kitchen set", ...argv]);
  return { code, out: out.join("\n"), err: err.join("\n") };
}
async function done(command: string, ...argv: readonly string[]): Promise<string> {
  const r = await fettle(command, ...argv);
  expect(r.code, r.err + r.out).toBe(0);
  return r.out;
}
const weekOn = (): void => {
  now = new Date(Date.parse(now) + 7 * 24 * 3.6e6).toISOString();
};
const entries = async () => (await store.load("Kitchen set"))?.document.entries ?? [];
interface Refused {
  readonly issues: readonly { readonly path: string; readonly code: string }[];
}
beforeAll(async () => {
  store = await openSqlite(path);
});
afterAll(async () => {
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

describe.sequential("a set whose chassis is live", () => {
  it("is handed over by neither face, however whole its safety card is", async () => {
    await done("new", "--pattern", "five-tube-live");
    await done("fill", "safety-out", ...Object.entries(safetyOut).map(([f, v]) => `${f}=${v}`));
    const before = (await entries()).length;
    for (const step of ["35", "36"]) {
      const typed = await fettle("done", step);
      expect(typed.code).not.toBe(0);
      const clicked = await page<Refused>("done", { step, note: "" });
      expect(clicked.status).toBe(400);
      if (step === "35") {
        expect(typed.err).toMatch(/chassis/);
        expect(clicked.json.issues.map((i) => i.path)).toContain("chassis");
      }
    }
    expect((await entries()).length).toBe(before);
  });
});

describe.sequential("a half-done set, a week later", () => {
  const { lines } = { lines: async () => (await page<{ lines: readonly { head: string; says: string }[] }>("where")).json.lines };
  it("says on both faces how it was left, what was being done, what holds no longer and what comes next", async () => {
    await done("sitting", "--initials", "JM", "--meter", "20 kohm/V, ranges 10 50 250", "--thermal", "warm", "--line", "121 V");
    const rows = [
      ["plate", "225", "2200", "238"],
      ["screen", "100", "30k", "64"],
    ].flatMap(([electrode, chartV, ohm, read], i) => [
      `row ${i + 1}: Tube=V2`,
      `row ${i + 1}: Electrode=${electrode}`,
      `row ${i + 1}: Chart V=${chartV}`,
      `row ${i + 1}: Source Ω if known=${ohm}`,
      `row ${i + 1}: Measured V=${read}`,
    ]);
    await done("fill", "voltage-chart", "Chart's meter and line=20 kohm/V, 117 V", ...rows);
    expect((await page("wait", { for: "soak", until: "4 h" })).status).toBe(200);
    await done("wait", "22 µF from the post", "--until", "2026-02-05");
    const left = { power: "off", case: "open", clipped: "C14 lifted, a clip on the first capacitor", doing: "tracing the low screen" };
    expect((await page("leave", left)).status).toBe(200);
    expect((await lines())[0].says).not.toMatch(/ago/);
    weekOn();
    const clicked = await lines();
    expect(clicked.map((l) => l.head)).toEqual(["The set", "Last", "Wrong", "Waiting", "Next", "Care"]);
    const [set, last, wrong, waits, next, care] = clicked.map((l) => l.says);
    expect(set).toMatch(/^Last at it 7 days ago: no warm-up or soak counts.*asked again.*switched off, plugged in, case open.*C14 lifted/);
    expect(last).toContain("tracing the low screen");
    expect(wrong).toMatch(/screen is low/);
    expect(waits).toMatch(/soak was due.*begins anew.*22 µF from the post was due/);
    expect(next).toMatch(/step \d/);
    expect(care).toMatch(/^Unplug the set, discharge its capacitors and MEASURE/);
    const typed = await done("where");
    for (const l of clicked) expect(typed).toContain(l.says);
  });
  it("takes who and with what from the last session, asks line and warm or cold anew, and tells each in the record", async () => {
    await done("sitting", "--thermal", "cold", "--line", "118 V");
    expect((await entries()).at(-1)).toMatchObject({
      kind: "sitting",
      initials: "JM",
      meter: "20 kohm/V, ranges 10 50 250",
      thermal: "cold",
    });
    expect((await page("sitting", { initials: "JM", meter: "20 kohm/V, ranges 10 50 250", thermal: "cold", line: "118 V" })).status).toBe(
      200,
    );
    const read = await page("fill", { card: "voltage-chart", fields: { "row 2: Measured V": "63" } });
    expect(read.status).toBe(200);
    expect((await entries()).at(-1)).toMatchObject({
      kind: "form",
      fields: { "row 2: Measured V": "63", "Line volts": "118 V" },
    });
    expect(await done("zero-beats", "0.60 0.80 1.00", "--band", "a", "--every", "200 kHz", "--dry-run")).toContain("0.6 is 600 kHz");
    const row = await page("zero-beats", { band: "a", readings: "0.60 0.80 1.00", every: "200 kHz", record: true });
    expect(row.status).toBe(200);
    expect((await entries()).at(-1)).toMatchObject({ reading: { thermal: "cold", state: "as-found" } });
  });
  it("is mended, proved and closed; a later reading opens it again by itself, on both faces", async () => {
    const place = "stages.if1";
    await done("mend", "screen-resistor", "--at", place, "--in", "33k", "--fault", place);
    expect(await done("fill", "voltage-chart")).toMatch(/To be read again since the last work.*\n.*row 1: Measured V/);
    const down = await page("fill", { card: "voltage-chart", fields: {}, down: "230 101" });
    expect(down.status).toBe(200);
    await done("fault", "prove", place);
    expect((await page("fault", { does: "close", fault: place })).status).toBe(200);
    expect(await done("faults")).toMatch(/closed/);
    expect((await page("fill", { card: "voltage-chart", fields: { "row 2: Measured V": "58" } })).status).toBe(200);
    const { faults } = (await page<{ faults: readonly { id: string; state: string }[] }>("faults")).json;
    expect(faults.find((f) => f.id === place)?.state).toBe("open again");
    expect(await done("faults")).toMatch(/open again/);
    await done("wait", "22 µF from the post", "--over");
    expect((await lines())[3].says).not.toContain("22 µF");
  });
});
