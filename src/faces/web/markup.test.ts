/** Marks of HTML in every text that a job can hold: each page shows them as text. Nothing of them becomes part of a page; the policy that would stop it all the same isn't leaned on. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { fitDemoCable, makeDemo } from "../../desk/demo-job";
import type { JobDocument } from "../../job/document";
import { readJob } from "../../job/read-job";
import { viewOf } from "../../job/view";
import { openSqlite } from "../../store/sqlite";
import { errandsHere } from "../errands/errands-here";
import { executablePath, type InBrowser, inBrowser, jobHash } from "./in-browser.testdata";

const mark = '<img src="x" onerror="document.title=1"><b class="planted">';
/** What others are found by, what says when, and what is none of a person's words. */
const kept = /^(?:id|at|kind|hash|created|format|supersedes|reading|readings|estimate|fault|form|path|origin|pattern)$/;
type Node = { [key: string]: unknown };

/** The document with the mark behind every text that takes it and still reads; how many did. */
function marked(document: JobDocument): { readonly document: JobDocument; readonly count: number } {
  const work = JSON.parse(JSON.stringify(document)) as Node;
  let count = 0;
  const stillReads = (): boolean => {
    try {
      const r = readJob(work);
      if (!r.ok || r.value.unreadable.length > 0) return false;
      viewOf(r.value.document);
      return true;
    } catch {
      return false;
    }
  };
  const look = (node: Node): void => {
    for (const [key, value] of Object.entries(node)) {
      if (typeof value === "object" && value !== null) look(value as Node);
      else if (typeof value === "string" && !kept.test(key)) {
        node[key] = `${value}${mark}`;
        if (stillReads()) count++;
        else node[key] = value;
      }
    }
  };
  look(work.set as Node);
  for (const e of work.entries as Node[]) look(e);
  const r = readJob(work);
  if (!r.ok) throw new Error("the marked job does not read");
  return { document: r.value.document, count };
}
const folder = mkdtempSync(join(tmpdir(), "markup-"));
let at: InBrowser;
let count = 0;
const places = [
  ["", ""],
  ["find"],
  ["readings"],
  ["dial"],
  ["records"],
  ["records", "intake"],
  ["records", "voltage-chart"],
  ["records", "safety-in"],
  ["parts"],
  ["proof"],
  ["faults"],
  ["mend"],
  ["work"],
  ["found-and-left"],
  ["sitting"],
  ["past"],
  ["worth"],
  ["set"],
  ["before-opening"],
  ["big", "voltage-chart"],
  ["sheet", "volts"],
  ["sheet", "safety"],
  ["sheet", "s-meter"],
  ["sheet", "cable-load"],
];
describe.runIf(executablePath)("marks in every text of a job", () => {
  beforeAll(async () => {
    const made = await openSqlite(join(folder, "jobs.db"));
    let n = 0;
    const newId = () => `m${++n}`;
    const desk = { store: made, errands: errandsHere(newId), stamp: { at: "2026-02-01T00:00:00.000Z", who: "t", newId } };
    const { name } = await makeDemo(desk);
    await fitDemoCable(desk, name);
    const read = (await made.load(name))!.document;
    await made.close();
    const m = marked(read);
    count = m.count;
    at = await inBrowser(async (store) => {
      const { set, entries } = m.document;
      await store.create({ id: "m", name: "Set", created: "2026-02-01T00:00:00.000Z", set, entries });
    });
  });
  afterAll(async () => {
    await at?.close();
    rmSync(folder, { recursive: true, force: true });
  });
  it("stand as text on every page of it, in the list and in what is searched", async () => {
    expect(count).toBeGreaterThan(100);
    let shown = 0;
    const page = await at.open("#/");
    for (const hash of ["#/", ...places.map((p) => jobHash("Set", ...p.filter(Boolean)))]) {
      await page.goto(`${at.url}${hash}`);
      await page.locator("main h1, .bigpage").first().waitFor();
      await page.getByText(/^Opening…/).waitFor({ state: "detached" });
      // a question always answers, or says why not
      if (hash.includes("/sheet/")) await page.getByText(/^Working it out…$/).waitFor({ state: "detached" });
      const found = await page.evaluate(() => ({
        planted: document.querySelectorAll('img[src="x"], .planted, [onerror]').length,
        shown: document.body.textContent?.includes("onerror=") ?? false,
        title: document.title,
      }));
      expect([found.planted, found.title === "1"], hash).toEqual([0, false]);
      if (found.shown) shown++;
    }
    expect(shown).toBeGreaterThan(8);
    for (const paper of ["report.pdf", "technical-record.pdf", "cards.pdf?card=intake&blank=no", "parts.csv", "export.zip"])
      expect(await page.evaluate(async (p) => (await fetch(`api/jobs/Set/${p}`)).status, paper), paper).toBe(200);
    expect(at.complaints).toEqual([]);
  });
});
