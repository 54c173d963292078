import { describe, expect, it } from "vitest";
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
  viewOf({ format: "fettle-job", version: 2, id: "j", name: "j", created: "", set: patterns[1], entries } as JobDocument);
const missing = (entries: readonly Entry[]) => recordIssues(viewWith(entries), "03").filter((i) => i.path.includes("card"));

describe("a value that is read again and is the same", () => {
  const found = [...comingIn(head)];
  it("is not written twice while nothing was done", () => {
    const r = fillCard(viewWith(found), "safety-in", safetyIn, undefined, stamp);
    expect(r.ok ? [] : r.issues.map((i) => i.code)).toEqual(["nothing-new"]);
  });
  it("is a new value after work that touched it, for the fields typed again and no others", () => {
    const worked = [...found, ...orThrow(planWork(viewWith(found), "cord-changed", "", "", stamp)).entries];
    expect(missing(worked).every((i) => i.code === "older-than-work")).toBe(true);
    const some = orThrow(fillCard(viewWith(worked), "safety-in", { "Tester used": safetyIn["Tester used"] }, undefined, stamp));
    expect(some.kind === "form" && some.fields).toEqual({ "Tester used": safetyIn["Tester used"] });
    const whole = orThrow(fillCard(viewWith(worked), "safety-in", safetyIn, undefined, stamp));
    expect(missing([...worked, whole])).toEqual([]);
    expect(fillCard(viewWith([...worked, card(head, "safety-in", safetyIn)]), "safety-in", safetyIn, undefined, stamp).ok).toBe(false);
  });
});
