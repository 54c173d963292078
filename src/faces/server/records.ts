import type { Hono } from "hono";
import { z } from "zod";
import { type Desk, openJob } from "../../desk/actions";
import { assignment } from "../../desk/assignment";
import { chassisAct } from "../../desk/chassis-act";
import { type ReadingAsk, zeroBeat } from "../../desk/read-in";
import { record } from "../../desk/record";
import { takeBack, whatFalls } from "../../desk/take-back";
import { takeBackBeat } from "../../desk/take-back-beat";
import { refuseUnsaid } from "../../desk/work";
import { type Entry, readingKinds, readingStates, thermalStates } from "../../job/document";
import { hashOfBytes } from "../../store/archive";
import { orThrow } from "../../units/issue";
import { parseQuantity } from "../../units/parse";
import { origins } from "../../units/quantity";
import { bodyOf, bytesOf, jsonBy, parsed, wrong } from "./guard";

const pictures = ["image/jpeg", "image/png"];
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
const takeBackBody = z.object({ reading: z.string(), row: z.number().int().min(0) });
const zeroBeatBody = z.object({
  band: z.string(),
  setPoint: z.string(),
  reading: z.string(),
  frequency: z.string(),
  approach: z.enum(["up", "down", "not-said"]),
  thermal: z.enum(thermalStates),
});

/** Routes of what is recorded in a job: entries, values, work, readings, photographs, and what takes them back. */
export function recordRoutes(app: Hono, desk: () => Desk): void {
  app.post("/api/jobs/:name/entries", async (c) => {
    const d = desk();
    const name = c.req.param("name");
    const allowed = ["form", "done", "instrument", "correction"];
    const entries = (await jsonBy(entryBody, c)).entries.map((e) => {
      if (!allowed.includes(e.kind)) throw wrong("kind", e.kind, `one of ${allowed.join(", ")}`);
      return { ...e, broughtIn: undefined, id: d.stamp.newId(), at: d.stamp.at, who: d.stamp.who };
    });
    const kept = await record(d, await openJob(d, name), entries);
    return c.json({ revision: kept.revision, ids: kept.entries.map((e) => e.id) });
  });
  app.post("/api/jobs/:name/values", async (c) => {
    const d = desk();
    const name = c.req.param("name");
    const { values, origin, why } = await jsonBy(valuesBody, c);
    const view = await openJob(d, name);
    const entries = values.map((v) => orThrow(assignment(view, v.path, v.text, { origin, why: why || "typed in" }, d.stamp)));
    return c.json({ revision: (await record(d, view, entries)).revision });
  });
  app.post("/api/jobs/:name/undo", async (c) => {
    const d = desk();
    const name = c.req.param("name");
    const { why } = await jsonBy(undoBody, c);
    const view = await openJob(d, name);
    const { entry, fallen } = orThrow(whatFalls(view, d.stamp.who));
    return c.json({ revision: (await takeBack(d, view, fallen, why)).revision, supersedes: entry.id, kind: entry.kind });
  });
  app.post("/api/jobs/:name/work", async (c) => {
    const d = desk();
    const name = c.req.param("name");
    const { record: keep, ...said } = await jsonBy(workBody, c);
    const view = await openJob(d, name);
    const { at, who } = d.stamp;
    const plan = await d.errands.run("plan", { document: view.document, said, signed: { at, who } }, { signal: c.req.raw.signal });
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
    const view = await openJob(d, name);
    const entry = orThrow(chassisAct(view, await jsonBy(chassisBody, c), d.stamp));
    return c.json({ revision: (await record(d, view, [entry])).revision, id: entry.id });
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
    const file = { name: body.file.name.slice(-120) || "file", bytes: new Uint8Array(await body.file.arrayBuffer()) };
    const view = await openJob(d, name);
    const { at, who } = d.stamp;
    const r = await d.errands.run("read", { document: view.document, file, how, signed: { at, who } }, { signal: c.req.raw.signal });
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
  app.post("/api/jobs/:name/take-back-beat", async (c) => {
    const d = desk();
    const name = c.req.param("name");
    const { reading, row } = await jsonBy(takeBackBody, c);
    const view = await openJob(d, name);
    const entries = orThrow(takeBackBeat(view, reading, row, "zero beat taken back on the page", d.stamp));
    return c.json({ revision: (await record(d, view, entries)).revision });
  });
  app.post("/api/jobs/:name/zero-beat", async (c) => {
    const d = desk();
    const name = c.req.param("name");
    const view = await openJob(d, name);
    const entry = orThrow(zeroBeat(view, await jsonBy(zeroBeatBody, c), d.stamp));
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
    return c.body(bytesOf(f.bytes), 200, {
      "content-type": shown ? f.media : "application/octet-stream",
      ...(shown ? {} : { "content-disposition": "attachment" }),
    });
  });
}
