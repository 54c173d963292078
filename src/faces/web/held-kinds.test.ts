/** Every kind of work and entry done while the server is cut off, by the page's own sender and against the real server: there once, in order, with its time. */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { commands } from "../../desk/commands/index";
import { demoSet } from "../../desk/demo";
import type { Entry } from "../../job/document";
import { workKinds } from "../../job/ripple";
import { openSqlite } from "../../store/sqlite";
import type { JobStore } from "../../store/store";
import { errandsHere } from "../errands/errands-here";
import { serve } from "../server/app";
import { mayWait, neverWaits, waiting } from "./waits";

const folder = mkdtempSync(join(tmpdir(), "held-"));
const [host, secret, begun] = ["127.0.0.1:1", "a-secret-of-this-test", Date.parse("2026-03-01T08:00:00.000Z")];
/** The server's clock is ahead of the bench's by so much: a bench's clock may stand anywhere. */
const aheadMs = 3 * 3.6e6;
let store: JobStore;
let [away, n] = [false, 0];
const asked: string[] = [];

beforeAll(async () => {
  vi.useFakeTimers({ toFake: ["Date"], now: begun });
  const kept = new Map<string, string>();
  vi.stubGlobal("localStorage", {
    getItem: (k: string) => kept.get(k) ?? null,
    setItem: (k: string, v: string) => void kept.set(k, v),
    removeItem: (k: string) => void kept.delete(k),
  });
  vi.stubGlobal("document", { documentElement: { dataset: {} }, addEventListener: () => undefined });
  vi.stubGlobal("window", { addEventListener: () => undefined });
  store = await openSqlite(join(folder, "jobs.db"));
  const head = { at: new Date(begun).toISOString(), kind: "values", why: "" } as const;
  const volts = (value: number) => ({
    "line.today": { value, spread: { shape: "exact" as const }, origin: "measured" as const, source: "invented" },
  });
  const entries: Entry[] = [
    { ...head, id: "first", who: "ann", values: volts(117) },
    { ...head, id: "other", who: "ben", values: volts(121), seen: "none" },
  ];
  await store.create({ id: "d", name: "Set", created: head.at, set: demoSet(), entries });
  const desk = () => {
    const newId = () => `i${++n}`;
    return { store, errands: errandsHere(newId), stamp: { at: new Date(Date.now() + aheadMs).toISOString(), who: "t", newId } };
  };
  const app = serve({ page: join(folder, "page"), hosts: () => [host], secret, desk });
  vi.stubGlobal("fetch", async (path: string, init: RequestInit = {}) => {
    if (away) throw new TypeError("nobody answers");
    asked.push(path);
    return app.request(`http://${host}/${secret}/${path}`, { ...init, headers: { host, ...(init.headers as Record<string, string>) } });
  });
});
afterAll(async () => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

const soon = new AbortController().signal;
const beat = { band: "a", setPoint: "", reading: "0.8", frequency: "0.8 MHz", approach: "up", thermal: "warm" };
const part = {
  part: "resistor",
  place: "stages.if1",
  label: "R14",
  out: "330 ohm",
  came: "330 ohm",
  dress: "",
  fault: "",
  note: "changed",
};
type Api = typeof import("./api").api;
/** Each act by the command that records it, and the kinds of entries that it makes, in order. */
const acts: readonly (readonly [command: string, kinds: readonly string[], act: (api: Api) => Promise<object>])[] = [
  // a tube's test is begun by it: a correction of the tube rests on that
  ["fill", ["form"], (a) => a.append("Set", [{ kind: "form", form: "tubes", fields: { "row 1: Socket": "V1", "row 1: gm %": "80" } }])],
  ["done", ["done"], (a) => a.append("Set", [{ kind: "done", step: "01", note: "read" }])],
  ["values", ["values"], (a) => a.values("Set", [{ path: "plateWatts", text: "65 W" }], "stated", "plate")],
  [
    "instrument",
    ["instrument"],
    (a) =>
      a.append("Set", [
        {
          kind: "instrument",
          instrument: {
            id: "dmm",
            kind: "DC volts",
            label: "bench meter",
            ranges: [],
            uncertainty: "2 %",
            lastCheck: "1960",
            offset: "none",
          },
        },
      ]),
  ],
  ["history", ["form"], (a) => a.history("Set", { slugsTurned: "told" })],
  ["fault", ["fault"], (a) => a.fault("Set", { does: "notice", place: "set", words: "hum" })],
  ["sitting", ["sitting"], (a) => a.sitting("Set", { initials: "T.", thermal: "cold" })],
  ["wait", ["waiting"], (a) => a.wait("Set", { for: "a part" })],
  ["chassis", ["chassis"], (a) => a.chassis("Set", { state: "live", confirm: "live", how: "no transformer seen" })],
  ["zero-beat", ["reading"], (a) => a.zeroBeat("Set", beat)],
  ["zero-beats", ["reading"], (a) => a.zeroBeats("Set", { ...beat, readings: "1.0 1.2", every: "200 kHz", from: "" })],
  ["mend", ["work", "part"], (a) => a.mend("Set", { ...part, now: {}, record: true }, soon)],
  [
    "amend",
    ["work", "described"],
    (a) => a.amend("Set", { list: "tubes", member: "V1", fields: { type: "6BA6" }, why: "read", record: true }, soon),
  ],
  ["settle", ["values"], (a) => a.settle("Set", "line.today", "first")],
  ["correct", ["correction"], (a) => a.append("Set", [{ kind: "correction", supersedes: "other", why: "misread" }])],
  ...workKinds.map(
    (w) =>
      [
        "work",
        ["work"],
        (a: Api) => {
          const subject = /^(?:cable|accessory)/.test(w.id) ? "fittings.qm" : "stages.if1";
          const now = Object.fromEntries((w.changes ?? []).map((c) => [c.path.replace("{subject}", subject), "same"]));
          return a.work("Set", { work: w.id, subject, note: `held ${w.id}`, record: true, now }, soon);
        },
      ] as const,
  ),
  ["leave", ["standing"], (a) => a.leave("Set", { power: "unplugged", case: "closed" })],
];

describe("what is done while the server is away", () => {
  it("is held for every command that records, or is named as what can't be, with why", () => {
    const recorded = commands.flatMap((c) =>
      c.records ? c.served.flatMap((r) => (/^\/api\/jobs\/:name\/([\w-]+)$/.exec(r.path)?.[1] ?? []) as string | []) : [],
    );
    expect(recorded.length).toBeGreaterThan(15);
    expect(recorded.flat().filter((name) => !(name in waiting) && !(name in neverWaits))).toEqual([]);
    // each of those is said at its act too
    const pages = readdirSync(import.meta.dirname, { recursive: true, encoding: "utf8" }).filter((f) => f.endsWith(".tsx"));
    const text = pages.map((f) => readFileSync(join(import.meta.dirname, f), "utf8")).join("");
    expect(Object.keys(neverWaits).filter((act) => !text.includes(`<CantWait act="${act}" />`))).toEqual([]);
    expect(mayWait("api/jobs/Set/work", '{"record":false}')).toBe(false);
    expect(mayWait("api/jobs/Set/read", "{}")).toBe(false);
    // what was heard as it came is held like these; its figures are made by sound that plays
    const tried = new Set([...acts.map(([command]) => command), "taken", "take-back-beat"]);
    expect(Object.keys(waiting).filter((c) => !tried.has(c))).toEqual([]);
  });
  it("is there once, in its order, with the time at which it was done", async () => {
    const [{ api }, { heldNow, sendHeld }] = [await import("./api"), await import("./held")];
    await api.load("Set");
    away = true;
    for (const [i, [command, , act]] of acts.entries()) {
      vi.setSystemTime(begun + (i + 1) * 120_000);
      expect(await act(api), `${i} ${command}`).toEqual({ held: true });
    }
    expect(heldNow()).toHaveLength(acts.length);
    away = false;
    const back = begun + 24 * 3.6e6;
    vi.setSystemTime(back);
    // the answer to the first is lost on its way: it is sent again
    const [first] = heldNow();
    await fetch(first.path, { method: "POST", body: first.body, headers: { ...first.headers, "x-sent": new Date(back).toISOString() } });
    expect(await sendHeld()).toBe(acts.length);
    expect(heldNow()).toEqual([]);
    const { document } = (await store.load("Set"))!;
    const own = document.entries.slice(2);
    const expected = acts.flatMap(([, kinds], i) => kinds.map((kind) => [kind, begun + aheadMs + (i + 1) * 120_000]));
    expect(own.map((e) => [e.kind, Date.parse(e.at)])).toEqual(expected);
    expect(new Set(own.map((e) => e.received))).toEqual(new Set([new Date(back + aheadMs).toISOString()]));
    expect(own.flatMap((e) => (e.kind === "work" && e.note.startsWith("held") ? [e.work] : []))).toEqual(workKinds.map((w) => w.id));
  });
  it("carries one time alone within a minute, and never one later than its sending", async () => {
    const by = async (id: string, done: number, sent: number) => {
      const headers = {
        "x-fettle": "page",
        "x-request": id,
        "content-type": "application/json",
        "x-done": new Date(done).toISOString(),
        "x-sent": new Date(sent).toISOString(),
      };
      await fetch("api/jobs/Set/done", { method: "POST", body: JSON.stringify({ step: "01", note: id }), headers });
      return (await store.load("Set"))!.document.entries.at(-1)!;
    };
    const now = new Date(Date.now() + aheadMs).toISOString();
    for (const [id, heldMs] of [
      ["soon", 59_000],
      ["ahead", -3.6e6],
      ["put-on", 400 * 86_400e3],
    ] as const) {
      const e = await by(id, Date.now() - heldMs, Date.now());
      expect([e.at, e.received], id).toEqual([now, undefined]);
    }
  });
});
