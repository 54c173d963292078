/** Cautions stand where hands go in, and are not the noise that nobody reads: their share of what a person reads is measured, and none is missing. */
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { fitDemoCable, makeDemo } from "../../desk/demo-job";
import { sayLeftOut } from "../../desk/left-out";
import { type NextItem, nextSteps } from "../../job/next";
import { type JobView, viewOf } from "../../job/view";
import { stateWord } from "../../standards/cautions";
import { openSqlite } from "../../store/sqlite";
import { commandLine } from "../cli/main";
import { nextText } from "../cli/next-text";
import { errandsHere } from "../errands/errands-here";
import { cautionsAmiss, cautionsOf, type Said, saidIn, unheeded } from "./cautions.testdata";
import { coverCaution } from "./paper";
import { reportAnswers } from "./reporting";
import { type RecordParts, technicalRecord } from "./technical-record";

/** Half of what these shares were while each step repeated its whole text. */
const most = { report: 0.075, next: 0.155 } as const;
const folder = mkdtempSync(join(tmpdir(), "cautions-share-"));
const page = { columns: 96, bold: (s: string) => s };
const run = async (store: string, argv: readonly string[]): Promise<void> => {
  const err: string[] = [];
  const world = { out: () => undefined, err: (t: string) => void err.push(t), progress: () => undefined, page };
  const code = await commandLine({ ...world, now: () => "2026-05-03T12:00:00.000Z", env: { FETTLE_STORE: store } }).run(argv);
  expect(err.join("\n")).toBe("");
  expect(code, argv.join(" ")).toBe(0);
};
const open = async (store: string): Promise<JobView> => {
  const kept = await openSqlite(store);
  const [job] = (await kept.list("", 1)).jobs;
  const found = await kept.load(job.name);
  await kept.close();
  if (!found) throw new Error("no job");
  return viewOf(found.document);
};

/** Lines of the README's first job that record something. */
const recorded = (/## A first job[\s\S]*?```sh\n([\s\S]*?)```/.exec(readFileSync("README.md", "utf8"))?.[1] ?? "")
  .split("\n")
  .filter((l) => /^\.\/fettle (?:new|fill|chassis|work|done|set|read|zero-beat) /.test(l) && !l.includes("--dry-run"))
  .map((l) => [...l.replace(/\s+#.*$/, "").matchAll(/(?:[^\s"]+|"[^"]*")+/g)].map((m) => m[0].replace(/"/g, "")).slice(1));

const wordCount = (t: string): number => t.split(/\s+/).filter((w) => w !== "").length;

/** Share of the words that are cautions. */
function shareOf(said: readonly string[], cautions: readonly string[]): number {
  const whole = said.join("\n");
  const rest = cautions.reduce((t, c) => t.split(c).join(" "), whole);
  return 1 - wordCount(rest) / wordCount(whole);
}
/** `next` as printed, each line unwrapped. */
const nextSaid = (items: readonly NextItem[], columns = 1e4): Said[] =>
  nextText(items, { ...page, columns }, items.length)
    .split("\n")
    .map((text) => ({ text, heading: false }));

const jobs = { demo: join(folder, "demo.db"), worked: join(folder, "worked.db") } as const;
const partsOf = async (view: JobView): Promise<Omit<RecordParts, "view">> => {
  const { answers, leftOut } = await reportAnswers(view, { draws: 60, points: 21 });
  return { answers, leftOut: leftOut.map(sayLeftOut) };
};

beforeAll(async () => {
  const store = await openSqlite(jobs.demo);
  let n = 0;
  const newId = () => `c${++n}`;
  const desk = { store, errands: errandsHere(newId), stamp: { at: "2026-05-03T12:00:00.000Z", who: "t", newId } };
  await fitDemoCable(desk, (await makeDemo(desk)).name);
  await store.close();
  for (const line of recorded) await run(jobs.worked, line);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe.each(["demo", "worked"] as const)("cautions of the %s job", (name) => {
  it("are a small share of the report, no open step of it lacks its own, and none is said twice in a section", async () => {
    const view = await open(jobs[name]);
    const parts = await partsOf(view);
    const said = saidIn(technicalRecord({ view, ...parts }).content);
    const cautions = cautionsOf(view);
    expect(said.filter((s) => s.text.includes(`[${stateWord["open-live"]}]`)).length).toBeGreaterThan(0);
    const inShort = cautionsOf(view, true);
    expect(cautionsAmiss(view, parts)).toEqual([]);
    const share = shareOf(
      said.map((s) => s.text),
      [coverCaution, ...[...cautions, ...inShort].map((c) => c.says)],
    );
    expect(share).toBeGreaterThan(0.005);
    expect(share).toBeLessThan(most.report);
  });
  it("are a small share of what is next, and no open step of it lacks its own", async () => {
    const view = await open(jobs[name]);
    const items = nextSteps(view);
    // both jobs have the page before opening signed: what it says at length is said in short
    const cautions = cautionsOf(view, true);
    expect(unheeded(nextSaid(items), cautions)).toEqual([]);
    const due = nextSteps(view, (s) => s.due.length > 0);
    if (name === "demo") expect(due.length).toBeGreaterThan(3);
    expect(unheeded(nextSaid(due), cautions)).toEqual([]);
    // as it is printed unasked, its first steps, and whole
    for (const count of [undefined, items.length]) {
      const printed = nextText(items, { ...page, columns: 1e4 }, count).split("\n");
      const share = shareOf(
        printed,
        cautions.map((c) => c.says),
      );
      expect(share).toBeGreaterThan(0.01);
      expect(share).toBeLessThan(most.next);
    }
  });
  it("are said at length while nobody has signed the page before opening", async () => {
    const view = await open(jobs[name]);
    const inForce = view.inForce.filter((e) => !(e.kind === "form" && e.form === "safety-in"));
    const unsigned = nextSteps(viewOf({ ...view.document, entries: [...inForce] }));
    expect(unheeded(nextSaid(unsigned), cautionsOf(view))).toEqual([]);
    expect(nextText(unsigned, page)).toContain("insulated handle");
  });
});
