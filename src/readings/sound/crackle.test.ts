/** Bursts and jumps of known number, time and band. */
import { describe, expect, it } from "vitest";
import { Crackle } from "./crackle";
import { made, play, tau } from "./waves.testdata";

const rate = 48_000;
const told = (x: Float64Array) => play(new Crackle(rate), x).told;
/** Noise with something more at some times. */
const withBursts = (seconds: number, at: readonly number[], lastsS: number, a: number, hz: number, noise = 0.01) => {
  const x = made(rate, seconds, () => 0, noise, 11);
  for (const t of at)
    for (let i = Math.round(t * rate); i < (t + lastsS) * rate; i++)
      x[i] += a * Math.sin(tau * hz * (i / rate - t)) * Math.sin((Math.PI * (i / rate - t)) / lastsS);
  return x;
};

describe("crackle", () => {
  it("counts bursts, times them, and tells their band", () => {
    const at = [1.31, 2.77, 3.003, 4.5, 7.21];
    const { events, secondsCount } = told(withBursts(10, at, 0.03, 0.3, 2500));
    expect(secondsCount).toBeCloseTo(10, 1);
    expect(events.map((e) => [e.kind, e.bands])).toEqual(at.map(() => ["burst", ["high"]]));
    for (const [i, e] of events.entries()) {
      expect(Math.abs(e.atS - at[i])).toBeLessThan(0.015);
      expect(Math.abs(e.lastsS - 0.03)).toBeLessThan(0.02);
    }
  });
  it("a click is in every band, a thump in the low one", () => {
    const click = made(rate, 6, () => 0, 0.002, 12);
    for (const t of [2.2, 4.4]) for (let i = 0; i < 10; i++) click[Math.round(t * rate) + i] += 0.9;
    expect(told(click).events.map((e) => [e.kind, [...e.bands].sort()])).toEqual(
      [2.2, 4.4].map(() => ["burst", ["high", "low", "middle"]]),
    );
    expect(told(withBursts(8, [3], 0.08, 0.5, 150, 0.002)).events.map((e) => e.bands)).toEqual([["low"]]);
  });
  it.each([2.5, 3.13, 4.4])("a level that jumps by 6 dB at %f s and stays is one jump, by its way, no burst", (s) => {
    for (const way of [1, -1]) {
      const { events } = told(made(rate, 9, () => 0, 0.02, 13).map((v, i) => v * (i / rate > s ? 2 ** way : 1)));
      expect(events.map((e) => [e.kind, [...e.bands].sort()])).toEqual([["jump", expect.arrayContaining(["high", "middle"])]]);
      expect(Math.abs(events[0].atS - s)).toBeLessThan(0.08);
      expect(Math.abs(events[0].db - 6.02 * way)).toBeLessThan(1.5);
    }
  });
  it("noise alone does neither in ten minutes, nor does a slow fade", () => {
    expect(
      play(
        new Crackle(12_000),
        made(12_000, 600, () => 0, 0.02, 14),
      ).told.events,
    ).toEqual([]);
    expect(told(made(rate, 60, () => 0, 0.02, 15).map((v, i) => v * (1 + 0.7 * Math.sin((tau * i) / rate / 20)))).events).toEqual([]);
  });
  it("bursts that come evenly are told so, those by chance are not", () => {
    const even = Array.from({ length: 20 }, (_, i) => 1 + i * 0.35);
    expect(told(withBursts(10, even, 0.02, 0.3, 2500)).evenlyHz).toBeCloseTo(1 / 0.35, 1);
    const chance = even.map((t, i) => t + 0.15 * Math.sin(i * i));
    expect(told(withBursts(10, chance, 0.02, 0.3, 2500)).evenlyHz).toBeUndefined();
  });
});
