/** Resonators from a simulation of whole circuits in another language: loops with loss and a line, losses that change with frequency. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Sweep } from "../../readings/sweep";
import { fitResonance, type ResonanceFit } from "./fit";

interface Item {
  readonly id: string;
  readonly kind: "one-port" | "two-port" | "small loop" | "quartz";
  readonly ports: number;
  readonly fHz: readonly number[];
  readonly s11Re?: readonly number[];
  readonly s11Im?: readonly number[];
  readonly s21Re?: readonly number[];
  readonly s21Im?: readonly number[];
  readonly truth: { readonly loadedQ: number; readonly unloadedQ: number; readonly pointsABandwidth?: number };
}
const { items } = JSON.parse(readFileSync("samples/worlds/resonance.json", "utf8")) as { items: Item[] };
const sweepOf = (x: Item): Sweep => {
  const re = Float64Array.from(x.s11Re ?? x.s21Re ?? []);
  const im = Float64Array.from(x.s11Im ?? x.s21Im ?? []);
  return {
    frequencyHz: Float64Array.from(x.fHz),
    levelDb: re.map((v, i) => 20 * Math.log10(Math.hypot(v, im[i]))),
    complex: { re, im },
    resolutionHz: 0,
    quantity: x.ports === 1 ? "S11" : "S21",
    ...(x.ports === 1 ? { reflection: true } : {}),
    warnings: [],
  };
};
const fitted = (kinds: readonly Item["kind"][]): readonly (readonly [Item, ResonanceFit])[] =>
  items
    .filter((x) => kinds.includes(x.kind))
    .flatMap((x) => {
      const r = fitResonance(sweepOf(x), x.id);
      return r.ok ? [[x, r.value] as const] : [];
    });

describe("the reflection of a coupled loop", () => {
  const all = fitted(["one-port", "small loop"]);
  it("is fitted on every one of them, loaded and unloaded Q within their 95 % intervals", () => {
    expect(all).toHaveLength(46);
    const off = (holds: (x: Item, r: ResonanceFit) => boolean): number => all.filter(([x, r]) => !holds(x, r)).length;
    expect(off((x, r) => Math.abs(r.loadedQ - x.truth.loadedQ) < 1.96 * r.loadedQU)).toBeLessThanOrEqual(3);
    expect(off((x, r) => Math.abs(r.unloaded!.q - x.truth.unloadedQ) < 1.96 * r.unloaded!.qU)).toBeLessThanOrEqual(3);
  });
  it("has intervals that say something: half of them under 4 %", () => {
    const parts = all.map(([, r]) => (1.96 * r.unloaded!.qU) / r.unloaded!.q).sort((a, b) => a - b);
    expect(parts[23]).toBeLessThan(0.04);
  });
  it("is refused where more comes back than went in", () => {
    const s = sweepOf(items[0]);
    const r = fitResonance({ ...s, complex: { re: s.complex!.re.map((v) => 1.3 * v), im: s.complex!.im.map((v) => 1.3 * v) } }, "x");
    expect(r.ok || r.issues[0].code).toBe("reflects-more");
  });
});
describe("transmission", () => {
  it("holds the loaded Q within its 95 % interval", () => {
    const all = fitted(["two-port", "quartz"]);
    expect(all.filter(([x, r]) => Math.abs(r.loadedQ - x.truth.loadedQ) >= 1.96 * r.loadedQU).length).toBeLessThanOrEqual(2);
  });
  it("is refused with fewer than three points within the width", () => {
    for (const x of items.filter((i) => (i.truth.pointsABandwidth ?? 9) < 2.5)) {
      const r = fitResonance(sweepOf(x), x.id);
      expect(r.ok || r.issues[0].code).toBe("too-coarse");
    }
  });
});
