import { describe, expect, it } from "vitest";
import { writtenOn } from "../job/cards";
import type { Entry, JobDocument } from "../job/document";
import { card, comingIn, safetyIn } from "../job/proved.testdata";
import { recordIssues } from "../job/safety-record";
import { viewOf } from "../job/view";
import { planWork } from "../job/works";
import { patterns } from "../set/patterns/kinds";
import { orThrow } from "../units/issue";
import { fillCard } from "./fill-card";

let n = 0;
const stamp = { at: "2026-01-03T00:00:00Z", who: "t", newId: () => `e${++n}` };
const head = () => ({ id: stamp.newId(), at: stamp.at, who: stamp.who });
const viewWith = (entries: readonly Entry[]) =>
  viewOf({ format: "fettle-job", version: 5, id: "j", name: "j", created: "", set: patterns[1], entries } as JobDocument);
const missing = (entries: readonly Entry[]) => recordIssues(viewWith(entries), "03").filter((i) => i.path.includes("card"));

describe("a value that is read again and is the same", () => {
  const found = [...comingIn(head)];
  it("is not written twice while nothing was done", () => {
    const r = fillCard(viewWith(found), "safety-in", safetyIn, undefined, stamp);
    expect(r.ok ? [] : r.issues.map((i) => i.code)).toEqual(["nothing-new"]);
  });
  it("is a new value after work that touched it, for the fields typed again and no others", () => {
    const worked = [...found, ...orThrow(planWork(viewWith(found), { work: "cord-changed" }, stamp)).entries];
    expect(missing(worked).every((i) => i.code === "older-than-work")).toBe(true);
    const some = orThrow(fillCard(viewWith(worked), "safety-in", { "Tester used": safetyIn["Tester used"] }, undefined, stamp)).entry;
    expect(some.kind === "form" && some.fields).toEqual({ "Tester used": safetyIn["Tester used"] });
    const whole = orThrow(fillCard(viewWith(worked), "safety-in", safetyIn, undefined, stamp)).entry;
    expect(missing([...worked, whole])).toEqual([]);
    expect(fillCard(viewWith([...worked, card(head, "safety-in", safetyIn)]), "safety-in", safetyIn, undefined, stamp).ok).toBe(false);
  });
});

describe("a cell that can't be read", () => {
  const file = (text: string) => ({ name: "chart.csv", bytes: new TextEncoder().encode(text) });
  const rows = file("Tube,Chart V,Measured V\nV1,200,195\nV2,100,many\nV3,90,88,1,2\nV4,50,51");
  it("keeps no other from being written, of a file or typed, and is named by card, row, column, what was read and what is wanted", () => {
    const r = orThrow(fillCard(viewWith([]), "voltage-chart", { "Line volts": "120", Nowhere: "x", "row 9: Chart V": "?" }, rows, stamp));
    expect(r.entry).toMatchObject({
      fields: { "Line volts": "120", "row 1: Measured V": "195", "row 2: Chart V": "100", "row 4: Measured V": "51" },
    });
    expect(Object.keys((r.entry as { fields: object }).fields)).toHaveLength(r.keptCount);
    expect(r.refused.map((i) => i.path)).toEqual([
      "card voltage-chart, row 3",
      "card voltage-chart, Nowhere",
      "card voltage-chart, row 2, Measured V",
      "card voltage-chart, row 9, Chart V",
    ]);
    expect(r.refused[2]).toMatchObject({ read: "many", expected: expect.stringContaining("voltage such as") });
  });
  it("is all that is said where nothing can be kept", () => {
    const r = fillCard(viewWith([]), "voltage-chart", { "row 1: Chart V": "many" }, undefined, stamp);
    expect(r.ok ? [] : r.issues.map((i) => i.path)).toEqual(["card voltage-chart, row 1, Chart V"]);
  });
  it("of a new table leaves its place empty: no cell of the old one shows through", () => {
    const before = orThrow(fillCard(viewWith([]), "voltage-chart", {}, file("Tube,Measured V\nV7,10\nV8,20\nV9,30"), stamp)).entry;
    const r = orThrow(fillCard(viewWith([before]), "voltage-chart", {}, rows, stamp));
    expect(r.rows).toEqual({ before: 3, after: 3 });
    expect(writtenOn(viewWith([before, r.entry]), "voltage-chart")["row 2: Measured V"]).toBeUndefined();
  });
});
