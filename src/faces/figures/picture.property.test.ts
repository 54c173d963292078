import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Charge } from "../../ask/drawn/charge";
import type { DialFace } from "../../ask/drawn/dial-face";
import type { Lamps } from "../../ask/drawn/lamps";
import type { Box } from "./circuit-laid";
import { pictureSvg } from "./picture";
import { textWidth } from "./text-width";

const words = (most: number) =>
  fc.string({ minLength: 1, maxLength: most, unit: fc.constantFrom(..."abcdefghij klmnoW 0.5") }).map((w) => `x${w}`);
const amount = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Boxes of all words of a picture, at their size of 16 px. */
function textBoxes(svg: string): (Box & { readonly text: string })[] {
  return [...svg.matchAll(/<text x="([-\d.]+)" y="([-\d.]+)" font-size="16"([^>]*)>([^<]*)<\/text>/g)].map(([, x, y, more, said]) => {
    const text = said.replace(/&#(\d+);/g, (_, c) => String.fromCharCode(Number(c)));
    const width = textWidth(text, 16);
    const anchor = /text-anchor="(\w+)"/.exec(more)?.[1];
    const left = Number(x) - (anchor === "middle" ? width / 2 : anchor === "end" ? width : 0);
    return { x: left, y: Number(y) - 15, width, height: 20, text };
  });
}
const meet = (a: Box, b: Box): boolean =>
  a.x < b.x + b.width - 0.2 && b.x < a.x + a.width - 0.2 && a.y < b.y + b.height - 0.2 && b.y < a.y + a.height - 0.2;

/** No word lies over what is filled, a column or a lamp's glow. */
function expectBeside(svg: string): void {
  const filled = [...svg.matchAll(/<rect x="([-\d.]+)" y="([-\d.]+)" width="([\d.]+)" height="([\d.]+)"/g)].map(([, ...at]) => {
    const [x, y, width, height] = at.map(Number);
    return { x, y, width, height };
  });
  for (const t of textBoxes(svg)) for (const r of filled) expect(meet(t, r), t.text).toBe(false);
}
function expectLegible(svg: string, width: number, least: number): void {
  const boxes = textBoxes(svg);
  const [, , height] = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg)?.map(Number) ?? [];
  expect(boxes.length).toBeGreaterThanOrEqual(least);
  for (const [i, a] of boxes.entries()) {
    expect(a.x, a.text).toBeGreaterThanOrEqual(-0.2);
    expect(a.x + a.width, a.text).toBeLessThanOrEqual(width + 0.2);
    expect(a.y, a.text).toBeGreaterThanOrEqual(-0.2);
    expect(a.y + a.height, a.text).toBeLessThanOrEqual(height + 0.2);
    for (const b of boxes.slice(i + 1)) expect(meet(a, b), `${a.text} and ${b.text}`).toBe(false);
  }
}

const widths = fc.integer({ min: 340, max: 900 });
const dials = fc
  .record({
    from: amount(-500, 500),
    span: amount(1, 1e7),
    marks: fc.array(fc.tuple(amount(0, 1), fc.option(words(7), { nil: undefined })), { maxLength: 30 }),
    beats: fc.array(amount(0, 1), { maxLength: 12 }),
    doubt: fc.array(amount(0, 0.2), { minLength: 2, maxLength: 20 }),
    edges: fc.array(fc.tuple(amount(0, 1), words(40)), { maxLength: 2 }),
    pointer: fc.option(fc.tuple(amount(-0.2, 1.2), amount(0, 0.3), words(60)), { nil: undefined }),
    window: fc.option(fc.tuple(amount(0, 0.5), amount(0, 0.5), words(60)), { nil: undefined }),
    example: fc.boolean(),
  })
  .map((r): DialFace => {
    const at = (share: number): number => r.from + share * r.span;
    return {
      kind: "dial",
      id: "any",
      title: "any",
      scale: { from: r.from, to: r.from + r.span, says: "MHz" },
      marks: r.marks.map(([share, text]) => ({ at: at(share), ...(text === undefined ? {} : { text }) })),
      beats: r.beats.map((share) => ({ at: at(share), says: "" })),
      doubt: { along: r.doubt.map((half, i) => ({ at: at(i / (r.doubt.length - 1)), half: half * r.span })), says: "what is in doubt" },
      edges: r.edges.map(([share, says]) => ({ at: at(share), says })),
      ...(r.pointer ? { pointer: { at: at(r.pointer[0]), half: r.pointer[1] * r.span, says: r.pointer[2] } } : {}),
      ...(r.window ? { window: { from: at(r.window[0]), to: at(r.window[0] + r.window[1]), says: r.window[2] } } : {}),
      example: r.example,
    };
  });
const charges = fc
  .record({
    fromV: amount(5, 900),
    limitV: amount(1, 100),
    falls: fc.array(fc.tuple(amount(0.01, 1), amount(1e-3, 1e6)), { maxLength: 6 }),
    label: words(30),
    says: words(90),
  })
  .map(({ fromV, limitV, falls, label, says }): Charge => {
    const ordered = falls.map(([share, afterS]) => ({ volts: fromV * share, afterS })).sort((a, b) => b.volts - a.volts);
    return {
      kind: "charge",
      id: "any",
      title: "any",
      limitV,
      columns: [
        { label, fromV, falls: ordered, says },
        { label: says, fromV, falls: [], says: label },
      ],
      example: false,
    };
  });
const lamps = fc
  .array(fc.record({ label: words(30), share: amount(-0.2, 1.4), says: words(40) }), { minLength: 1, maxLength: 3 })
  .map((all): Lamps => ({ kind: "lamps", id: "any", title: "any", lamps: all, example: false }));

it("has the words of a charge beside its columns at any width", () => {
  fc.assert(
    fc.property(charges, widths, (p, width) => expectBeside(pictureSvg(p, width).svg)),
    { numRuns: 300 },
  );
});
describe.each([
  ["dial", dials, 1],
  ["charge", charges, 4],
  ["row of lamps", lamps, 2],
] as const)("any %s at any width", (_, pictures, least) => {
  it("has its words at 16 px, none over another, none outside", () => {
    fc.assert(
      fc.property(pictures as fc.Arbitrary<DialFace | Charge | Lamps>, widths, (p, width) => {
        expectLegible(pictureSvg(p, width).svg, width, least);
      }),
      { numRuns: 300 },
    );
  });
});
