/** A flood of requests over the schema on a shop's server, by whoever is signed in and whoever isn't: always an answer, never a defect, nobody let in, and what is stored stays whole. */
import { spawn } from "node:child_process";
import { readFileSync, rmSync } from "node:fs";
import { Agent, request } from "node:http";
import { createServer } from "node:net";
import { join } from "node:path";
import type { z } from "zod";
import { commands } from "../../src/desk/commands/index";
import { demoSet } from "../../src/desk/demo";
import { type Role, suffices } from "../../src/desk/roles";
import * as shopSaid from "../../src/desk/shop-said";
import { ownRoutes } from "../../src/faces/server/shop/own-routes";
import { checkHome } from "../../src/store/check-home";
import { type Home, openHome } from "../../src/store/home";
import type { JobStore } from "../../src/store/store";
import { type Chance, chances, folder, type Part, part, seed, troubles } from "./kit";
import { pickBy, said, schemaOf, shapeless } from "./over-schema";
import { built, environmentOf } from "./server";

const wholeCount = 1_000_000;
const atOnce = 48;
/** A job takes so many requests, then another takes its place: each is read whole for whatever is asked of it. */
const requestsAJob = 5000;
/** So seldom is asked what takes long by itself: papers, and answers that are worked out. */
const dearShare = 0.002;
const dear =
  /\.(?:pdf|svg|csv|zip)|svg\|pdf|\/(?:worth|faults|parts|proof|sheet|sheets|ask|found-and-left|response|rehearse|known|where|describe|copy|demo|recognise|people)/;
const host = "shop.example";
const password = "four old brass knobs";
const ownSaid: Readonly<Record<string, z.ZodType>> = {
  [ownRoutes.signIn.path]: shopSaid.signInSaid,
  [ownRoutes.password.path]: shopSaid.setPasswordSaid,
  [ownRoutes.changePassword.path]: shopSaid.changePasswordSaid,
  [ownRoutes.changeAccount.path]: shopSaid.accountSaid,
  [ownRoutes.makeLink.path]: shopSaid.linkSaid,
  [ownRoutes.withdrawLink.path]: shopSaid.withdrawSaid,
  [ownRoutes.keep.path]: shopSaid.keepSaid,
  [ownRoutes.clearOut.path]: shopSaid.clearOutSaid,
};
interface Asked {
  readonly method: string;
  readonly path: string;
  readonly may: Role | "anyone";
  readonly comes: "json" | "upload" | "fields" | "query";
  readonly schema?: ReturnType<typeof schemaOf>;
}
/** Every route of the server but those that end the attackers' own sessions, the stream that never ends, and the demo, which only takes long. */
const routes: readonly Asked[] = [
  ...commands.flatMap((c) =>
    c.served.map(
      (r): Asked => ({
        ...r,
        comes: r.method === "GET" ? "query" : r.upload ? "upload" : "json",
        schema: schemaOf(c.takes),
      }),
    ),
  ),
  ...Object.values(ownRoutes).map((r): Asked => {
    const takes = ownSaid[r.path];
    const comes = r.method === "GET" ? "query" : r.path.startsWith("/api/") ? "json" : "fields";
    return { ...r, comes, ...(takes && r.method === "POST" ? { schema: schemaOf(takes) } : {}) };
  }),
].filter((r) => !/sign-out|\/api\/events|\/api\/demo/.test(r.path));
const [cheap, costly] = [routes.filter((r) => !dear.test(r.path)), routes.filter((r) => dear.test(r.path))];
type Who = "nobody" | "planted" | "bench" | "keeper";
const roleOf: Readonly<Record<Who, Role | undefined>> = { nobody: undefined, planted: undefined, bench: "bench", keeper: "keeper" };

/** Fields as a form sends them, or as an upload does. */
const asText = (v: unknown): string => (typeof v === "string" ? v : (JSON.stringify(v) ?? ""));
const wellFormed = (text: string): string => Buffer.from(text, "utf8").toString("utf8");
function bodyOf(r: Asked, chance: Chance): readonly [type: string, body: string] {
  if (chance() < 0.04) return [pickBy(chance, ["application/json", "text/plain", "multipart/form-data", ""]), pickBy(chance, shapeless)];
  const fields = r.schema ? said(r.schema, chance) : {};
  if (r.comes === "json") return ["application/json", JSON.stringify(fields) ?? ""];
  const pairs = Object.entries(typeof fields === "object" && fields !== null ? fields : {}).map(([k, v]) => [
    wellFormed(k),
    wellFormed(asText(v)),
  ]);
  if (r.comes === "fields") return ["application/x-www-form-urlencoded", new URLSearchParams(pairs).toString()];
  const parts = [...pairs, ["file", pickBy(chance, shapeless).slice(0, 3000)]].map(
    ([k, v]) => `--x\r\nContent-Disposition: form-data; name="${k}"${k === "file" ? '; filename="a"' : ""}\r\n\r\n${v}\r\n`,
  );
  return ["multipart/form-data; boundary=x", `${parts.join("")}--x--\r\n`];
}
function pathOf(r: Asked, job: string, chance: Chance): string {
  const name = chance() < 0.95 ? job : encodeURIComponent(wellFormed(asText(said({}, chance))).slice(0, 200));
  const path = r.path
    .replace(":name", name)
    .replace(/\/:type\{.*?\}/, "/x.woff2")
    .replace(/:kind\{.*?\}/, "svg")
    .replace("/*", "/page.js")
    .replace(/:\w+/g, () => encodeURIComponent(wellFormed(asText(said({}, chance))).slice(0, 200)));
  if (r.comes !== "query" || !r.schema) return path;
  const { job: _, ...fields } = Object(said(r.schema, chance));
  const query = new URLSearchParams(Object.entries(fields).map(([k, v]) => [wellFormed(k), wellFormed(asText(v)).slice(0, 2000)]));
  return `${path}?${query}`;
}
const freePort = (): Promise<number> =>
  new Promise((done) => {
    const s = createServer().listen(0, "127.0.0.1", () => {
      const { port } = s.address() as { port: number };
      s.close(() => done(port));
    });
  });
/** A shop that is served on this machine, with what it logs of defects. */
async function served(
  home: Home,
): Promise<{ readonly port: number; readonly pid: number; readonly defects: string[]; readonly kill: () => void }> {
  const port = await freePort();
  const words = ["serve", "--host", "127.0.0.1", "--port", String(port), "--proxy", `https://${host}`];
  const p = spawn(process.execPath, [built, ...words], { env: { ...process.env, ...environmentOf(home), FETTLE_TRACE: "1" } });
  const defects: string[] = [];
  p.stderr.on("data", (d: Buffer) => {
    // what is no line of the log is a trace
    for (const line of d.toString("utf8").split("\n"))
      if (line.includes('"event":"defect"') || /^\w*Error\b/.test(line)) defects.push(line);
  });
  await new Promise<void>((done, failed) => {
    p.stdout.on("data", (d: Buffer) => {
      if (d.includes("The shop")) done();
    });
    p.on("exit", () => failed(new Error("the shop's server ended")));
  });
  return { port, pid: p.pid ?? 0, defects, kill: () => void p.kill("SIGKILL") };
}
const agent = new Agent({ keepAlive: true, maxSockets: atOnce });
type Headers = Readonly<Record<string, string>>;
interface Sent {
  readonly method: string;
  readonly path: string;
  readonly headers: Headers;
  readonly body: string;
}
const send = (port: number, s: Sent): Promise<{ readonly status: number; readonly cookie: string }> =>
  new Promise((done) => {
    const headers = { host, ...s.headers, ...(s.method === "GET" ? {} : { "content-length": String(Buffer.byteLength(s.body)) }) };
    const r = request({ host: "127.0.0.1", port, agent, method: s.method, path: s.path, headers }, (answer) => {
      answer
        .resume()
        .on("close", () =>
          done({ status: answer.statusCode ?? 0, cookie: (answer.headers["set-cookie"] ?? []).join().replace(/;.*$/, "") }),
        );
    });
    r.on("error", () => done({ status: 0, cookie: "" })).setTimeout(120_000, () => r.destroy());
    r.end(s.method === "GET" ? undefined : s.body);
  });
async function people(store: JobStore, port: number): Promise<Readonly<Record<Who, string>>> {
  const { accounts } = store.keeping();
  const enter = async (name: string, role: "keeper" | "bench"): Promise<string> => {
    await accounts.setPassword(await accounts.make(name, role, "t"), password, "");
    const headers = { origin: `https://${host}`, "content-type": "application/x-www-form-urlencoded", "x-forwarded-for": "192.168.1.20" };
    return (await send(port, { method: "POST", path: "/sign-in", headers, body: new URLSearchParams({ name, password }).toString() }))
      .cookie;
  };
  return {
    nobody: "",
    planted: "__Host-fettle=planted",
    keeper: await enter("Ann of the shop", "keeper"),
    bench: await enter("Ben of the shop", "bench"),
  };
}

export const signedIn: Part = async (share) => {
  const t = troubles();
  const place = folder();
  const home: Home = { kind: "file", path: join(place, "jobs.db") };
  const store = await openHome(home);
  const server = await served(home);
  const cookies = await people(store, server.port);
  if (!cookies.keeper || !cookies.bench) t.add("not signed in", JSON.stringify(cookies));
  const count = part(share, wholeCount);
  const chance = chances(seed);
  const counts = new Map<string, number>();
  const jobs: string[] = [];
  const jobFor = (i: number): string => jobs[Math.floor(i / requestsAJob)];
  let next = 0;
  const hand = async (): Promise<void> => {
    for (let i = next++; i < count; i = next++) {
      const r = pickBy(chance, chance() < dearShare ? costly : cheap);
      const who = pickBy<Who>(chance, ["nobody", "planted", "bench", "bench", "bench", "bench", "keeper", "keeper", "keeper", "keeper"]);
      const [type, body] = bodyOf(r, chance);
      const wrongs: Headers =
        chance() < 0.05
          ? pickBy<Headers>(chance, [{ host: "evil.example" }, { origin: "https://evil.example" }, { "sec-fetch-site": "cross-site" }])
          : {};
      const own: Headers = r.comes === "fields" ? { origin: `https://${host}` } : chance() < 0.97 ? { "x-fettle": "page" } : {};
      const headers: Headers = {
        ...own,
        ...(type && r.method === "POST" ? { "content-type": type } : {}),
        ...(cookies[who] ? { cookie: cookies[who] } : {}),
        ...wrongs,
      };
      const path = pathOf(r, jobFor(i), chance);
      const { status } = await send(server.port, { method: r.method, path, headers, body });
      counts.set(`${status}`, (counts.get(`${status}`) ?? 0) + 1);
      const what = `${who} ${r.method} ${path.slice(0, 120)} ${body.slice(0, 160)}`;
      if (status === 0 || status >= 500) t.add(`status ${status}`, what);
      const mayAsk = r.may === "anyone" || (roleOf[who] !== undefined && suffices(roleOf[who], r.may));
      // who is led to where one signs in is not let in
      if (status < 300 && (!mayAsk || "host" in wrongs || "origin" in wrongs || "sec-fetch-site" in wrongs)) t.add("let in", what);
    }
  };
  for (let i = 0; i <= count / requestsAJob; i++) {
    jobs.push(`S${i}`);
    await store.create({ id: `s${i}`, name: `S${i}`, created: "2026-02-01T00:00:00.000Z", set: demoSet(), entries: [] });
  }
  const began = performance.now();
  await Promise.all(Array.from({ length: atOnce }, hand));
  const seconds = (performance.now() - began) / 1000;
  agent.destroy();
  const peak = /VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${server.pid}/status`, "utf8"))?.[1];
  for (const d of server.defects) t.add("a defect", d);
  server.kill();
  for (const w of (await checkHome(home)).wrong) t.add("the store", w.says);
  for (const name of jobs) if ((await store.load(name))?.unreadable.length !== 0) t.add("a job", `${name} has what can't be read`);
  for (const w of (await store.keeping().audit.verify()).wrong) t.add("the trail", w);
  await store.close();
  rmSync(place, { recursive: true, force: true });
  const told = [...counts].sort(([a], [b]) => Number(a) - Number(b)).map(([s, n]) => `${n} of ${s}`);
  return {
    attack: `requests over the schema of every route, on a shop with accounts: by a keeper, a bench, nobody and a planted cookie, ${atOnce} at once; bad words, wrong types, fields left out, other hosts and sites`,
    count,
    said: `${told.join(", ")}; ${Math.round(count / seconds)} a second, at most ${Math.round(Number(peak) / 1024)} MB; nobody let in, the trail and the store whole`,
    broke: t.lines(),
  };
};
