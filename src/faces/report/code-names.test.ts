/** No name of the code is read by a person: everything that the questions of the demo's job and its steps say, as words. */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { type Desk, openJob } from "../../desk/actions";
import { fitDemoCable, makeDemo } from "../../desk/demo-job";
import { nextSteps } from "../../job/next";
import { benchOf, type JobView, subjectsIn } from "../../job/view";
import { sheets } from "../../sheets/index";
import { openSqlite } from "../../store/sqlite";
import { errandsHere } from "../errands/errands-here";

const folder = mkdtempSync(join(tmpdir(), "fettle-code-names-"));
let view: JobView;
let n = 0;
const newId = () => `0e0e0e0e-${++n}`;
beforeAll(async () => {
  const store = await openSqlite(join(folder, "jobs.db"), () => "2026-05-03T10:00:00Z");
  const desk: Desk = { store, errands: errandsHere(newId), stamp: { at: "2026-05-03T10:00:00Z", who: "t", newId } };
  const { name } = await makeDemo(desk);
  await fitDemoCable(desk, name);
  view = await openJob(desk, name);
  await store.close();
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Two words joined by a point, as an address or an input's name is; the name of a file is none, nor is `p.d.`. */
const dotted = /\b[a-z][a-zA-Z-]+\.(?!csv|wav|flac|pdf|fettle)[a-z][a-zA-Z]+/g;
const codeNames = (texts: readonly (string | undefined)[]): readonly string[] =>
  texts.flatMap((t) => [...(t ?? "").matchAll(dotted)].map((m) => `${m[0]} in: ${t}`));

describe("what a person reads", () => {
  it("tells an address from a sentence", () => {
    expect(codeNames(["for this job (place.region, such as"])).toHaveLength(1);
    expect(codeNames(["Read zero-beats.csv. Then 1.5 m of cable, 0.2 dB."])).toEqual([]);
  });
  it.each(sheets.map((s) => [s.id, s] as const))("%s", (_, sheet) => {
    for (const at of subjectsIn(view, sheet)) {
      const a = answer(sheet, benchOf(view, at), { draws: 80, points: 21 });
      if (!a.ok) {
        expect(codeNames(a.issues.map((i) => i.expected))).toEqual([]);
        continue;
      }
      const { headline, findings, parts, next, tables, drawn, strips, missing, results } = a.value;
      const pictures = [...drawn, ...strips].map((p) => p.title);
      expect(
        codeNames([
          headline,
          ...findings.flatMap((f) => [f.says, f.do, ...f.before.map((c) => c.says)]),
          ...parts.flatMap((p) => [p.part, p.was, p.value, p.rating, p.kind, p.why]),
          ...next.flatMap((m) => [m.how]),
          ...tables.flatMap((t) => [t.title, ...t.rows.flatMap((r) => r.map(String))]),
          ...pictures,
          ...missing.map((m) => m.meaning),
          ...Object.values(results).map((f) => f.meaning),
        ]),
        at,
      ).toEqual([]);
    }
  });
  it("has no day as a program writes it: papers and page write a moment's day in words", () => {
    const files = ["report", "web"].flatMap((f) => {
      const at = join(import.meta.dirname, "..", f);
      return readdirSync(at, { recursive: true, encoding: "utf8" }).map((name) => join(at, name));
    });
    const written = files.filter((f) => /\.tsx?$/.test(f) && !/\.test(data)?\.ts$/.test(f));
    expect(written.length).toBeGreaterThan(100);
    expect(written.filter((f) => readFileSync(f, "utf8").includes(".slice(0, 10)"))).toEqual([]);
  });
  it("the steps that are open, and why", () => {
    const open = nextSteps(view);
    expect(open.length).toBeGreaterThan(5);
    expect(
      codeNames(open.flatMap((i) => [i.task, i.why, i.amount, i.doneWhen, ...i.past, ...i.wanted, ...i.cautions.map((c) => c.says)])),
    ).toEqual([]);
  });
});
