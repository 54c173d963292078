import { expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { benchOfSet, subjectsOf } from "../../job/view";
import { patterns } from "../../set/patterns/kinds";
import { mediumStrip } from "../../set/patterns/strips";
import { stripLeaves } from "../../set/strip";
import { asRead } from "../../sheets/as-read.testdata";
import { sheets } from "../../sheets/index";
import { orThrow } from "../../units/issue";
import { drawingOf, extentOf } from "./drawing";
import { svgOf } from "./svg";
import { plotText } from "./text";

const set = { ...patterns[1], chassis: { state: "isolated" as const, isolation: "none" as const, note: "" } };
function pictured(id: string, figure: string, overrides: Record<string, string> = {}) {
  const s = sheets.find((o) => o.id === id)!;
  const at = subjectsOf(set, s.subject, s.fitting, s.stageKinds)[0] ?? "";
  const a = orThrow(answer(s, benchOfSet(set, at), { draws: 200, points: 41, overrides: { ...asRead(s), ...overrides } }));
  return drawingOf(s.figures.find((f) => f.id === figure)!, a);
}

it("zero beats lie on the law that was made from them, in picture and terminal, with the place that was asked about", () => {
  const d = pictured("dial", "bend");
  const [beats] = d.points!;
  const [law] = d.traces;
  expect(beats.label).toBe("zero beats");
  expect(beats.x.length).toBeGreaterThan(4);
  const step = law.x[1] - law.x[0];
  const swing = Math.max(...law.y.map(Math.abs));
  for (const [i, x] of beats.x.entries()) {
    const k = law.x.findIndex((v, j) => Math.abs(v - x) <= step / 2 + 1e-9 || j === law.x.length - 1);
    expect(Math.abs(beats.y[i] - law.y[k]), `${x}`).toBeLessThan(0.25 * swing);
  }
  expect(d.places?.map((p) => p.label)).toEqual(["asked about"]);
  const drawn = svgOf(d, { width: 640, height: 320 });
  expect(drawn.match(/class="point"/g)?.length).toBe(beats.x.length);
  expect(plotText(d).join("\n")).toMatch(/@ zero beats/);
});
it("B+ as measured stands at today's line, and nothing stands there before it was measured", () => {
  const read = pictured("b-plus", "line", { lineVoltage: "111 V", measuredFirst: "271 V" });
  expect(read.points).toEqual([{ label: "measured", x: [111], y: [271] }]);
  expect(read.places).toEqual([{ x: 111, label: "today's line" }]);
  const without = sheets.find((o) => o.id === "b-plus")!;
  const bare = orThrow(answer(without, benchOfSet(set, ""), { draws: 200, points: 41 }));
  expect(drawingOf(without.figures.find((f) => f.id === "line")!, bare).points).toEqual([]);
});
it.each([
  ["bfo", "sidebands", ["CW pitch"]],
  ["phasing", "response", ["notch", "crystal"]],
  ["q-multiplier", "multiplier", ["its peak"]],
  ["cable-load", "length", ["this cable"]],
  ["image", "rejection", ["asked about"]],
] as const)("%s, %s: this set's own place stands in the picture, inside what is drawn", (id, figure, labels) => {
  // a phasing that is set off neutral has a notch
  const d = pictured(id, figure, id === "phasing" ? { phasing: "9 pF" } : {});
  expect(d.places?.map((p) => p.label)).toEqual(labels);
  const { x } = extentOf(d);
  for (const p of d.places ?? []) expect(p.x >= x[0] && p.x <= x[1], `${p.label} ${p.x}`).toBe(true);
});
it("a Q multiplier set to reject has its null marked, where its curve is deepest", () => {
  const d = pictured("q-multiplier", "multiplier", { function: "reject" });
  const [, { x, y }] = d.traces;
  const null_ = d.places?.find((p) => p.label === "its null");
  const step = x[1] - x[0];
  const near = x.flatMap((v, i) => (Math.abs(v - (null_?.x ?? 0)) <= 2 * step ? [y[i]] : []));
  const beside = x.flatMap((v, i) => (Math.abs(Math.abs(v - (null_?.x ?? 0)) - 5 * step) <= step ? [y[i]] : []));
  expect(near.length).toBeGreaterThan(1);
  expect(Math.min(...near)).toBeLessThan(Math.min(...beside));
});
it("a crystal and a winding of which nothing is known but what is assumed have no mark; a winding whose place is known has", () => {
  const own = (id: string, overrides: Record<string, string>) => {
    const s = sheets.find((o) => o.id === id)!;
    const a = orThrow(answer(s, benchOfSet(set, ""), { draws: 50, points: 21, overrides }));
    return drawingOf(s.figures[0], a).places?.map((p) => [p.label, Math.round(p.x * 1000) / 1000]);
  };
  expect(own("phasing", { phasing: "9 pF" })?.map(([l]) => l)).toEqual(["notch"]);
  expect(own("if-align", {})).toEqual([]);
  expect(own("if-align", { "strip.can1.primaryOffset": "1500 Hz" })).toEqual([["primary now", 1.5]]);
});
it("the shift that a longer cable makes is read off at this cable's own length", () => {
  const d = pictured("cable-load", "length");
  const [t] = d.traces;
  expect(t.y[0]).toBeCloseTo(0, 9);
  const k = t.x.findIndex((v) => Math.abs(v - d.places![0].x) < 1e-9);
  const s = sheets.find((o) => o.id === "cable-load")!;
  const at = subjectsOf(set, s.subject, s.fitting, s.stageKinds)[0] ?? "";
  const a = orThrow(answer(s, benchOfSet(set, at), { draws: 50, points: 21 }));
  expect(t.y[k] * 1000).toBeCloseTo(a.results.primaryDetune.value!, 0);
});
it("every figure's marks name an input, a figure of the strip or a result of its question", () => {
  const unknown = sheets.flatMap((s) => {
    const leaves = "strip" in s.inputs ? stripLeaves(mediumStrip(455e3)).map((l) => l.path) : [];
    const known = [...Object.keys(s.inputs), ...Object.keys(s.results), ...leaves];
    return s.figures.flatMap((f) => (f.marks ?? []).filter((m) => !known.includes(m.at)).map((m) => `${s.id} ${m.at}`));
  });
  expect(unknown).toEqual([]);
});
