import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Circuit, type CircuitTube, type Mark, marks, type PartKind, partKinds } from "../../ask/drawn/circuit";
import { type Loose, ladder, type Rung } from "../../ask/drawn/ladder";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { symbolSets } from "../../standards/symbols";
import type { Box, Laid } from "./circuit-laid";
import { planOf } from "./circuit-plan";
import { circuitSvg } from "./circuit-svg";
import { braidPx, endHalf, endPx, shapeOf, tubeRadius } from "./circuit-symbols";

const name = fc.string({ minLength: 1, maxLength: 26, unit: fc.constantFrom(..."abcdefghij klmnoW µΩ%5.,-") });
const shown = fc.record({ text: name, assumed: fc.constant(true as const) }, { requiredKeys: ["text"] });
const kinds = partKinds.filter((k) => k !== "wire");
const braided = (p: Loose): Loose => (p.kind === "cable" ? { ...p, braid: "chassis" } : p);
const loose: fc.Arbitrary<Loose> = fc
  .record(
    {
      kind: fc.constantFrom<PartKind>(...kinds),
      what: name,
      name: fc.constantFrom("C14", "R101", "L3"),
      value: shown,
      says: name,
      mark: fc.constantFrom<Mark>(...marks),
    },
    { requiredKeys: ["kind", "what"] },
  )
  .map(braided);
const volts = fc.record(
  {
    expected: fc
      .tuple(fc.double({ min: -500, max: 500, noNaN: true }), fc.double({ min: 0, max: 90, noNaN: true }))
      .map(([low, d]) => ({ low, high: low + d })),
    read: fc.double({ min: -500, max: 500, noNaN: true }),
    most: fc.double({ min: 0, max: 900, noNaN: true }),
  },
  { requiredKeys: [] },
);
const rung: fc.Arbitrary<Rung> = fc.record(
  { series: loose, label: name, volts, down: fc.array(fc.array(loose, { minLength: 1, maxLength: 2 }), { maxLength: 2 }) },
  { requiredKeys: [] },
);
const ends = fc.constantFrom("chassis", "live-chassis", "b-minus") as fc.Arbitrary<"chassis" | "live-chassis" | "b-minus">;
const ladders = fc
  .tuple(ends, fc.array(rung, { minLength: 2, maxLength: 4 }))
  .map(([common, rungs]) => ladder({ id: "any", title: "any", common }, rungs));
/** A stage: supply, load, tube with its grid, screen and cathode parts. */
const stages = fc
  .tuple(loose, loose, loose, loose, name, volts, ends)
  .map(([load, screen, leak, bias, label, v, common]): CircuitSketch => {
    const tube: CircuitTube = { name: "V5", what: label, grids: 2, plate: "p", grid: "g", cathode: "k", screen: "s" };
    return {
      kind: "circuit",
      id: "stage",
      title: "any",
      nodes: [
        { id: "b", at: [1, 0], label: "B+", volts: v, end: "terminal" },
        { id: "p", at: [1, 1], label, volts: v },
        { id: "g", at: [0, 2], label, volts: v },
        { id: "gr", at: [0, 3], end: common },
        { id: "k", at: [1, 3], label, volts: v },
        { id: "kr", at: [1, 4], end: common },
        { id: "b2", at: [2, 1], label, volts: v },
        { id: "s", at: [2, 2] },
      ],
      parts: [
        { ...load, from: "b", to: "p" },
        { ...screen, from: "b2", to: "s" },
        { ...leak, from: "g", to: "gr" },
        { ...bias, from: "k", to: "kr" },
      ],
      tubes: [tube],
    };
  });
const circuits = fc
  .tuple(fc.oneof(ladders, stages), fc.constantFrom(...symbolSets), fc.boolean())
  .map(([s, symbols, example]): Circuit => ({ ...s, symbols, example }));

/** Room of every symbol as it is laid. */
function symbolBoxes(laid: Laid, circuit: Circuit): Box[] {
  const parts = laid.parts.flatMap((p): Box[] => {
    if (p.part.kind === "wire") return [];
    if (p.box) return [p.box];
    const { length, half } = shapeOf(p.part.kind, circuit.symbols);
    const [w, h] = p.turned ? [2 * half, length] : [length, 2 * half];
    if (p.part.braid)
      return p.turned
        ? [{ x: p.x - braidPx.left, y: p.y - length / 2, width: braidPx.left + half, height: length }]
        : [{ x: p.x - w / 2, y: p.y - half, width: w, height: half + braidPx.below }];
    return [{ x: p.x - w / 2, y: p.y - h / 2, width: w, height: h }];
  });
  const r = tubeRadius;
  const signed = laid.nodes.filter(({ node }) => node.end === "chassis" || node.end === "live-chassis" || node.end === "b-minus");
  const signs = signed.map(({ x, y }) => ({ x: x - endHalf, y: y + 1, width: 2 * endHalf, height: endPx - 2 }));
  return [...parts, ...laid.tubes.map((t) => ({ x: t.x - r, y: t.y - r, width: 2 * r, height: 2 * r })), ...signs];
}
const meet = (a: Box, b: Box): boolean =>
  a.x < b.x + b.width - 0.01 && b.x < a.x + a.width - 0.01 && a.y < b.y + b.height - 0.01 && b.y < a.y + a.height - 0.01;
const within = (b: Box, laid: Laid): boolean =>
  b.x >= -0.01 && b.y >= -0.01 && b.x + b.width <= laid.width + 0.01 && b.y + b.height <= laid.height + 0.01;
/** Stretches of wire: each leg of a part's path outside its symbol. */
function wireBoxes(laid: Laid): Box[] {
  return laid.parts.flatMap((p) =>
    p.path.slice(1).map(([x, y], i) => {
      const [px, py] = p.path[i];
      return { x: Math.min(x, px), y: Math.min(y, py), width: Math.max(0.02, Math.abs(x - px)), height: Math.max(0.02, Math.abs(y - py)) };
    }),
  );
}

describe("any circuit at any width", () => {
  it("has no two labels that meet, none on a symbol or a wire, and nothing outside its frame", () => {
    fc.assert(
      fc.property(circuits, fc.integer({ min: 340, max: 900 }), (circuit, width) => {
        const { laid } = planOf(circuit, width);
        const words: readonly Box[] = laid.words;
        const symbols = symbolBoxes(laid, circuit);
        for (const [i, w] of words.entries()) {
          expect(within(w, laid)).toBe(true);
          for (const o of words.slice(i + 1)) expect(meet(w, o)).toBe(false);
          const own = laid.words[i].of;
          const others = symbols.filter(
            (_, k) => laid.parts.filter((p) => p.part.kind !== "wire")[k]?.part !== own || own.kind !== "block",
          );
          for (const s of others) expect(meet(w, s)).toBe(false);
          if ("kind" in own && own.kind === "block") continue;
          for (const line of wireBoxes(laid)) expect(meet(w, line)).toBe(false);
        }
        for (const [i, s] of symbols.entries()) {
          expect(within(s, laid)).toBe(true);
          for (const o of symbols.slice(i + 1)) expect(meet(s, o)).toBe(false);
        }
      }),
      { numRuns: 400 },
    );
  });
  it("is drawn no wider than it is asked for, so that its text is 16 px there", () => {
    fc.assert(
      fc.property(circuits, fc.integer({ min: 340, max: 900 }), (circuit, width) => {
        const { svg } = circuitSvg(circuit, width);
        expect(svg).toMatch(new RegExp(`viewBox="0 0 ${width} `));
        expect([...svg.matchAll(/<text [^>]*font-size="([\d.]+)"/g)].every((m) => Number(m[1]) >= 16)).toBe(true);
      }),
      { numRuns: 200 },
    );
  });
  it("is so even where two braided cables lie level on the narrowest page", () => {
    const cable = braided({ kind: "cable", what: "a" });
    const said = ladder(
      {
        id: "any",
        title: "any",
        common: "b-minus",
      },
      [
        { down: [[cable]] },
        { series: cable, down: [[{ kind: "resistor", what: "a" }, cable]] },
        {
          down: [
            [
              { kind: "resistor", what: "a" },
              { kind: "choke", what: "a", value: { text: ".Wmaa" }, mark: "turn" },
            ],
          ],
        },
      ],
    );
    for (const symbols of symbolSets) expect(circuitSvg({ ...said, symbols, example: false }, 340).svg).toMatch(/viewBox="0 0 340 /);
  });
});
