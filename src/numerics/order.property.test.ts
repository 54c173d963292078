/** Intervals and ranks against a whole sort, for samples of any kind. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { intervalFinder, ranksOf, symmetricIntervalInPlace } from "./order";

const kinds: Readonly<Record<string, (u: number, i: number) => number>> = {
  even: (u) => u,
  "of few values": (u) => Math.floor(4 * u),
  "far out on one side": (u) => (u < 0.9 ? u : 1e9 * u),
  "in order": (u, i) => i + u,
  "downwards, so that few of it mislead": (u, i) => -i * i + u,
  "of one value": () => 3,
  "in waves as long as its few are apart": (u, i) => Math.sin((2 * Math.PI * i * 128) / 2000) + 1e-6 * u,
};
describe("intervals of many samples", () => {
  it.each(Object.entries(kinds))("are those of a whole sort: %s", (_, of) => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 5000 }), fc.infiniteStream(fc.double({ min: 0, max: 1, noNaN: true })), (count, stream) => {
        const u = fc.stream(stream).take(97);
        const few = [...u];
        const all = Float64Array.from({ length: 2 * count }, (_, i) => of((few[i % few.length] + i * 0.6180339887) % 1, i));
        const find = intervalFinder(count);
        for (const from of [0, count]) {
          const sorted = all.slice(from, from + count).sort();
          const inside = Math.min(count - 1, Math.floor(0.95 * count + 0.5));
          const r = Math.max(0, Math.floor((count - inside + 1) / 2) - 1);
          const want = { low: sorted[r], high: sorted[Math.min(count - 1, r + inside)] };
          expect(find(all, from)).toEqual(want);
          expect(symmetricIntervalInPlace(all.slice(from, from + count))).toEqual(want);
        }
      }),
    );
  });
  it("are those of a whole sort after samples of other kinds, and turned about", () => {
    const makers = [...Object.values(kinds), (u: number) => -u, (u: number, i: number) => (i % 2 ? 1 : -1) * u];
    fc.assert(
      fc.property(
        fc.integer({ min: 600, max: 2500 }),
        fc.array(fc.nat(makers.length - 1), { minLength: 3, maxLength: 8 }),
        (count, order) => {
          const find = intervalFinder(count);
          for (const [k, which] of order.entries()) {
            const all = Float64Array.from({ length: count }, (_, i) => makers[which]((0.1 * k + i * 0.6180339887) % 1, i));
            expect(find(all, 0)).toEqual(symmetricIntervalInPlace(all.slice()));
          }
        },
      ),
    );
  });
  it("leaves the list as it is", () => {
    const all = Float64Array.from({ length: 2000 }, (_, i) => (i * 7919) % 2003);
    const before = all.slice();
    intervalFinder(1000)(all, 500);
    expect(all).toEqual(before);
  });
});

describe("ranks", () => {
  it.each(Object.entries(kinds))("are the places in a whole sort: %s", (_, of) => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 600 }), fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1 }), (count, u) => {
        const x = Float64Array.from({ length: count }, (_, i) => of((u[i % u.length] + i * 0.6180339887) % 1, i));
        const sorted = x.slice().sort();
        expect(Array.from(ranksOf(x))).toEqual(Array.from(x, (v) => sorted.indexOf(v)));
      }),
    );
  });
});
