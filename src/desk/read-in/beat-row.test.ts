import { describe, expect, it } from "vitest";
import type { JobDocument } from "../../job/document";
import { formatVersion } from "../../job/format";
import { type JobView, viewOf } from "../../job/view";
import { patterns } from "../../set/patterns/kinds";
import { exact } from "../../units/quantity";
import { beatRow, beatsOfRow, type TypedRow } from "./beat-row";

/** An invented band from 3.8 to 9.5 MHz. */
const hz = (value: number) => ({ value, spread: exact, origin: "stated" as const, source: "sheet" });
const set = {
  ...patterns[1],
  bands: [{ ...patterns[1].bands[0], id: "c", label: "range C", low: hz(3.8e6), high: hz(9.5e6), spread: false }],
};
const blank = viewOf({
  format: "fettle-job",
  version: formatVersion,
  id: "j",
  name: "j",
  created: "2026-01-01T00:00:00Z",
  set,
  entries: [],
} as JobDocument);
let n = 0;
const stamp = () => ({ at: "2026-01-02T00:00:00Z", who: "t", newId: () => `e${++n}` });
const said = (readings: string, more: Partial<TypedRow> = {}): TypedRow => ({
  band: "c",
  setPoint: "",
  readings,
  every: "",
  from: "",
  approach: "up",
  ...more,
});
const marks = (readings: string, more: Partial<TypedRow> = {}, view: JobView = blank) => {
  const r = beatsOfRow(view, said(readings, more));
  return r.ok ? r.value.beats.map((b) => b.hz / 1e6) : r.issues.map((i) => `${i.path} ${i.code}`);
};

describe("a row of pointer readings", () => {
  it("tells its marks by itself on a scale that is marked in frequency, though the dial is off", () => {
    expect(marks("4.049 5.088 6.170 7.262")).toEqual([4, 5, 6, 7]);
    expect(marks("4.002 5.004 6.005 8.009 8.998")).toEqual([4, 5, 6, 8, 9]);
    expect(marks("4049 5088 6170 7262")).toEqual([4, 5, 6, 7]);
  });
  it("asks where a reading could be of two marks, or its steps fit no round spacing", () => {
    expect(marks("4.049 5.088 7.4", { every: "1 MHz" })).toEqual(["readings which-mark"]);
    expect(marks("4.6 5.0 5.4")).toEqual(["every not-said"]);
    expect(marks("12.4 30.1")).toEqual(["every not-said"]);
    expect(marks("12.4 30.1", { every: "1 MHz" })).toEqual(["from not-said"]);
  });
  it("counts from a first mark that was said, a dash leaving one out, and refuses what lies off the band", () => {
    expect(marks("12.4 30.1 - 61", { from: "4 MHz", every: "500 kHz" })).toEqual([4, 4.5, 5.5]);
    expect(marks("12.4 30.1", { from: "20 MHz", every: "500 kHz" })).toEqual(["readings outside-the-band"]);
    expect(marks("4.049 x")).toEqual(["readings unreadable"]);
  });
  it("is of the marks that were read before, where they are the same again, and is as found until work moves the dial", () => {
    const first = beatRow(blank, said("4.049 5.088 6.170 7.262"), stamp());
    if (!first.ok) throw new Error("refused");
    const view = viewOf({ ...blank.document, entries: [first.value.entry] });
    expect(first.value.entry).toMatchObject({ reading: { state: "as-found", thermal: "warm" } });
    expect(marks("4.01 6.02", {}, view)).toEqual([4, 6]);
    const work = {
      id: "w",
      at: "2026-01-02T01:00:00Z",
      who: "t",
      kind: "work",
      work: "oscillator-aligned",
      subject: "bands.c",
      note: "",
      makes: [],
      rests: [],
    };
    const sat = { id: "s", at: "2026-01-02T00:00:00Z", who: "t", kind: "sitting", initials: "JM", meter: "", method: "", thermal: "cold" };
    const after = viewOf({ ...blank.document, entries: [first.value.entry, sat, work] as JobDocument["entries"] });
    const left = beatRow(after, said("4.01 6.02"), stamp());
    expect(left.ok && left.value.entry).toMatchObject({ reading: { state: "as-left", thermal: "cold" } });
  });
});
