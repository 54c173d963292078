import { expect, it } from "vitest";
import { svgOf } from "./svg";
import { plotText } from "./text";
import { textWidth } from "./text-width";

const x = Array.from({ length: 201 }, (_, i) => i);
const trace = (label: string, y: (v: number) => number) => ({ label, stroke: "ink" as const, dash: false, x, y: x.map(y) });
const size = { width: 640, height: 320 };
/** Where a label stands, and the points of a path, as a reader of the picture would measure them. */
const labelAt = (svg: string, text: string): { x: number; y: number } => {
  const m = new RegExp(`<text class="label [^"]*" x="([\\d.]+)" y="([\\d.]+)"[^>]*>${text}<`).exec(svg)!;
  return { x: Number(m[1]), y: Number(m[2]) };
};
const curves = (svg: string): [number, number][][] =>
  [...svg.matchAll(/<path class="trace [^"]*"[^>]*? d="([^"]+)"/g)].map((m) =>
    joined([...m[1].matchAll(/(-?[\d.]+),(-?[\d.]+)/g)].map((p) => [Number(p[1]), Number(p[2])])),
  );
/** Every px along a line that is joined from point to point. */
const joined = (points: readonly [number, number][]): [number, number][] =>
  points.flatMap(([x1, y1], i) => {
    const [x0, y0] = points[Math.max(0, i - 1)];
    const count = Math.max(1, Math.ceil(Math.hypot(x1 - x0, y1 - y0)));
    return Array.from({ length: count }, (_, k): [number, number] => [
      x0 + ((x1 - x0) * (k + 1)) / count,
      y0 + ((y1 - y0) * (k + 1)) / count,
    ]);
  });

it("puts each label where it covers no curve and no other label, wherever there is room", () => {
  const svg = svgOf(
    {
      id: "d",
      title: "t",
      xLabel: "x",
      yLabel: "y",
      xLog: false,
      example: false,
      traces: [trace("rising", (v) => v), trace("falling", (v) => 200 - v), trace("bump", (v) => 200 * Math.exp(-(((v - 100) / 30) ** 2)))],
    },
    size,
  );
  for (const c of curves(svg)) expect(c.length).toBeGreaterThan(500);
  expect(curves(svg)).toHaveLength(3);
  const boxes = ["rising", "falling", "bump"].map((t) => ({ ...labelAt(svg, t), width: t.length * 6.4 }));
  for (const [i, b] of boxes.entries()) {
    const covered = curves(svg)
      .flat()
      .filter(([px, py]) => px > b.x && px < b.x + b.width && py > b.y - 9 && py < b.y + 2);
    expect(covered, `label ${i}`).toEqual([]);
    for (const o of boxes.slice(i + 1)) expect(b.x + b.width < o.x || o.x + o.width < b.x || Math.abs(b.y - o.y) > 11).toBe(true);
  }
});
it("escapes what a job may say", () => {
  const svg = svgOf(
    { id: "d", title: "<script>", xLabel: '"x"', yLabel: "&", xLog: false, example: false, traces: [trace("<b>", (v) => v)] },
    size,
  );
  expect(svg).not.toMatch(/<script>|<b>|"x"<| & /);
});

it("writes EXAMPLE across a picture that shows nothing of this set, and on no other", () => {
  const drawn = { id: "d", title: "t", xLabel: "x", yLabel: "y", xLog: false, traces: [trace("rising", (v) => v)] };
  expect(svgOf({ ...drawn, example: true }, size)).toContain(">EXAMPLE<");
  expect(svgOf({ ...drawn, example: false }, size)).not.toContain("EXAMPLE");
  expect(plotText({ ...drawn, example: true }).join("\n")).toContain("EXAMPLE, not this set");
});

it.each([
  ["a tone that moves by a hundredth of a hertz", (v: number) => 14.0312 + v * 1e-5],
  ["a tone far up", (v: number) => 4999.9 + v * 1e-4],
  ["small numbers", (v: number) => v / 100],
] as const)("keeps what the axis is clear of its figures: %s", (_, y) => {
  for (const type of [10, 16]) {
    const d = { id: "d", title: "t", xLabel: "x", yLabel: "frequency, Hz", xLog: false, example: false, traces: [trace("tone", y)] };
    const svg = svgOf(d, { ...size, type });
    // the axis is said upright: its foot lies a third of its letters right of where it stands
    const [, at] = /<text class="axis" transform="translate\(([\d.]+) /.exec(svg) ?? [];
    const ends = [...svg.matchAll(/<text class="tick" x="([\d.]+)" y="[\d.]+" text-anchor="end"[^>]*>([^<]*)</g)];
    expect(ends.length).toBeGreaterThan(2);
    for (const [, x, said] of ends) expect(Number(x) - textWidth(said, type)).toBeGreaterThan(Number(at) + 0.3 * type);
  }
});

it("draws what it has drawn before, at another size or beside another curve, as it would draw it first", () => {
  const common = { id: "d", title: "t", xLabel: "x", yLabel: "y", xLog: false, example: false };
  const drawn = [trace("rising", (v) => v), trace("bump", (v) => 200 * Math.exp(-(((v - 100) / 30) ** 2)))];
  const afresh = drawn.map((t) => ({ ...t, x: [...t.x], y: [...t.y] }));
  const higher = trace("higher", (v) => 300 + v);
  const sizes = [size, { width: 350, height: 160, type: 16, bare: true }, size];
  for (const s of sizes) {
    const before = svgOf({ ...common, traces: drawn }, s);
    expect(before).toBe(svgOf({ ...common, traces: afresh.map((t) => ({ ...t, x: [...t.x], y: [...t.y] })) }, s));
    // another curve gives another scale
    const [kept, anew] = [drawn, afresh].map((t) => svgOf({ ...common, traces: [...t, higher] }, s));
    expect(kept).toBe(anew);
    expect(curves(kept)[0]).not.toEqual(curves(before)[0]);
  }
});
