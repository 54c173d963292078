/**
 * The strip's law many frequencies at once (WebAssembly, two to a step) against the same law one by one in plain arithmetic. The two take their
 * steps in another order, so that they differ by rounding alone: some parts in 10^13, and where a ladder's arms all but cancel, some in 10^12.
 */
import fc from "fast-check";
import { afterEach, describe, expect, it, vi } from "vitest";
import { afresh } from "../numerics/afresh.testdata";
import { StripResponse } from "./if-strip";
import type { StripModel } from "./if-strip-numbers";
import { type SeriesLoad, wideStrip } from "./if-strip-wide";
import { ceramic, narrow, wide } from "./prototype-strips.testdata";

const tolerance = 1e-11;
const load = { conductanceS: 3e-5, capacitanceF: 1.5e-9, inverseH: (2 * Math.PI * 455e3) ** 2 * 1.5e-9, seriesF: 1e-9 };
/** An open line of 4 m through the same capacitor. */
const line = (hz: Float64Array): SeriesLoad => ({
  ...load,
  conductanceS: 1e-6,
  susceptanceS: hz.map((f) => Math.tan((2 * Math.PI * f * 4) / 2e8) / 50),
});
const someStrip = fc.record({
  cans: fc.integer({ min: 1, max: 6 }),
  filtered: fc.boolean(),
  loaded: fc.constantFrom("nothing", "a tank", "a line"),
  k: fc.double({ min: 0.003, max: 0.08, noNaN: true }),
  q: fc.double({ min: 15, max: 250, noNaN: true }),
  offset: fc.double({ min: -4000, max: 4000, noNaN: true }),
  points: fc.integer({ min: 6, max: 1100 }),
  spanHz: fc.double({ min: 200, max: 400e3, noNaN: true }),
});
const made = ({ cans, filtered, k, q, offset }: { cans: number; filtered: boolean; k: number; q: number; offset: number }): StripModel => ({
  intermediateFrequency: 455e3,
  cans: Array.from({ length: cans }, (_, i) => ({
    ...wide.cans[i % 2],
    coupling: k,
    primaryQ: q,
    primaryOffset: i % 2 ? offset : -offset,
  })),
  filter: filtered ? ceramic : null,
});
const refused = () => {
  throw new Error("not allowed by the policy of this page");
};
const axis = (points: number, spanHz: number): Float64Array =>
  Float64Array.from({ length: points }, (_, i) => 455e3 - spanHz / 2 + (spanHz * i) / (points - 1));
afterEach(() => vi.unstubAllGlobals());

describe("the strip many at once", () => {
  it("is to be had here", () => {
    expect(wideStrip(new Float64Array(12))).toBeDefined();
  });
  it("has the power and the complex gain of the plain law, for any strip, load, span and number of points", () => {
    fc.assert(
      fc.property(someStrip, (s) => {
        const hz = axis(s.points, s.spanHz);
        const hung = { nothing: undefined, "a tank": load, "a line": line(hz) }[s.loaded];
        const [got, want] = [false, true].map((plain) => {
          const r = new StripResponse(made(s), plain);
          const power = new Float64Array(s.points);
          const g = { hz, re: new Float64Array(s.points), im: new Float64Array(s.points) };
          r.fill(hz, power, hung);
          r.fillComplex(g, hung, s.points);
          return { power, ...g };
        });
        // not a number anywhere makes it not a number
        let worst = 0;
        for (let i = 0; i < s.points; i++) {
          const size = Math.hypot(want.re[i], want.im[i]);
          const off = Math.hypot(got.re[i] - want.re[i], got.im[i] - want.im[i]) / size;
          worst = Math.max(worst, Math.abs(got.power[i] / want.power[i] - 1), off);
        }
        expect(worst).toBeLessThan(tolerance);
      }),
    );
  });
  it("writes no further than it is asked to", () => {
    const into = new Float64Array(20).fill(-1);
    new StripResponse(narrow).fill(axis(20, 5000), into, undefined, 13);
    expect(into.every((v, i) => (v === -1) === i >= 13)).toBe(true);
  });
  it.each([
    ["absent", undefined],
    ["refused", { Module: refused, Memory: WebAssembly.Memory }],
  ])("is left out where WebAssembly is %s, and the curve is the same", async (_, stub) => {
    vi.stubGlobal("WebAssembly", stub);
    const again = await afresh<typeof import("./if-strip-wide")>(new URL("./if-strip-wide.ts", import.meta.url));
    expect(again.wideStrip(new Float64Array(12))).toBeUndefined();
    const { StripResponse: Without } = await afresh<typeof import("./if-strip")>(new URL("./if-strip.ts", import.meta.url));
    const [hz, got, want] = [axis(401, 20e3), new Float64Array(401), new Float64Array(401)];
    new Without(narrow).fill(hz, got, load);
    new StripResponse(narrow, true).fill(hz, want, load);
    expect(got).toEqual(want);
  });
  it("leaves strips of more cans than it has room for to the plain law", () => {
    const many = made({ cans: 41, filtered: false, k: 0.02, q: 100, offset: 0 });
    expect(wideStrip(new Float64Array(41 * 12))).toBeUndefined();
    const into = new Float64Array(7);
    const r = new StripResponse(many);
    r.fill(axis(7, 100), into);
    expect(into[3]).toBe(r.at(455e3));
  });
});
