import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { bulbs } from "../../standards/tube-bulbs";
import { baseSvg, pinAngleRad } from "./base-svg";

const degrees = (number: number, count: number): number => ((pinAngleRad(number, count) * 180) / Math.PI) % 360;

describe("a tube's base from below", () => {
  // Source: JEDEC basing of the small-button seven-pin (45 degrees, one of eight left out), noval (36 degrees, one of ten) and octal base, from memory
  it("has its pins where the standard has them, clockwise from the gap or key at the foot", () => {
    expect([1, 4, 7].map((p) => Math.round(degrees(p, 7)))).toEqual([225, 0, 135]);
    expect([1, 5, 9].map((p) => Math.round(degrees(p, 9)))).toEqual([216, 0, 144]);
    expect([1, 4, 5, 8].map((p) => Math.round(10 * degrees(p, 8)) / 10)).toEqual([202.5, 337.5, 22.5, 157.5]);
  });
  it("of every type with a known basing draws each pin once, inside its frame, at every width", () => {
    const known = bulbs.filter((b) => b.contactCount > 0);
    expect(known.length).toBeGreaterThan(50);
    fc.assert(
      fc.property(fc.constantFrom(...known), fc.integer({ min: 1, max: 9 }), fc.integer({ min: 340, max: 900 }), (b, lit, width) => {
        const pins = Array.from({ length: b.contactCount }, (_, i) => ({
          number: i + 1,
          electrode: b.pins.get(i + 1)?.electrode ?? "",
          read: "233",
        }));
        const { svg, height } = baseSvg({ socket: "V1", type: b.type, pins }, lit, width);
        expect(svg.match(/<circle [^>]*r="(?:9|11)"/g)).toHaveLength(b.contactCount);
        for (const [, x, y] of svg.matchAll(/<text x="([\d.]+)" y="([\d.]+)"/g)) {
          expect(Number(x) > 0 && Number(x) < width).toBe(true);
          expect(Number(y) > 12 && Number(y) < height).toBe(true);
        }
      }),
    );
  });
});
