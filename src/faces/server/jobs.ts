import type { Hono } from "hono";
import { z } from "zod";
import { copyJob, type Desk, exported, newJob, patternNamed, takeIn } from "../../desk/actions";
import { fitDemoCable, makeDemo } from "../../desk/demo-job";
import { eraseJob, sayErased } from "../../desk/erase";
import type { JobDocument } from "../../job/document";
import { viewOf } from "../../job/view";
import { setFromOutline } from "../../set/outline";
import { patterns } from "../../set/patterns/kinds";
import { orThrow } from "../../units/issue";
import { bodyOf, bytesOf, jsonBy, wrong } from "./guard";

/** a page of the list; the search finds the others */
const mostListed = 60;
const mostRemembered = 2000;
const newBody = z.union([
  z.object({ name: z.string(), pattern: z.string() }),
  z.object({ name: z.string(), outline: z.record(z.string(), z.string()) }),
]);
const statesBody = z.object({ names: z.array(z.string()).max(1000) });
const eraseBody = z.object({ confirm: z.string(), revision: z.number().int().optional() });
const copyBody = z.object({ name: z.string(), setAlone: z.boolean() });

/** A job's state in a few words, for the list. */
function stateInWords(document: JobDocument | undefined): string {
  if (!document) return "";
  const { steps } = viewOf(document);
  const count = (state: string): number => steps.filter((s) => s.state === state).length;
  const due = count("due again");
  return due > 0
    ? `${due} due again, ${count("proven")} proven`
    : count("proven") === steps.length
      ? "all proven"
      : `${count("proven")} of ${steps.length} proven`;
}

/** Routes of jobs as a whole: listed, made, copied, shown, taken out and in. */
export function jobRoutes(app: Hono, desk: () => Desk): void {
  app.get("/api/jobs", async (c) => c.json(await desk().store.list(c.req.query("search") ?? "", mostListed)));
  const states = new Map<string, { readonly revision: number; readonly state: string }>();
  app.post("/api/states", async (c) => {
    const { names } = await jsonBy(statesBody, c);
    const { store } = desk();
    const out: Record<string, string> = {};
    for (const name of names) {
      // a list that is being searched has its turn between two jobs, and drops what it no longer shows
      await new Promise((r) => setImmediate(r));
      if (c.req.raw.signal.aborted) break;
      const revision = await store.revision(name);
      const known = states.get(name);
      const state = known && known.revision === revision ? known.state : stateInWords((await store.load(name))?.document);
      out[name] = state;
      if (revision === undefined) continue;
      // only jobs that are there are remembered, and of them no more than a few pages of the list
      states.delete(name);
      states.set(name, { revision, state });
      if (states.size > mostRemembered) states.delete(states.keys().next().value ?? "");
    }
    return c.json(out);
  });
  app.get("/api/patterns", (c) => c.json(patterns.map((p) => ({ id: p.pattern, title: p.title, note: p.note }))));
  app.post("/api/jobs", async (c) => {
    const said = await jsonBy(newBody, c);
    await newJob(desk(), said.name, "pattern" in said ? patternNamed(said.pattern) : orThrow(setFromOutline(said.outline)));
    return c.json({ name: said.name });
  });
  app.post("/api/demo", async (c) => {
    const d = desk();
    const { name } = await makeDemo(d);
    await fitDemoCable(d, name);
    return c.json({ name });
  });
  app.post("/api/jobs/:name/copy", async (c) => {
    const { name, setAlone } = await jsonBy(copyBody, c);
    await copyJob(desk(), c.req.param("name"), name, setAlone);
    return c.json({ name });
  });
  app.get("/api/jobs/:name", async (c) => {
    const found = await desk().store.load(c.req.param("name"));
    return found
      ? c.json(found)
      : c.json({ issues: [{ path: "job", code: "no-job", read: c.req.param("name"), expected: "a job of this store" }] }, 404);
  });
  app.post("/api/jobs/:name/erase", async (c) => {
    const name = c.req.param("name");
    const erased = await eraseJob(desk(), { name, ...(await jsonBy(eraseBody, c)) });
    states.delete(name);
    return c.json({ says: sayErased(name, erased) });
  });
  app.get("/api/jobs/:name/export.zip", async (c) => {
    const d = desk();
    const name = c.req.param("name");
    const revision = await d.store.revision(name);
    const { zip } = await exported(d, name);
    return c.body(bytesOf(zip), 200, {
      "x-revision": String(revision),
      "content-type": "application/zip",
      "content-disposition": `attachment; filename="job.zip"`,
    });
  });
  app.post("/api/import", async (c) => {
    const d = desk();
    const body = await bodyOf(c);
    if (!(body.file instanceof File)) throw wrong("file", "", "a job's zip");
    const { name } = await takeIn(d, new Uint8Array(await body.file.arrayBuffer()), body.file.name, { free: true });
    return c.json({ name });
  });
}
