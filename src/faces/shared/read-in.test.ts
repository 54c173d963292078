import { describe, expect, it } from "vitest";
import type { JobDocument } from "../../job/document";
import { type JobView, viewOf } from "../../job/view";
import { dialCases, inventDial } from "../../set/invented-dial";
import { patterns } from "../../set/patterns/kinds";
import { orThrow } from "../../units/issue";
import { zeroBeat } from "./read-in";

let count = 0;
const stamp = { newId: () => `e${++count}`, at: "2026-02-03T00:00:00Z", who: "t" };
const said = { band: "80", setPoint: "3.5 MHz dot", reading: "20", frequency: "3.6 MHz", approach: "up" as const };
const withBeats = (beats: readonly object[]): JobView => {
  const document: JobDocument = { format: "fettle-job", version: 2, id: "j", name: "j", created: stamp.at, set: patterns[1], entries: [] };
  let view = viewOf(document);
  for (const b of beats)
    view = viewOf({ ...document, entries: [...view.document.entries, orThrow(zeroBeat(view, { ...said, ...b }, stamp))] });
  return view;
};
const taken = (view: JobView, more: object) => {
  const entry = orThrow(zeroBeat(view, { ...said, ...more }, stamp));
  return entry.kind === "reading" ? entry.reading : undefined;
};

describe("a zero beat as it is typed", () => {
  it("goes to the set-point that is meant, however it is spelt, and to a new one where it is new", () => {
    const view = withBeats([{}]);
    expect(taken(view, { setPoint: " 3.5 mhz DOT " })?.setPoint).toBe("3.5 MHz dot");
    expect(taken(view, { setPoint: "3.6 MHz dot" })?.setPoint).toBe("3.6 MHz dot");
  });
  it.each([
    [{ frequency: "7.1 MHz" }, "frequency", "outside-the-band"],
    [{ frequency: "0 Hz" }, "frequency", "not-positive"],
    [{ reading: "140" }, "reading", "off-the-scale"],
    [{ band: "160" }, "band", "no-band"],
  ])("refuses %j at its field", (more, path, code) => {
    const r = zeroBeat(withBeats([]), { ...said, ...more }, stamp);
    expect(r.ok ? [] : r.issues.map((i) => [i.path, i.code])).toEqual([[path, code]]);
  });
  it("knows a scale that is marked in frequency by its first beat", () => {
    expect(taken(withBeats([]), { reading: "3612", frequency: "3.6 MHz" })?.columns.reading).toEqual([3612]);
  });
  it("keeps beside the beat what is odd about it", () => {
    expect(taken(withBeats([{}]), { reading: "31" })?.warnings.join()).toContain("3.600 MHz was read at 20");
    const dial = inventDial({ ...dialCases[2], spacingHz: 100e3 }, 9);
    const all = dial.points.map((p) => ({ reading: String(p.reading), frequency: `${p.frequencyHz} Hz` }));
    const wrong = dial.readingFor(3.75e6, 1).toFixed(1);
    expect(taken(withBeats(all), { reading: wrong, frequency: "3.65 MHz" })?.warnings.join()).toContain("is expected near");
    expect(taken(withBeats(all), { reading: dial.readingFor(3.65e6, 1).toFixed(1), frequency: "3.65 MHz" })?.warnings).toEqual([]);
  });
});
