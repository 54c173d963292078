/** A flood of hostile requests on one server, on this machine alone: always an answer, never a defect, and what is stored stays whole. */
import { existsSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { Agent, request } from "node:http";
import { connect } from "node:net";
import { join } from "node:path";
import fc from "fast-check";
import { demoSet } from "../../src/desk/demo";
import { serve } from "../../src/faces/server/app";
import { checkStore } from "../../src/store/check";
import { openSqlite } from "../../src/store/sqlite";
import { folder, nasty, type Part, part, some, troubles } from "./kit";
import { startServer } from "./server";

const atOnce = 12;
const nobody = (): never => {
  throw new Error("asked for its routes alone");
};
/** Every route that records, as the server has them; the demo only takes long. */
const toPost = serve({ desk: nobody, page: "", hosts: () => [], secret: "" })
  .routes.filter((r) => r.method === "POST" && r.path !== "/api/demo")
  .map((r) => r.path.replace(":name", "S"));
const toGet = [
  ...[
    "/",
    "/page.js",
    "/api/jobs",
    "/api/jobs?search=%25_%5C",
    "/api/patterns",
    "/api/jobs/S",
    "/api/jobs/Nobody",
    "/api/jobs/constructor",
  ],
  ...["export.zip", "cards.pdf?card=x", "dial-card.pdf?at=80&step=0", "dial-scale.svg?at=80&size=1e99", "dial-scale.pdf?at=x"].map(
    (w) => `/api/jobs/S/${w}`,
  ),
  ...["converter-card.pdf", "files/x", "files/..%2f"].map((w) => `/api/jobs/S/${w}`),
  ...["/api/jobs/%00", "/%2e%2e%2fetc/passwd", "/..%5c..%5cx", "//", "/api//jobs", "/%ff", "/api/jobs/__proto__/parts"],
];
const routes = fc.oneof(
  { weight: 6, arbitrary: fc.tuple(fc.constant("POST"), fc.constantFrom(...toPost)) },
  { weight: 2, arbitrary: fc.tuple(fc.constant("GET"), fc.constantFrom(...toGet)) },
  {
    weight: 1,
    arbitrary: fc.tuple(
      fc.constantFrom("PUT", "DELETE", "HEAD", "OPTIONS", "PATCH", "TRACE", "GET", "POST"),
      fc.constantFrom(...toPost, ...toGet),
    ),
  },
);
const types = [
  "application/json",
  "application/json",
  "text/plain",
  "multipart/form-data; boundary=x",
  "multipart/form-data",
  "application/x-www-form-urlencoded",
  "",
];
type Asked = typeof asked extends fc.Arbitrary<infer A> ? A : never;
const secrets = ["wrong", "none", "part"] as const;
const bodies = fc.oneof(
  fc.json(),
  nasty,
  nasty.map((s) => JSON.stringify({ entries: [{ kind: "done", step: s, note: s }] })),
  nasty.map((s) => JSON.stringify({ entries: [{ kind: "form", form: "voltage-chart", fields: { [s]: s } }] })),
  nasty.map((s) => JSON.stringify({ values: [{ path: s, text: s }], origin: "measured", why: s })),
  nasty.map((s) => JSON.stringify({ values: [{ path: "line.today", text: s }], origin: "measured", why: s })),
  nasty.map((s) => JSON.stringify({ work: s, subject: s, note: s, record: true, now: { [s]: s } })),
  nasty.map((s) => JSON.stringify({ band: "80", setPoint: s, reading: s, frequency: "3.6 MHz", approach: "up", thermal: "warm" })),
  nasty.map((s) => JSON.stringify({ reading: s, row: 1e9 })),
  nasty.map((s) => JSON.stringify({ name: s, pattern: s, setAlone: true, confirm: s, why: s })),
  nasty.map((s) => `--x\r\nContent-Disposition: form-data; name="file"; filename="${s.slice(0, 40)}"\r\n\r\n${s}\r\n--x--\r\n`),
  nasty.map(
    (s) =>
      `--x\r\nContent-Disposition: form-data; name="as"\r\n\r\nsweep\r\n--x\r\nContent-Disposition: form-data; name="file"; filename="a"\r\n\r\n${s}\r\n--x`,
  ),
  fc.constantFrom(
    "[".repeat(5000),
    `{"entries":${"[".repeat(3000)}`,
    '{"names":["constructor","__proto__"]}',
    '{"__proto__":{"x":1}}',
    "{",
    '{"why":',
  ),
);
const asked = fc.record({
  route: routes,
  type: fc.constantFrom(...types),
  secret: fc.oneof({ weight: 9, arbitrary: fc.constant("right" as const) }, { weight: 1, arbitrary: fc.constantFrom(...secrets) }),
  body: bodies,
  chunked: fc.boolean(),
  own: fc.integer({ min: 0, max: 9 }).map((n) => n > 0),
  site: fc.oneof(
    { weight: 9, arbitrary: fc.constantFrom("", "same-origin") },
    { weight: 1, arbitrary: fc.constantFrom("cross-site", "same-site", "none", "x") },
  ),
  host: fc.integer({ min: 0, max: 19 }).map((n) => (n === 0 ? "elsewhere.example" : "")),
});

/** Bytes that are no request at all, on a bare connection. */
const raw = (port: number, bytes: string): Promise<void> =>
  new Promise((done) => {
    const s = connect(port, "127.0.0.1", () => s.write(bytes, "latin1"));
    s.on("data", () => s.destroy()).on("close", () => done());
    s.on("error", () => undefined).setTimeout(1000, () => s.destroy());
  });

export const requests: Part = async (share) => {
  const t = troubles();
  const place = folder();
  const path = join(place, "jobs.db");
  const store = await openSqlite(path);
  await store.create({ id: "s", name: "S", created: "2026-02-01T00:00:00.000Z", set: demoSet(), entries: [] });
  const server = await startServer({ kind: "file", path });
  const url = new URL(server.url);
  const secretOf = { right: url.pathname.slice(0, -1), wrong: "/not-the-secret", none: "", part: url.pathname.slice(0, 10) };
  const agent = new Agent({ keepAlive: true, maxSockets: atOnce });
  const statuses = new Map<number, number>();
  const send = (a: Asked, megabytes = 0): Promise<number> =>
    new Promise((done) => {
      const headers = {
        host: a.host || url.host,
        ...(a.own ? { "x-fettle": "page" } : {}),
        ...(a.type ? { "content-type": a.type } : {}),
        ...(a.site ? { "sec-fetch-site": a.site } : {}),
        ...(a.chunked || megabytes > 0 ? { "transfer-encoding": "chunked" } : { "content-length": String(Buffer.byteLength(a.body)) }),
      };
      const r = request(
        {
          host: url.hostname,
          port: url.port,
          ...(megabytes > 0 ? {} : { agent }),
          method: a.route[0],
          path: `${secretOf[a.secret]}${a.route[1]}`,
          headers,
        },
        (answer) => {
          answer.resume().on("close", () => done(answer.statusCode ?? 0));
        },
      );
      // a connection that is cut at the limit counts as refused
      r.on("error", () => done(0)).setTimeout(60_000, () => r.destroy());
      // a connection that ends while more is being sent has nobody else to hear of it
      r.on("socket", (s) => s.on("error", () => undefined).setMaxListeners(0));
      if (megabytes > 0) for (let i = 0; i < megabytes; i++) r.write(Buffer.alloc(1048576, 32));
      r.end(a.body);
    });
  const all = some(asked, part(share, 30_000));
  let next = 0;
  const hand = async (): Promise<void> => {
    for (let i = next++; i < all.length; i = next++) {
      const a = all[i];
      // now and then more than is taken, in pieces of unsaid length
      const much = i % 1500 === 700;
      const status = await send(
        much ? { ...a, route: ["POST", "/api/import"], secret: "right", own: true, site: "", host: "" } : a,
        much ? 80 : 0,
      );
      statuses.set(status, (statuses.get(status) ?? 0) + 1);
      if (status >= 500 || (status === 0 && !much)) t.add(`status ${status}`, JSON.stringify(a).slice(0, 280));
      if (status < 400 && (a.secret !== "right" || a.host !== "") && !much) t.add("let in", JSON.stringify(a).slice(0, 280));
      if (i % 200 === 0) await raw(Number(url.port), a.body.slice(0, 2000));
    }
  };
  await Promise.all(Array.from({ length: atOnce }, hand));
  agent.destroy();
  if (!(await fetch(`${server.url}api/jobs`)).ok) t.add("the server", "does not answer any more");
  const memory = existsSync("/proc") ? /VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${server.process.pid}/status`, "utf8"))?.[1] : undefined;
  if (server.said() !== "") t.add("the server said", server.said());
  server.process.kill("SIGKILL");
  for (const w of checkStore(path).wrong) t.add("the store", w.says);
  if ((await store.load("S"))?.unreadable.length !== 0) t.add("the job", "an entry that can't be read");
  await store.close();
  const stray = readdirSync(place).filter((f) => !f.startsWith("jobs.db"));
  if (stray.length > 0) t.add("stray files", stray.join(", "));
  rmSync(place, { recursive: true, force: true });
  const told = [...statuses].sort(([a], [b]) => a - b).map(([s, n]) => `${n} of ${s || "cut at the limit"}`);
  return {
    attack: "hostile requests: methods, paths, bodies, wrong secrets, other hosts and sites, pieces of unsaid length, 80 MB at once",
    count: all.length,
    said: `${told.join(", ")}${memory ? `; at most ${Math.round(Number(memory) / 1024)} MB` : ""}; no stray file, the store whole`,
    broke: t.lines(),
  };
};
