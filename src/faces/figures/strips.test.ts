import { describe, expect, it } from "vitest";
import type { Strips } from "../../ask/drawings";
import { placed } from "./strip-flags";
import { stripsSvg, stripsText } from "./strips";

const places = [3.54, 3.58, 3.6, 3.657, 3.69, 3.72, 3.96, 3.999];
const picture: Strips = {
  id: "t",
  title: "A picture <of> places",
  dimension: "frequency",
  from: 3.5e6,
  to: 4e6,
  axis: "dial",
  also: { label: "stands for", atFrom: 28e6, atTo: 28.5e6 },
  rows: [
    { label: "Wanted", stroke: "accent", spans: [{ from: 3.5e6, to: 4e6, says: "the whole band" }] },
    { label: "Notes", stroke: "ink", spans: places.map((p) => ({ from: p * 1e6, to: p * 1e6, says: `${p} a note in words` })) },
    { label: "Nothing", stroke: "faint", spans: [] },
  ],
};
describe("strips drawn", () => {
  const { svg } = stripsSvg(picture, 640);
  const words = [...svg.matchAll(/<text class="label ink" x="([\d.]+)" y="([\d.]+)"([^>]*)>([\d.]+ a note[^<]*)/g)].map(
    ([, x, y, how, t]) => ({
      x: Number(x) - (how.includes("end") ? t.length * 5.9 : 0),
      y: Number(y),
      width: t.length * 5.9,
    }),
  );
  const poles = [...svg.matchAll(/<path class="trace ink" d="M([\d.]+) ([\d.]+)V([\d.]+)" stroke="#1d2a33" stroke-width="1.6"/g)].map(
    ([, x, from, to]) => ({
      x: Number(x),
      from: Number(from),
      to: Number(to),
    }),
  );
  it("show every place with its words", () => {
    expect(words).toHaveLength(places.length);
    expect(poles.length).toBeGreaterThanOrEqual(places.length);
    expect(svg).toContain("A picture &#60;of&#62; places");
  });
  it("lay no words on others, and put no pole through any", () => {
    for (const [i, a] of words.entries())
      for (const b of words.slice(i + 1))
        if (Math.abs(a.y - b.y) < 10) expect(a.x + a.width <= b.x + 1 || b.x + b.width <= a.x + 1, `${a.x} ${b.x}`).toBe(true);
    for (const p of poles) {
      const through = words.filter((w) => p.x > w.x + 1 && p.x < w.x + w.width - 1 && p.from < w.y - 4 && p.to > w.y);
      expect(through).toEqual([]);
    }
  });
});
it("takes no more levels than it has places, where some flags have turned at the edge and their neighbours would meet their poles", () => {
  const near = [3.6185, 3.64, 3.8062, 3.8631, 3.9579, 3.9769];
  const spans = near.map((p) => ({ from: p * 1e6, to: p * 1e6, says: `${p} oscillator x 12` }));
  const x = (v: number): number => 20 + (480 * (v - 3.5e6)) / 0.5e6;
  const { marks, levels } = placed({ label: "Notes", stroke: "ink", spans }, x, { left: 20, right: 500 });
  expect(levels).toBeLessThanOrEqual(near.length);
  expect(marks.map((m) => m.x)).toEqual(spans.map((p) => x(p.from)));
});
it("the same in characters, each place with its figure and words, the scale and what it stands for below", () => {
  const text = stripsText(picture, 80).join("\n");
  expect(text).toContain("3.54 MHz: 3.54 a note in words");
  expect(text).toMatch(/Nothing\n.*\n {4}none/);
  expect(text).toMatch(/3\.5 +4 {2}dial, MHz/);
  expect(text).toMatch(/28 +28\.5 {2}stands for, MHz/);
});
