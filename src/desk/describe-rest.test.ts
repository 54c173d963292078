import { describe, expect, it } from "vitest";
import { describing, describingRest } from "./describe";

let n = 0;
const stamp = { at: "2026-01-03T00:00:00Z", who: "t", newId: () => `e${++n}` };
const tubes = ["6SG7", "6SA7", "6SK7", "6SK7", "6SQ7", "6V6", "5Y3"];
const typed = [...tubes, "owner: somebody", "IF 455 kHz"].join("\n");
const table = ["Tube,Type,Duty,Plate", ...tubes.map((t, i) => `V${i + 1},${t},,`), "V99,qqq,whatnot,", "IF 455 kHz"].join("\n");

describe("a line that can't be read", () => {
  it.each([
    ["typed", typed, "owner: somebody"],
    ["a table", table, "V99,qqq,whatnot,"],
  ])("of a text that is %s stops it, says which, what was read and expected, and is left out only when that is said", (_, text, line) => {
    const d = describing("Attic set", text, undefined, stamp);
    const at = text.split("\n").indexOf(line) + 1;
    expect(d.unread).toHaveLength(1);
    expect(d.unread[0].path).toContain(`line ${at}`);
    expect(d.unread[0].expected).not.toBe("");
    expect(d.set).toBeUndefined();
    const rest = describingRest("Attic set", text, undefined, stamp);
    expect(rest.unread).toEqual([]);
    expect(rest.leftOut).toEqual([line]);
    expect(rest.set?.tubes.length).toBeGreaterThanOrEqual(tubes.length);
    expect(rest.set?.strip.intermediateFrequency.value).toBe(455e3);
    // the record keeps it
    expect(rest.set?.note).toContain(`“${line}”`);
  });
  it("that is all there is describes nothing", () => {
    const rest = describingRest("Attic set", "owner: somebody", undefined, stamp);
    expect(rest.set).toBeUndefined();
    expect(rest.unread).not.toEqual([]);
  });
});
