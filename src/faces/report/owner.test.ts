import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { TDocumentDefinitions } from "pdfmake/interfaces";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Desk, openJob } from "../../desk/actions";
import { makeDemo } from "../../desk/demo-job";
import type { Entry } from "../../job/document";
import { ownersReportOf } from "../../job/rollups/owner/owner";
import { proofOf } from "../../job/rollups/proof/proof";
import { type JobView, viewOf } from "../../job/view";
import { openSqlite } from "../../store/sqlite";
import { errandsHere } from "../errands/errands-here";
import { canRead, expectPapers, lost, printed, stranded, textsOf } from "./paper.testdata";
import { ownersDefinition } from "./reporting";

const folder = mkdtempSync(join(tmpdir(), "fettle-owner-"));
let view: JobView;
let definition: TDocumentDefinitions;
let n = 0;
const newId = () => `0e0e0e0e-${++n}`;
beforeAll(async () => {
  const store = await openSqlite(join(folder, "jobs.db"), () => "2026-05-03T10:00:00Z");
  const desk: Desk = { store, errands: errandsHere(newId), stamp: { at: "2026-05-03T10:00:00Z", who: "t", newId } };
  view = await openJob(desk, (await makeDemo(desk)).name);
  await store.close();
  definition = (await ownersDefinition(view))!;
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const heads = [
  "In short",
  "What was wrong",
  "What was done and why",
  "Before and after",
  "How to use what was fitted",
  "What to watch",
  "Safety record",
  "What was left",
  "Signature",
];

describe("the report to the owner", () => {
  it("answers in the order in which an owner asks", () => {
    expect(textsOf(definition.content).filter((t) => heads.includes(t))).toEqual(heads);
  });
  it.skipIf(!canRead)(
    "and the technical record come out whole, within their pages, with no heading last on its page and no id for the owner",
    async () => {
      await expectPapers(view);
    },
  );
  it.skipIf(!canRead)("is looked at by what sees a lost picture and a stranded heading", async () => {
    const page = { pageSize: "A4" as const, pageMargins: [48, 54, 48, 54] as [number, number, number, number], footer: "foot" };
    const tall = { unbreakable: true, stack: [{ text: "Lost", bold: true }, ...Array.from({ length: 90 }, () => "line")] };
    const missing = { ...page, content: ["before", tall, "after"] };
    expect(lost(missing, await printed(missing))).toEqual(["Lost"]);
    const apart = { ...page, content: ["one", { text: "Stranded", style: "h2" }, { text: "two", pageBreak: "before" as const }] };
    expect(stranded(apart, await printed(apart))).toEqual(["Stranded"]);
  });
  it("tells each fault with its cause and what became of it, and each part old and new", () => {
    const report = ownersReportOf(view, []);
    expect(report.wrong.map((w) => [w.cause, w.became])).toEqual([
      ["Screen bypass C12 leaks, 20 kΩ.", "Mended and proved 3 May 2026."],
      ["Silicon diodes in the rectifier's place, without a resistor in series.", "Not mended yet."],
      ["Not found yet.", "Not mended yet."],
      // a capacitor that could put the line on the chassis, as the set's own description has it
      ["Not found yet.", "Not mended yet."],
    ]);
    expect(report.wrong.at(-1)?.where).toBe("The line's side");
    expect(report.exchanged).toEqual([
      expect.objectContaining({ part: "Bypass capacitor C12", old: "50 nF marked, 400 V", came: "47 nF marked, 630 V" }),
    ]);
  });
  it("draws what was found and what was left beside what it should be", () => {
    const points = ownersReportOf(view, []).points;
    const screen = points.find((l) => /V4.*screen/.test(l.figure));
    expect(screen).toMatchObject({ found: "66.5 V", left: "104 V", chart: "100 V" });
    // 103 V is due on this meter at this line
    expect(screen?.share?.found).toBeCloseTo(66.5 / 103, 1);
    expect(screen?.share?.left).toBeCloseTo(104 / 103, 1);
  });
  it("gives each figure as it was measured", () => {
    const lines = proofOf(view);
    for (const f of ownersReportOf(view, []).figures)
      expect(lines.some((l) => l.figure === f.figure && l.found === f.found && l.left === f.left)).toBe(true);
  });
  it("calls nothing safe that isn't proved, and says so first", () => {
    const report = ownersReportOf(view, []);
    expect(report.safety.holds).toBe(false);
    expect(report.short.at(-1)).toMatch(/^NOT proved safe/);
    expect(report.safety.lacks.join(" ")).toMatch(/cord type.*touch current one way/);
    // a step that is said to be done without its record proves nothing
    const said: Entry = { id: "x", at: "2026-05-04T00:00:00Z", who: "t", kind: "done", step: "35", note: "" };
    expect(ownersReportOf(viewOf({ ...view.document, entries: [...view.document.entries, said] }), []).safety.holds).toBe(false);
  });
});
