import { describe, expect, it } from "vitest";
import { patterns } from "../set/patterns/kinds";
import { tolerance } from "../units/quantity";
import { crossedIn, sayCrossed } from "./crossed";
import type { Entry, JobDocument } from "./document";
import { viewOf } from "./view";

const volts = (value: number) => ({ value, spread: tolerance(1), origin: "measured" as const, source: "t" });
const at = (id: string, who: string, seen: string | undefined, of: object): Entry =>
  ({ id, at: "2026-03-01T10:00:00Z", who, ...(seen === undefined ? {} : { seen }), ...of }) as Entry;
const line = (id: string, who: string, seen: string | undefined, v: number) =>
  at(id, who, seen, { kind: "values", values: { "line.voltage": volts(v) }, why: "" });
const serial = (id: string, who: string, seen: string | undefined, text: string) =>
  at(id, who, seen, { kind: "form", form: "intake", fields: { "Serial number": text } });
const first = at("e0", "ann", undefined, { kind: "done", step: "01", note: "" });
const crossed = (...entries: Entry[]) => {
  const document = { format: "fettle-job", version: 5, id: "j", name: "j", created: "2026-03-01T09:00:00Z", set: patterns[1], entries };
  return crossedIn(viewOf(document as JobDocument));
};

describe("two people on one place", () => {
  it("cross where neither had seen the other's value: both are named, with who and when, the one that counts last", () => {
    const [c, ...more] = crossed(first, line("a", "ann", "e0", 117), line("b", "ben", "e0", 121));
    expect(more).toEqual([]);
    expect(c).toMatchObject({
      key: "line.voltage",
      claims: [
        { entry: "a", who: "ann" },
        { entry: "b", who: "ben" },
      ],
    });
    expect(c.place).not.toContain("line.voltage");
    expect(sayCrossed(c)).toMatch(/117.*ann, 1 March 2026, 10:00.*121.*ben/);
  });
  it.each([
    ["one had seen the other's", [line("a", "ann", "e0", 117), line("b", "ben", "a", 121)]],
    ["both found the same", [line("a", "ann", "e0", 117), line("b", "ben", "e0", 117)]],
    ["one person wrote twice, a page behind", [line("a", "ann", "e0", 117), line("b", "ann", "e0", 121)]],
    ["nothing is told of what was seen, as at a terminal", [line("a", "ann", undefined, 117), line("b", "ben", undefined, 121)]],
    [
      "a third, who had both, has said what is right",
      [line("a", "ann", "e0", 117), line("b", "ben", "e0", 121), line("c", "cat", "b", 117)],
    ],
    [
      "one of the two is taken back",
      [line("a", "ann", "e0", 117), line("b", "ben", "e0", 121), at("c", "ben", "b", { kind: "correction", supersedes: "b", why: "" })],
    ],
    ["they wrote to places beside each other", [line("a", "ann", "e0", 117), serial("b", "ben", "e0", "4711")]],
  ])("don't where %s", (_, entries) => {
    expect(crossed(first, ...entries)).toEqual([]);
  });
  it("cross on a card too, field by field, and a third who had seen only one of them crosses with the other", () => {
    const all = [first, serial("a", "ann", "e0", "4711"), serial("b", "ben", "e0", "4117"), serial("c", "cat", "a", "4171")];
    expect(crossed(...all)).toMatchObject([{ claims: [{ says: "4117" }, { says: "4171" }] }]);
  });
});
