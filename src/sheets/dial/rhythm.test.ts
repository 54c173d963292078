import { describe, expect, it } from "vitest";
import { dialCases, inventDial } from "../../infer/dial/possible-dials";
import type { DialPoint } from "../../readings/zero-beats";
import type { Bench } from "../../set/bench";
import { emptyBench } from "../../set/bench";
import { exact } from "../../units/quantity";
import { rhythmOf } from "./rhythm";

const dial = inventDial({ ...dialCases[2], spacingHz: 100e3 }, 9);
const bench = (points: readonly DialPoint[]): Bench => ({
  ...emptyBench,
  at: "bands.80",
  points: () => points,
  quantity: (path) =>
    ({ "bands.80.low": 3.5e6, "bands.80.high": 4e6, "fittings.markers.spacing": 100e3 })[path] === undefined
      ? undefined
      : {
          value: { "bands.80.low": 3.5e6, "bands.80.high": 4e6, "fittings.markers.spacing": 100e3 }[path] as number,
          spread: exact,
          origin: "stated",
          source: "test",
        },
});
const at = (n: number, direction: 1 | -1 = 1) => rhythmOf(bench(dial.points.slice(0, n)), direction)!;

describe("the rhythm of zero beats", () => {
  it("begins at the band's end, goes on by the spacing, and the other way from the other end", () => {
    expect(at(0).nextHz).toBe(3.5e6);
    expect(at(3).nextHz).toBe(3.8e6);
    expect(at(0, -1).nextHz).toBe(4e6);
    expect(at(3, -1).nextHz).toBe(3.6e6);
    // all taken turning up, none beyond the band's end
    expect(at(6).nextHz).toBeUndefined();
    // what was skipped comes before the end is called
    expect(rhythmOf(bench(dial.points.filter((p) => p.frequencyHz !== 3.6e6)), 1)!.nextHz).toBe(3.6e6);
  });
  it("goes on by the finer markers that the last two beats are", () => {
    const fine = [3.5e6, 3.525e6].map((frequencyHz): DialPoint => ({ frequencyHz, reading: dial.readingFor(frequencyHz, 1), approach: 1 }));
    expect(rhythmOf(bench(fine), 1)!.nextHz).toBe(3.55e6);
  });
  it("expects each frequency near where it is from two beats on, and closer with each", () => {
    expect(at(1).expected(3.9e6)).toBeUndefined();
    let last = Number.POSITIVE_INFINITY;
    for (const n of [2, 3, 4, 5, 6]) {
      const e = at(n).expected(3.75e6)!;
      expect(Math.abs(e.reading - dial.readingFor(3.75e6, 1)), `${n} beats`).toBeLessThan(2 * e.within);
      expect(e.within).toBeLessThan(1.3 * last);
      last = e.within;
    }
    expect(last).toBeLessThan(1.5);
  });
  it("offers every marker of the band until it is taken, whatever the number of beats", () => {
    for (const seed of [1, 2, 3, 4, 5]) {
      const wide = inventDial({ ...dialCases[1], spacingHz: 100e3 }, seed);
      const there = (n: number): Bench => ({
        ...bench(wide.points.slice(0, n)),
        quantity: (path) => {
          const hz = { "bands.80.low": 28e6, "bands.80.high": 30e6, "fittings.markers.spacing": 100e3 }[path];
          return hz === undefined ? undefined : { value: hz, spread: exact, origin: "stated", source: "test" };
        },
      });
      for (let n = 0; n < wide.points.length; n++)
        expect(rhythmOf(there(n), 1)!.nextHz, `${n} of dial ${seed}`).toBe(wide.points[n].frequencyHz);
      expect(rhythmOf(there(wide.points.length), 1)!.nextHz).toBeUndefined();
    }
  });
  it("calls a marker off the scale only where the law reaches the scale's end and is sure, and says where that ends", () => {
    // the band as described goes on to 4.4 MHz; the scale ends at about 4.02
    const long: Bench = {
      ...bench(dial.points),
      quantity: (path) => {
        const hz = { "bands.80.low": 3.5e6, "bands.80.high": 4.4e6, "fittings.markers.spacing": 100e3 }[path];
        return hz === undefined ? undefined : { value: hz, spread: exact, origin: "stated", source: "test" };
      },
    };
    expect(rhythmOf({ ...long, points: () => dial.points.slice(0, 2) }, 1)!.nextHz).toBe(3.7e6);
    const r = rhythmOf(long, 1)!;
    expect(r.nextHz).toBeUndefined();
    expect(r.beyond).toHaveLength(4);
    expect(r.beyond[0]).toMatch(/^4\.1 MHz is off the scale, which ends at 4\.0\d+ MHz \([\d.]+ to [\d.]+\)$/);
  });
  it("says so when one marker is written at two readings, from the second beat on", () => {
    const [first] = dial.points;
    const r = rhythmOf(bench([first]), 1)!;
    expect(r.odd(first.reading + 3, first.frequencyHz)).toContain("was read at");
    expect(r.odd(first.reading + 0.1, first.frequencyHz)).toBeUndefined();
  });
  it("names the marker that a reading would be, says so where it is none, and lets a good one pass", () => {
    const r = at(6);
    const right = dial.readingFor(3.7e6, 1);
    expect(r.odd(Number(right.toFixed(1)), 3.7e6)).toBeUndefined();
    expect(r.odd(Number(dial.readingFor(3.8e6, 1).toFixed(1)), 3.7e6)).toContain("Is it the marker at 3.8 MHz?");
    expect(r.odd(Number(dial.readingFor(3.745e6, 1).toFixed(1)), 3.7e6)).toContain("Read it once more.");
  });
});
