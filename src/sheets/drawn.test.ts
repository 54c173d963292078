import { describe, expect, it } from "vitest";
import { answer } from "../ask/answer";
import { isLiveSet } from "../ask/chassis";
import { kills } from "../ask/drawn/volts";
import { pictureSvg, pictureWords } from "../faces/figures/picture";
import { benchOfSet, subjectsOf } from "../job/view";
import { emptyBench } from "../set/bench";
import type { SetDescription } from "../set/describe";
import { patterns } from "../set/patterns/kinds";
import { orThrow } from "../units/issue";
import { asRead } from "./as-read.testdata";
import { sheets } from "./index";

const few = { draws: 24, points: 11 };
const drawing = sheets.filter((s) => s.drawing).map((s) => [s.id, s] as const);
const isolated = { state: "isolated", isolation: "none", note: "" } as const;
const withChassis = (set: SetDescription, chassis: SetDescription["chassis"]): SetDescription => ({ ...set, chassis });

const kindsOf = (s: (typeof sheets)[number]): readonly string[] => ("none" in s.draws ? [] : s.draws);

it("is drawn wherever a question says so, as it says so, and nowhere else", () => {
  for (const s of sheets) {
    const at = subjectsOf(patterns[1], s.subject, s.fitting, s.stageKinds)[0] ?? "";
    const { drawn } = orThrow(answer(s, benchOfSet(patterns[1], at), { ...few, overrides: asRead(s) }));
    expect([...new Set(drawn.map((d) => d.kind))].sort(), s.id).toEqual([...kindsOf(s)].sort());
    for (const d of drawn) expect(d.title.length, `${s.id} ${d.id}`).toBeGreaterThan(8);
  }
});

describe.each(drawing)("what %s draws", (_, s) => {
  const drawnOf = (set: SetDescription) =>
    subjectsOf(set, s.subject, s.fitting, s.stageKinds)
      .slice(0, 2)
      .flatMap((at) => {
        const a = answer(s, benchOfSet(set, at), few);
        return a.ok ? a.value.drawn : [];
      });
  it("shows no chassis as isolated or as earth that is live or not proved, on any pattern", () => {
    for (const p of patterns)
      for (const state of ["live", "unstated", "isolated"] as const)
        for (const d of drawnOf(withChassis(p, { ...isolated, state })))
          if (d.kind === "circuit")
            for (const n of d.nodes) if (isLiveSet(state)) expect(["chassis", "earth"], `${d.id} ${n.id}`).not.toContain(n.end);
  });
  it("tells nobody to fit or turn anything where the values are not this set's, and says so across the drawing", () => {
    const { drawn } = orThrow(answer(s, emptyBench, few));
    expect(drawn.length).toBeGreaterThan(0);
    for (const d of drawn) {
      expect(d.example, d.id).toBe(true);
      if (d.kind === "circuit") expect(d.parts.filter((p) => p.mark)).toEqual([]);
      expect(pictureSvg(d, 640).svg).toContain(">EXAMPLE<");
      expect(pictureWords(d)[0]).toContain("EXAMPLE");
    }
  });
  it("fits every page from 340 px on with text of 16 px, and says of every place that kills that it does", () => {
    for (const p of patterns.slice(0, 4))
      for (const d of drawnOf(withChassis(p, isolated)))
        for (const width of [340, 390, 620, 900]) {
          const { svg } = pictureSvg(d, width);
          expect(svg, `${d.id} at ${width}`).toMatch(new RegExp(`viewBox="0 0 ${width} `));
          expect([...svg.matchAll(/<text [^>]*font-size="([\d.]+)"/g)].filter((m) => Number(m[1]) < 16)).toEqual([]);
          if (d.kind !== "circuit") continue;
          const deadly = d.nodes.filter((n) => n.volts && kills(n.volts));
          expect(pictureWords(d).filter((w) => w.includes("it kills")).length).toBeGreaterThanOrEqual(deadly.length);
          expect([...svg.matchAll(/class="danger"/g)].length).toBeGreaterThanOrEqual(deadly.length);
        }
  });
});
