import { expect, it } from "vitest";
import { patterns } from "../set/patterns/kinds";
import type { Entry, JobDocument } from "./document";
import { isFromElsewhere, sayBroughtIn } from "./format";
import { fromElsewhere } from "./from-elsewhere";
import { card, isolatedAct, safetyIn } from "./proved.testdata";
import { recordIssues } from "./safety-record";
import { viewOf } from "./view";

const head = (id: string) => ({ id, at: "2026-01-02T00:00:00Z", who: "somebody" });
const fact = (id: string, path: string, value: string): Entry => ({ ...head(id), kind: "fact", path, value, why: "" });
const q = { value: 1e300, spread: { shape: "exact" as const }, origin: "measured" as const, source: "meter" };
const document: JobDocument = {
  format: "fettle-job",
  version: 5,
  id: "j",
  name: "j\u0007",
  created: "2026-01-01T00:00:00Z",
  set: patterns[1],
  entries: [
    fact("ok", "bands.80.oscillator", "below"),
    fact("a", "line", "gone"),
    fact("b", "strip.cans", "none"),
    fact("c", "supplies.constructor", "x"),
    fact("d", "chassis.isolation", "surely"),
    { ...head("e"), kind: "values", values: { "line.voltage": q }, why: "" },
    { ...head("ok"), kind: "done", step: "01", note: "" },
    { ...head("f"), kind: "done", step: "03", note: "\u001b[2J" },
  ],
};
const by = { at: "2026-03-01T00:00:00Z", by: "t" };
const taken = fromElsewhere({ document, unreadable: [] }, by);

it("says of everything that it was brought in", () => {
  expect(taken.document.entries.map((e) => e.broughtIn)).toEqual([by, by]);
  expect(taken.document.entries.every(isFromElsewhere) && isFromElsewhere(taken.document)).toBe(true);
  expect(document.entries.some(isFromElsewhere)).toBe(false);
});
it("keeps aside what could not stand in this set, as it came, and applies the rest", () => {
  expect(taken.unreadable.map((u) => [u.seq, u.id])).toEqual([
    [2, "a"],
    [3, "b"],
    [4, "c"],
    [5, "d"],
    [6, "e"],
    [7, "ok"],
  ]);
  for (const u of taken.unreadable) expect(JSON.parse(u.stored)).toEqual(document.entries[u.seq - 1]);
  const { set } = viewOf(taken.document);
  expect(set.line).toEqual(patterns[1].line);
  expect(set.bands.find((b) => b.id === "80")?.oscillator).toBe("below");
});
it("a copy of a job here proves nothing either, and says so in words of its own", () => {
  const proved: JobDocument = { ...document, entries: [isolatedAct(() => head("act")), card(() => head("card"), "safety-in", safetyIn)] };
  expect(viewOf(proved).chassis).toBe("isolated");
  const copied = fromElsewhere({ document: proved, unreadable: [] }, { ...by, copyOf: "Kitchen set" }).document;
  expect(viewOf(copied).chassis).toBe("unstated");
  expect(viewOf(copied).inForce).toHaveLength(2);
  expect(recordIssues(viewOf(copied), "04").map((i) => i.code)).toContain("not-measured");
  expect(sayBroughtIn(copied.broughtIn!)).toMatch(/^Copied from the job "Kitchen set" .* proves nothing here/);
});
it("lets nothing in that steers a terminal", () => {
  expect(taken.document.name).toBe("j·");
  expect(JSON.stringify(taken.document)).not.toContain("\\u001b");
});
it("applies no fact in the wrong place, even of a job that is here already", () => {
  const misplaced = document.entries.filter((e) => ["a", "b", "d"].includes(e.id));
  expect(viewOf({ ...document, entries: misplaced }).set).toEqual(viewOf({ ...document, entries: [] }).set);
});
