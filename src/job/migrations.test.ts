import { describe, expect, it } from "vitest";
import { orThrow } from "../units/issue";
import { writtenOn } from "./cards";
import { readJob } from "./read-job";
import stored from "./version-1.testdata.json";
import { fallWith, viewOf } from "./view";

const { document, unreadable } = orThrow(readJob(structuredClone(stored)));

describe("a job of version 1, as that version stored it", () => {
  it("is read whole, as the version of today", () => {
    expect(document.version).toBe(5);
    expect(unreadable).toEqual([]);
    expect(document.entries).toHaveLength(stored.entries.length);
  });
  it("has its cards read as they read before, the last one taken back too", () => {
    expect(writtenOn(viewOf(document), "intake")).toEqual({ Owner: "a miller", Condition: "dusty" });
    const [, last] = document.entries;
    const back = { id: "c", at: last.at, who: "t", kind: "correction", supersedes: last.id, why: "" } as const;
    expect(writtenOn(viewOf({ ...document, entries: [...document.entries, back] }), "intake")).toEqual({
      Owner: "a miller",
      Symptoms: "hum",
    });
  });
  it("keeps both of two readings that were given one id, each with its own fit, and takes back one without the other", () => {
    const view = viewOf(document);
    const ids = view.readings.map((r) => r.id);
    expect(new Set(ids).size).toBe(2);
    expect([...view.estimates.keys()].sort()).toEqual(ids.map((id) => `fit-${id}`).sort());
    const readings = document.entries.filter((e) => e.kind === "reading");
    for (const [i, r] of readings.entries()) expect(fallWith(view, r)).toEqual(document.entries.slice(2 + 3 * i, 5 + 3 * i));
    const last = document.entries.at(-1);
    for (const q of last?.kind === "values" ? Object.values(last.values) : []) expect(q.joint).toBe(`fit-${ids[1]}`);
  });
  it("is the same when it is read once more", () => {
    expect(orThrow(readJob(JSON.parse(JSON.stringify(document)))).document).toEqual(document);
  });
});
