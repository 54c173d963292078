import { createHash } from "node:crypto";
import { existsSync, readFileSync } from "node:fs";
import { extname, join, normalize } from "node:path";
import { Hono } from "hono";
import { streamSSE } from "hono/streaming";
import { z } from "zod";
import { type Entry, type JobDocument, readingKinds, readingStates, thermalStates } from "../../job/document";
import { formById } from "../../job/forms";
import { partsCsv } from "../../job/rollups/parts";
import { proofOf } from "../../job/rollups/proof";
import { viewOf } from "../../job/view";
import { setFromOutline } from "../../set/outline";
import { patterns } from "../../set/patterns/kinds";
import { hashOfBytes } from "../../store/archive";
import { orThrow } from "../../units/issue";
import { parseQuantity } from "../../units/parse";
import { origins } from "../../units/quantity";
import { copyJob, type Desk, exported, newJob, openJob, patternNamed, takeIn } from "../shared/actions";
import { assignment } from "../shared/assignment";
import { chassisAct } from "../shared/chassis-act";
import { fitDemoCable, makeDemo } from "../shared/demo-job";
import { converterCardPdf, dialCardPdf, dialScale, dialScalePdf, dialSubject } from "../shared/dial-papers";
import { type ReadingAsk, readFileIn, zeroBeat } from "../shared/read-in";
import { record } from "../shared/record";
import { cardsPdf, partsList, reportPdf } from "../shared/reporting";
import { takeBack, whatFalls } from "../shared/take-back";
import { planned, refuseUnsaid } from "../shared/work";
import { bodyOf, guard, parsed, wrong } from "./guard";

const media: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript",
  ".css": "text/css",
  ".woff2": "font/woff2",
  ".svg": "image/svg+xml",
};
/** a page of the list; the search finds the others */
const mostListed = 60;
const pictures = ["image/jpeg", "image/png"];
export interface Serving {
  /** a fresh stamp for each request, over one store */
  readonly desk: () => Desk;
  /** folder of the built page */
  readonly page: string;
  /** `host:port` names that this server answers to; anything else is somebody else's page */
  readonly hosts: () => readonly string[];
}

const workBody = z.object({
  work: z.string(),
  subject: z.string(),
  note: z.string(),
  record: z.boolean(),
  now: z.record(z.string(), z.string()).default({}),
});
const chassisBody = z.object({
  state: z.string(),
  ohms: z.string().default(""),
  voltsOneWay: z.string().default(""),
  voltsOtherWay: z.string().default(""),
  transformer: z.string().default(""),
  meter: z.string().default(""),
  how: z.string().default(""),
  confirm: z.string().default(""),
});
const valuesBody = z.object({
  values: z.array(z.object({ path: z.string(), text: z.string() })).min(1),
  origin: z.enum(origins),
  why: z.string(),
});
const newBody = z.union([
  z.object({ name: z.string(), pattern: z.string() }),
  z.object({ name: z.string(), outline: z.record(z.string(), z.string()) }),
]);
const statesBody = z.object({ names: z.array(z.string()).max(1000) });
const copyBody = z.object({ name: z.string(), setAlone: z.boolean() });
const entryBody = z.object({ entries: z.array(z.looseObject({ kind: z.string() })).min(1) });
const undoBody = z.object({ why: z.string() });
const readForm = z.object({
  as: z.enum(readingKinds),
  state: z.enum(readingStates),
  record: z.enum(["yes", "no"]),
  stage: z.string().optional(),
  step: z.string().optional(),
  instrument: z.string().optional(),
  thermal: z.enum(thermalStates).optional(),
  unit: z.string().optional(),
  lineVoltage: z.string().optional(),
  sMeterLaw: z.enum(["iaru"]).optional(),
  fit: z.enum(["yes", "no"]).optional(),
  band: z.string().optional(),
  setPoint: z.string().optional(),
});
const zeroBeatBody = z.object({
  band: z.string(),
  setPoint: z.string(),
  reading: z.string(),
  frequency: z.string(),
  approach: z.enum(["up", "down", "not-said"]),
  thermal: z.enum(thermalStates),
});

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

/** The server's routes over one store. It answers this machine only, and asks nothing of any other. */
export function serve({ desk, page, hosts }: Serving): Hono {
  const app = new Hono();
  guard(app, hosts);
  app.get("/api/jobs", async (c) => c.json(await desk().store.list(c.req.query("search") ?? "", mostListed)));
  const states = new Map<string, { readonly revision: number; readonly state: string }>();
  app.post("/api/states", async (c) => {
    const { names } = parsed(statesBody, await c.req.json());
    const { store } = desk();
    const out: Record<string, string> = {};
    for (const name of names) {
      // a list that is being searched has its turn between two jobs, and drops what it no longer shows
      await new Promise((r) => setImmediate(r));
      if (c.req.raw.signal.aborted) break;
      const revision = (await store.revision(name)) ?? -1;
      const known = states.get(name);
      const state = known?.revision === revision ? known.state : stateInWords((await store.load(name))?.document);
      states.set(name, { revision, state });
      out[name] = state;
    }
    return c.json(out);
  });
  app.get("/api/patterns", (c) => c.json(patterns.map((p) => ({ id: p.pattern, title: p.title, note: p.note }))));
  app.post("/api/jobs", async (c) => {
    const said = parsed(newBody, await c.req.json());
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
    const { name, setAlone } = parsed(copyBody, await c.req.json());
    await copyJob(desk(), c.req.param("name"), name, setAlone);
    return c.json({ name });
  });
  app.get("/api/jobs/:name", async (c) => {
    const found = await desk().store.load(c.req.param("name"));
    return found
      ? c.json(found)
      : c.json({ issues: [{ path: "job", code: "no-job", read: c.req.param("name"), expected: "a job of this store" }] }, 404);
  });
  app.post("/api/jobs/:name/entries", async (c) => {
    const d = desk();
    const name = c.req.param("name");
    const allowed = ["form", "done", "instrument", "correction"];
    const entries = parsed(entryBody, await c.req.json()).entries.map((e) => {
      if (!allowed.includes(e.kind)) throw wrong("kind", e.kind, `one of ${allowed.join(", ")}`);
      return { ...e, broughtIn: undefined, id: d.stamp.newId(), at: d.stamp.at, who: d.stamp.who };
    });
    const kept = await record(d, await openJob(d, name), entries);
    return c.json({ revision: kept.revision, ids: kept.entries.map((e) => e.id) });
  });
  app.post("/api/jobs/:name/values", async (c) => {
    const d = desk();
    const name = c.req.param("name");
    const { values, origin, why } = parsed(valuesBody, await c.req.json());
    const view = await openJob(d, name);
    const entries = values.map((v) => orThrow(assignment(view, v.path, v.text, origin, why || "typed in", d.stamp)));
    return c.json({ revision: (await record(d, view, entries)).revision });
  });
  app.post("/api/jobs/:name/undo", async (c) => {
    const d = desk();
    const name = c.req.param("name");
    const { why } = parsed(undoBody, await c.req.json());
    const view = await openJob(d, name);
    const { entry, fallen } = orThrow(whatFalls(view, d.stamp.who));
    return c.json({ revision: (await takeBack(d, view, fallen, why)).revision, supersedes: entry.id, kind: entry.kind });
  });
  app.post("/api/jobs/:name/work", async (c) => {
    const d = desk();
    const name = c.req.param("name");
    const { record: keep, ...said } = parsed(workBody, await c.req.json());
    const view = await openJob(d, name);
    const plan = planned(view, said, d.stamp);
    if (keep) refuseUnsaid(plan);
    return c.json({
      due: plan.due,
      asks: plan.asks,
      ...(plan.danger ? { danger: plan.danger } : {}),
      ...(keep ? { revision: (await record(d, view, plan.entries)).revision } : {}),
    });
  });
  app.post("/api/jobs/:name/chassis", async (c) => {
    const d = desk();
    const name = c.req.param("name");
    const entry = orThrow(chassisAct(parsed(chassisBody, await c.req.json()), d.stamp));
    return c.json({ revision: (await record(d, await openJob(d, name), [entry])).revision, id: entry.id });
  });
  app.post("/api/jobs/:name/read", async (c) => {
    const d = desk();
    const name = c.req.param("name");
    const body = await bodyOf(c);
    const {
      record: keep,
      unit,
      lineVoltage,
      sMeterLaw,
      fit,
      ...rest
    } = parsed(readForm, Object.fromEntries(Object.entries(body).filter(([k, v]) => k !== "file" && v !== "")));
    if (!(body.file instanceof File)) throw wrong("file", "", "a file");
    const line = lineVoltage === undefined ? undefined : orThrow(parseQuantity(lineVoltage, "voltage", "lineVoltage"));
    const how: ReadingAsk = {
      ...rest,
      withoutFit: fit === "no",
      ...(unit ? { frequencyUnit: unit } : {}),
      ...(sMeterLaw ? { sMeterLaw } : {}),
      ...(line ? { lineVoltage: { ...line, origin: "measured", source: "at the reading" } } : {}),
    };
    const view = await openJob(d, name);
    const r = orThrow(
      readFileIn(view, { name: body.file.name.slice(-120) || "file", bytes: new Uint8Array(await body.file.arrayBuffer()) }, how, d.stamp),
    );
    const told = r.fit
      ? {
          usedPoints: r.fit.usedPoints,
          rmsDb: r.fit.rmsDb,
          directionsCount: r.fit.directionsCount,
          unknownsCount: r.fit.leaves.length,
          warnings: r.fit.warnings,
        }
      : undefined;
    return c.json({
      reading: r.reading,
      fit: told,
      ...(keep === "yes" ? { revision: (await record(d, view, r.entries, [r.file])).revision } : {}),
    });
  });
  app.post("/api/jobs/:name/zero-beat", async (c) => {
    const d = desk();
    const name = c.req.param("name");
    const view = await openJob(d, name);
    const entry = orThrow(zeroBeat(view, parsed(zeroBeatBody, await c.req.json()), d.stamp));
    return c.json({ revision: (await record(d, view, [entry])).revision, id: entry.id });
  });
  app.post("/api/jobs/:name/attach", async (c) => {
    const d = desk();
    const name = c.req.param("name");
    const body = await bodyOf(c);
    if (!(body.file instanceof File)) throw wrong("file", "", "a photograph");
    const bytes = new Uint8Array(await body.file.arrayBuffer());
    const type = bytes[0] === 0xff && bytes[1] === 0xd8 ? "image/jpeg" : bytes[0] === 0x89 && bytes[1] === 0x50 ? "image/png" : "";
    if (!pictures.includes(type)) throw wrong("file", body.file.name, "a JPEG or PNG photograph");
    const file = { hash: hashOfBytes(bytes), name: body.file.name.slice(-120) || "photograph", media: type, bytes };
    const entry: Entry = {
      id: d.stamp.newId(),
      at: d.stamp.at,
      who: d.stamp.who,
      kind: "attachment",
      name: file.name,
      hash: file.hash,
      media: type,
      note: typeof body.note === "string" ? body.note : "",
    };
    return c.json({ revision: (await record(d, await openJob(d, name), [entry], [file])).revision });
  });
  app.get("/api/jobs/:name/files/:hash", async (c) => {
    const f = await desk().store.file(c.req.param("name"), c.req.param("hash"));
    if (!f) return c.json({ issues: [{ path: "file", code: "no-file", read: c.req.param("hash"), expected: "a file of this job" }] }, 404);
    const shown = pictures.includes(f.media);
    return c.body(f.bytes as never, 200, {
      "content-type": shown ? f.media : "application/octet-stream",
      ...(shown ? {} : { "content-disposition": "attachment" }),
    });
  });
  app.get("/api/jobs/:name/report.pdf", async (c) => {
    const { signal } = c.req.raw;
    const bytes = await reportPdf(await openJob(desk(), c.req.param("name")), undefined, () => signal.aborted);
    return c.body(bytes as never, 200, { "content-type": "application/pdf" });
  });
  app.get("/api/jobs/:name/cards.pdf", async (c) => {
    const which = c.req.query("card");
    if (which !== undefined && !formById(which)) throw wrong("card", which, "a record card");
    return c.body((await cardsPdf(await openJob(desk(), c.req.param("name")), which, c.req.query("blank") === "yes")) as never, 200, {
      "content-type": "application/pdf",
    });
  });
  app.get("/api/jobs/:name/parts", async (c) => {
    const { signal } = c.req.raw;
    return c.json(await partsList(await openJob(desk(), c.req.param("name")), undefined, () => signal.aborted));
  });
  app.get("/api/jobs/:name/proof", async (c) => c.json({ lines: proofOf(await openJob(desk(), c.req.param("name"))) }));
  app.get("/api/jobs/:name/parts.csv", async (c) => {
    const { lines } = await partsList(await openJob(desk(), c.req.param("name")));
    return c.body(partsCsv(lines), 200, {
      "content-type": "text/csv; charset=utf-8",
      "content-disposition": 'attachment; filename="parts.csv"',
    });
  });
  app.get("/api/jobs/:name/dial-card.pdf", async (c) => {
    const view = await openJob(desk(), c.req.param("name"));
    const { at, step, licence, mode } = c.req.query();
    const how = { ...(step ? { step } : {}), ...(licence ? { licence } : {}), ...(mode ? { mode } : {}) };
    const bytes = await dialCardPdf(view, orThrow(dialSubject(view, at ?? "")), how);
    return c.body(bytes as never, 200, { "content-type": "application/pdf" });
  });
  app.get("/api/jobs/:name/converter-card.pdf", async (c) => {
    const bytes = await converterCardPdf(await openJob(desk(), c.req.param("name")));
    return c.body(bytes as never, 200, { "content-type": "application/pdf" });
  });
  app.get("/api/jobs/:name/dial-scale.:kind{svg|pdf}", async (c) => {
    const view = await openJob(desk(), c.req.param("name"));
    const { at: said, licence, mode, ...typed } = c.req.query();
    const at = orThrow(dialSubject(view, said ?? ""));
    const how = { ...(licence ? { licence } : {}), ...(mode ? { mode } : {}) };
    return c.req.param("kind") === "svg"
      ? c.body(orThrow(dialScale(view, at, typed, how)), 200, {
          "content-type": "image/svg+xml",
          "content-disposition": 'attachment; filename="scale.svg"',
        })
      : c.body((await dialScalePdf(view, at, typed, how)) as never, 200, { "content-type": "application/pdf" });
  });
  app.get("/api/jobs/:name/export.zip", async (c) => {
    const d = desk();
    const name = c.req.param("name");
    return c.body((await exported(d, name)).zip as never, 200, {
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
  app.get("/api/events", (c) =>
    streamSSE(c, async (stream) => {
      let last = -1;
      while (!stream.aborted) {
        const now = await desk().store.changeCount();
        if (now !== last) await stream.writeSSE({ event: "change", data: String(now) });
        last = now;
        await stream.sleep(500);
      }
    }),
  );

  app.get("*", (c) => {
    const path = normalize(c.req.path === "/" ? "/index.html" : c.req.path);
    const file = join(page, path);
    if (!file.startsWith(page) || !existsSync(file) || extname(file) === "") return c.text("not here", 404);
    const bytes = readFileSync(file);
    const tag = `"${createHash("sha256").update(bytes).digest("hex").slice(0, 16)}"`;
    if (c.req.header("if-none-match") === tag) return c.body(null, 304);
    return c.body(bytes as never, 200, {
      "content-type": media[extname(file)] ?? "application/octet-stream",
      etag: tag,
      "cache-control": "no-cache",
    });
  });
  return app;
}
