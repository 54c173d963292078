import { expect, it } from "vitest";
import type { Quantity } from "../../../units/quantity";
import { alongAt, knobPx, scaleFor, stopAlong, stopOf, stops, valueAt } from "./scale";

const of = (value: number): Quantity => ({ value, spread: { shape: "exact" }, origin: "stated", source: "" });

it("lies around what is on record between round ends, and never leaves what the question takes", () => {
  const length = scaleFor(of(1.524), { positive: true })!;
  expect(length).toEqual({ low: 0.2, high: 10, log: true });
  expect(scaleFor(of(1.524), { positive: true, max: 3 })!.high).toBe(3);
  expect(scaleFor(of(0.6), { min: 0, max: 1 })).toEqual({ low: 0, high: 1, log: false });
  expect(scaleFor(of(-12), {})).toEqual({ low: -50, high: 50, log: false });
});

it("has none where zero says nothing about how large another would be", () => {
  expect(scaleFor(of(0), {})).toBeUndefined();
  expect(scaleFor(of(Number.NaN), { positive: true })).toBeUndefined();
});

it("stands where the value is, comes back to it, and stays at an end beyond it", () => {
  for (const value of [3.3e-11, 1.524, 455e3, 7.5e8]) {
    const scale = scaleFor(of(value), { positive: true })!;
    // a stop is a ratio of at most reach^2 * 2.5 * 2.5 over all stops
    expect(valueAt(scale, stopOf(scale, value)) / value).toBeCloseTo(1, 1);
    expect(stopOf(scale, scale.high * 3)).toBe(stops);
    expect(stopOf(scale, scale.low / 3)).toBe(0);
    expect(valueAt(scale, stops)).toBe(scale.high);
  }
});

it("stands under the pointer that put it there, and at an end beyond it", () => {
  for (const width of [160, 300, 777]) {
    for (let stop = 0; stop <= stops; stop++) expect(stopAlong(alongAt(stop, width), width)).toBe(stop);
    expect(stopAlong(-50, width)).toBe(0);
    expect(stopAlong(width + 50, width)).toBe(stops);
    expect([alongAt(0, width), alongAt(stops, width)]).toEqual([knobPx / 2, width - knobPx / 2]);
  }
});
