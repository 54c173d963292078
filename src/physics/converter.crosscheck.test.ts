import { describe, expect, it } from "vitest";
import {
  birdiesOf,
  type ConverterPlan,
  dialHz,
  halfDialOf,
  imageOf,
  productsHz,
  responsesOf,
  signalAtDialHz,
  tunedOver,
} from "./converter";

const plan = (crystal: number, low: number, high: number): ConverterPlan => ({
  crystalHz: crystal * 1e6,
  lowHz: low * 1e6,
  highHz: high * 1e6,
  side: crystal < low ? "below" : "above",
});
const receiver = { ifHz: 455e3, oscillator: "above" } as const;
const mhz = (v: number) => v / 1e6;

// A second implementation in another language, harmonics up to 7 each, signals less than 0.5 MHz from the band, IF 455 kHz below its oscillator.
const second = [
  [24.5, 28, 28.5, [20.5, 21], [26.25, 26.5], ["6,5,-1,28.6,28.7", "7,6,-1,27.916667,28"], [3.5525, 3.64, 3.704167]],
  [32, 28, 28.5, [35.5, 36], [30, 30.25], ["6,7,1,27.928571,28"], [3.601875, 3.64]],
  [
    11,
    7,
    7.5,
    [14.5, 15],
    [9, 9.25],
    [
      "1,2,1,7.25,7.5",
      "3,4,-1,7.25,7.375",
      "3,5,1,7.3,7.4",
      "4,6,-1,6.666667,6.75",
      "4,6,1,7.916667,8",
      "4,7,1,6.785714,6.857143",
      "5,7,-1,7.285714,7.357143",
    ],
    [3.613125, 3.64, 3.726875, 3.854],
  ],
  [
    14.5,
    18,
    18.5,
    [10.5, 11],
    [16.25, 16.5],
    ["4,3,-1,18,18.166667", "6,5,1,18.1,18.2", "7,6,1,17.5,17.583333"],
    [3.622857, 3.64, 3.752857, 3.9405],
  ],
] as const;
describe.each(second)("crystal %f MHz for %f to %f MHz", (crystal, low, high, image, half, spurs, birdies) => {
  const p = plan(crystal, low, high);
  it("has the same image and half-dial response", () => {
    expect([imageOf(p).lowHz, imageOf(p).highHz].map(mhz)).toEqual(image);
    expect([halfDialOf(p).lowHz, halfDialOf(p).highHz].map(mhz)).toEqual(half);
  });
  it("has the same spurious responses", () => {
    const own = responsesOf(p, 14, (low - 0.499) * 1e6, (high + 0.499) * 1e6)
      .filter((r) => r.m > 0 && r.m <= 7 && r.n <= 7)
      .sort((a, b) => a.m - b.m || a.n - b.n || a.way - b.way)
      .map((r) => `${r.m},${r.n},${r.way},${Number(mhz(r.lowHz).toFixed(6))},${Number(mhz(r.highHz).toFixed(6))}`);
    expect(own).toEqual(spurs);
  });
  it("has the same birdies", () => {
    // it goes to harmonic 9 of the oscillator and 3 of the crystal
    const own = birdiesOf(p, receiver, 1, 12)
      .filter((b) => b.kind === "IF harmonic" || (b.kind === "receiver's oscillator" && b.p <= 9 && b.q <= 3))
      .map((b) => Number(mhz(b.dialHz).toFixed(6)));
    expect([...new Set(own)]).toEqual(birdies);
  });
});
it("finds where a response crosses the wanted one: 7.333 MHz behind 11 MHz, 18.125 behind 14.5, none behind 32", () => {
  const crossing = (p: ConverterPlan): number[] =>
    responsesOf(p, 14, p.lowHz, p.highHz).flatMap((r) =>
      r.crossHz === undefined || r.m > 7 || r.n > 7 || r.m === 0 ? [] : [Number(mhz(r.crossHz).toFixed(6))],
    );
  expect([...new Set(crossing(plan(11, 7, 7.5)))]).toEqual([7.333333]);
  expect([...new Set(crossing(plan(14.5, 18, 18.5)))]).toEqual([18.125]);
  // it counts the edge itself as outside; here it is inside
  expect(crossing(plan(32, 28, 28.5))).toEqual([28]);
});
it("worked plans for 14 MHz: dial forward behind 10.5 MHz, backward behind 18; 3 crystal - 2 signal only at 14.000 (derived, two ways)", () => {
  const low = plan(10.5, 14, 14.5);
  expect(tunedOver(low).map(mhz)).toEqual([3.5, 4]);
  expect(dialHz(plan(18, 14, 14.5), 14e6)).toBe(4e6);
  const own = responsesOf(low, 5, 14e6, 14.5e6).find((r) => r.m === 3 && r.n === 2);
  expect(own?.crossHz).toBeCloseTo(14e6, 3);
});
it("ways in of low order behind 10.5 and 18 MHz: a second table of them, worked out apart from this code", () => {
  const all = (p: ConverterPlan): string[] =>
    [imageOf(p), ...responsesOf(p, 4, 0, 1e9)].map((r) => `${Number(mhz(r.lowHz).toFixed(4))}-${Number(mhz(r.highHz).toFixed(4))}`);
  // doubling of half the dial, crystal less twice the signal, image, twice the crystal less or more the dial, three times less the dial
  for (const range of ["1.75-2", "3.25-3.5", "6.5-7", "7-7.25", "17-17.5", "24.5-25", "27.5-28"])
    expect(all(plan(10.5, 14, 14.5))).toContain(range);
  for (const range of ["1.75-2", "7-7.25", "10.75-11", "21.5-22", "32-32.5"]) expect(all(plan(18, 14, 14.5))).toContain(range);
});
it("lists every note up to the sum of harmonics and none beyond, by brute force: 14 MHz behind 10.5", () => {
  const p = plan(10.5, 14, 14.5);
  const brute = new Set<string>();
  for (let d = 3.5e6 - 137.3; d <= 4e6; d += 500)
    for (let h = 1; h <= 15; h++)
      for (let q = 0; h + q <= 15; q++) {
        const off = (x: number): number => Math.abs(h * (x + 455e3) - q * p.crystalHz) - x;
        if (off(d) * off(d + 500) < 0 && Math.abs(off(d)) < 1e5) brute.add(`${h},${q}`);
      }
  const own = birdiesOf(p, receiver, 1, 15).filter((b) => b.kind === "receiver's oscillator");
  expect(own.map((b) => `${b.p},${b.q}`).sort()).toEqual([...brute].sort());
});
it("a published plan: 7.175 MHz behind a crystal of 3.7 MHz is heard at 3.475 (source: a page on a dual-triode converter, read)", () => {
  expect(dialHz({ crystalHz: 3.7e6, side: "below" }, 7.175e6)).toBeCloseTo(3.475e6, 3);
});
it("laws: dial and signal are each other's inverse; a response put through its own harmonics comes out on the dial; products do not care which is called which", () => {
  for (const p of [plan(10.5, 14, 14.5), plan(18, 14, 14.5), plan(46.5, 50, 50.5)]) {
    for (const f of [p.lowHz, p.highHz]) expect(signalAtDialHz(p, dialHz(p, f))).toBeCloseTo(f, 6);
    const [d0, d1] = tunedOver(p);
    for (const r of responsesOf(p, 15, 1e6, 60e6))
      for (const f of [r.lowHz, r.highHz]) {
        if (f === 0) continue;
        const made = [Math.abs(r.m * p.crystalHz - r.n * f), r.m * p.crystalHz + r.n * f];
        expect(made.some((x) => x > d0 - 1 && x < d1 + 1)).toBe(true);
      }
    expect(productsHz(p.crystalHz, p.lowHz, 15)).toEqual(productsHz(p.lowHz, p.crystalHz, 15));
  }
});
