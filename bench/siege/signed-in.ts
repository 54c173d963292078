/** A flood of requests over the schema on a shop's servers, by whoever is signed in and whoever isn't: always an answer, never a defect, nobody let in, no memory that grows, and what is stored stays whole. */
import { rmSync } from "node:fs";
import { join } from "node:path";
import { demoSet } from "../../src/desk/demo";
import { checkHome } from "../../src/store/check-home";
import { type Home, openHome } from "../../src/store/home";
import type { JobStore } from "../../src/store/store";
import { chances, folder, type Part, part, seed, troubles } from "./kit";
import { dearShare, drawn, host, type Who } from "./shop/asking";
import { type ShopServed, served } from "./shop/served";
import { wire } from "./shop/wire";

const wholeCount = 1_000_000;
/** Two servers of one shop, and so many hands at each. */
const [serversCount, handsAtEach] = [2, 24];
/** A job takes so many requests, then another takes its place. */
const requestsAJob = 5000;
const password = "four old brass knobs";
/** Memory is looked at after each tenth: its least in the last four is not to be so much more than its least from the third to the sixth. Common practice, no source. */
const [moments, mostGrowth, mostGrowthMb] = [10, 1.25, 100];
/** With fewer requests a server is still warming up, and how its memory goes says little. */
const tellsGrowth = 200_000;

type Cookies = Readonly<Record<Who, string>>;
async function people(store: JobStore, port: number): Promise<Cookies> {
  const { accounts } = store.keeping();
  const at = wire(port, host);
  const enter = async (name: string, role: "keeper" | "bench"): Promise<string> => {
    await accounts.setPassword(await accounts.make(name, role, "t"), password, "");
    const headers = { origin: `https://${host}`, "content-type": "application/x-www-form-urlencoded", "x-forwarded-for": "192.168.1.20" };
    return (await at.ask({ method: "POST", path: "/sign-in", headers, body: new URLSearchParams({ name, password }).toString() })).cookie;
  };
  const found = {
    nobody: "",
    planted: "__Host-fettle=planted",
    keeper: await enter("Ann of the shop", "keeper"),
    bench: await enter("Ben of the shop", "bench"),
  };
  at.shut();
  return found;
}
/** How a server's memory went, in words, and whether it goes on growing: what one dear answer takes comes and goes, what is held on to stays. */
function memoryOf(mb: readonly number[]): { readonly said: string; readonly grows: boolean } {
  const [early, late] = [Math.min(...mb.slice(2, 6)), Math.min(...mb.slice(-4))];
  return { said: mb.map((x) => x.toFixed(0)).join(", "), grows: late > early * mostGrowth && late > early + mostGrowthMb };
}

/** All that is asked, by all hands, and what came of it. */
interface Flood {
  readonly count: number;
  readonly servers: readonly ShopServed[];
  readonly cookies: Cookies;
  readonly jobs: readonly string[];
  readonly trouble: (kind: string, what: string) => void;
}
async function flood({ count, servers, cookies, jobs, trouble }: Flood) {
  const [chance, counts] = [chances(seed), new Map<number, number>()];
  const memory = servers.map((): number[] => []);
  let [next, done, slowestMs] = [0, 0, 0];
  const hand = async ({ port }: ShopServed): Promise<void> => {
    const at = wire(port, host);
    for (let i = next++; i < count; i = next++) {
      const d = drawn(chance, jobs[Math.floor(i / requestsAJob)], cookies);
      const began = performance.now();
      const { status } = await at.ask(d);
      slowestMs = Math.max(slowestMs, performance.now() - began);
      counts.set(status, (counts.get(status) ?? 0) + 1);
      const what = `${d.who} ${d.method} ${d.path.slice(0, 120)} ${d.body.slice(0, 160)}`;
      if (status === 0 || status >= 500) trouble(`status ${status}`, what);
      // who is led to where one signs in is not let in
      if (status < 300 && !d.letIn) trouble("let in", what);
      if (++done % Math.ceil(count / moments) === 0 || done === count) for (const [k, s] of servers.entries()) memory[k].push(s.memoryMb());
    }
    at.shut();
  };
  const began = performance.now();
  await Promise.all(servers.flatMap((s) => Array.from({ length: handsAtEach }, () => hand(s))));
  return { counts, memory, slowestMs, seconds: (performance.now() - began) / 1000 };
}

export const signedIn: Part = async (share) => {
  const t = troubles();
  const place = folder();
  const home: Home = { kind: "file", path: join(place, "jobs.db") };
  const store = await openHome(home);
  const servers: ShopServed[] = [];
  for (let i = 0; i < serversCount; i++) servers.push(await served(home));
  const cookies = await people(store, servers[0].port);
  if (!cookies.keeper || !cookies.bench) t.add("not signed in", JSON.stringify(cookies));
  const count = part(share, wholeCount);
  const jobs = Array.from({ length: Math.ceil(count / requestsAJob) + 1 }, (_, i) => `S${i}`);
  for (const name of jobs)
    await store.create({ id: name.toLowerCase(), name, created: "2026-02-01T00:00:00.000Z", set: demoSet(), entries: [] });
  const came = await flood({ count, servers, cookies, jobs, trouble: t.add });
  for (const s of servers) {
    for (const d of s.defects) t.add("a defect", d);
    s.kill();
  }
  const memory = came.memory.map(memoryOf);
  for (const m of memory) if (m.grows && count >= tellsGrowth) t.add("memory grows", m.said);
  for (const w of (await checkHome(home)).wrong) t.add("the store", w.says);
  // a keeper's request may have erased a job: then the trail tells of it
  const told = new Set((await store.keeping().audit.rows(count * 3)).map((r) => r.about));
  for (const name of jobs) {
    const job = await store.load(name);
    if (!job && !told.has(name)) t.add("a job", `${name} is gone, and nothing tells of it`);
    if (job && job.unreadable.length > 0) t.add("a job", `${name} has what can't be read`);
  }
  for (const w of (await store.keeping().audit.verify()).wrong) t.add("the trail", w);
  await store.close();
  rmSync(place, { recursive: true, force: true });
  const said = [...came.counts].sort(([a], [b]) => a - b).map(([s, n]) => `${n} of ${s}`);
  return {
    attack: `requests over the schema of every route, on a shop with accounts and ${serversCount} servers: by a keeper, a bench, nobody and a planted cookie, ${serversCount * handsAtEach} at once; bad words, wrong types, fields left out, other hosts and sites; 1 in ${1 / dearShare} of what takes seconds by itself (papers, answers worked out)`,
    count,
    said: `${said.join(", ")}; ${Math.round(count / came.seconds)} a second, the slowest after ${(came.slowestMs / 1000).toFixed(1)} s; memory after each tenth, MB: ${memory.map((m) => m.said).join("; ")}; nobody let in, the trail and the store whole`,
    broke: t.lines(),
  };
};
