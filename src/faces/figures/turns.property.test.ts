import fc from "fast-check";
import { expect, it } from "vitest";
import { leftOutPx, turnsOf } from "./turns";

type P = readonly [number, number, number];
/** Height of a line, joined from point to point, at x. */
function heightAt(line: readonly P[], x: number, k: 1 | 2): number {
  const i = Math.max(
    1,
    line.findIndex((p) => p[0] >= x),
  );
  const [a, b] = [line[i - 1], line[i]];
  return a[k] + ((b[k] - a[k]) * (x - a[0])) / (b[0] - a[0]);
}
const lines = fc
  .array(
    fc.tuple(fc.double({ min: 0.3, max: 5, noNaN: true }), fc.double({ min: 0, max: 160, noNaN: true }), fc.integer({ min: 0, max: 3 })),
    {
      minLength: 3,
      maxLength: 200,
    },
  )
  .map((steps) => {
    let x = 0;
    return steps.map(([run, y, flat]): P => {
      x += run;
      // parts of it run nearly level, as curves do
      return [x, flat > 0 ? 80 + y / 800 : y, flat > 1 ? 40 : y];
    });
  });

it("passes every point that it leaves out within a fifth of a px, and keeps both ends", () => {
  fc.assert(
    fc.property(lines, (points) => {
      const kept = turnsOf(points, (p) => p[0], [(p) => p[1], (p) => p[2]]);
      expect([kept[0], kept.at(-1)]).toEqual([points[0], points.at(-1)]);
      for (const p of points)
        for (const k of [1, 2] as const) expect(Math.abs(heightAt(kept, p[0], k) - p[k])).toBeLessThanOrEqual(leftOutPx + 1e-9);
    }),
  );
});
it("keeps the ends alone of a straight line, every point of a zigzag, and one height where another turns", () => {
  const straight = Array.from({ length: 50 }, (_, i): P => [i, 2 * i, 0]);
  expect(turnsOf(straight, (p) => p[0], [(p) => p[1]])).toEqual([straight[0], straight[49]]);
  const zigzag = Array.from({ length: 9 }, (_, i): P => [i, 3 * (i % 2), 0]);
  expect(turnsOf(zigzag, (p) => p[0], [(p) => p[1]])).toEqual(zigzag);
  expect(turnsOf(zigzag, (p) => p[0], [(p) => p[2], (p) => p[1]])).toEqual(zigzag);
  const jump: P[] = [
    [0, 0, 0],
    [1, 0, 0],
    [1, 9, 0],
    [2, 9, 0],
  ];
  expect(turnsOf(jump, (p) => p[0], [(p) => p[1]])).toEqual(jump);
});
