import { expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { benchOfSet, subjectsOf } from "../../job/view";
import { patterns } from "../../set/patterns/kinds";
import { asRead } from "../../sheets/as-read.testdata";
import { sheets } from "../../sheets/index";
import { orThrow } from "../../units/issue";
import { drawingOf } from "./drawing";
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
it("every figure's marks name an input or a result of its question", () => {
  const unknown = sheets.flatMap((s) =>
    s.figures.flatMap((f) => (f.marks ?? []).filter((m) => !(m.at in s.inputs) && !(m.at in s.results)).map((m) => `${s.id} ${m.at}`)),
  );
  expect(unknown).toEqual([]);
});
