import { describe, expect, it } from "vitest";
import { answer } from "../ask/answer";
import { ratedFor, ratingForHere } from "../ask/rating";
import { benchOfSet, subjectsOf } from "../job/view";
import { emptyBench } from "../set/bench";
import { quantityAt } from "../set/paths";
import { patterns } from "../set/patterns/kinds";
import { orThrow } from "../units/issue";
import { sheets } from "./index";

/** What makes a sheet ask for every capacitor that it knows. */
const asked: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  reform: {
    capacitors: [
      "electrolytic, filter, 20 uF, 300, 40 mA",
      "electrolytic, filter, 20 uF, 450, 40 mA",
      ...["output coupling", "screen bypass", "coupling", "plate or supply bypass", "inside an IF can", "AVC", "cathode bypass"].map(
        (duty) => `wax paper, ${duty}, .05 uF, 200`,
      ),
    ].join("; "),
  },
  "b-plus": { rectifierType: "silicon", capacitorRating: "150 V" },
};
/** Places that B+ does not reach. */
const away = /line|AVC|cathode|tuned/;

it("takes the next rated volts at or above a crest: 400, 450, 500, 630, 800, 1000, 1600", () => {
  expect([380, 400, 401, 437, 451, 499, 501, 631, 801, 1001].map(ratedFor)).toEqual([400, 400, 450, 450, 500, 500, 630, 800, 1000, 1600]);
});
describe.each(patterns.map((p) => [p.pattern, p] as const))("on the pattern %s", (_, set) => {
  const crestV = Math.SQRT2 * quantityAt(set, "supplies.secondaryVoltage")!.value * quantityAt(set, "line.highRatio")!.value;
  it.each(sheets.map((s) => [s.id, s] as const))("%s names no part for B+ that the crest passes", (id, s) => {
    for (const at of subjectsOf(set, s.subject, s.fitting, s.stageKinds).slice(0, 2)) {
      const a = orThrow(answer(s, benchOfSet(set, at), { draws: 60, points: 21, overrides: asked[id] ?? {} }));
      for (const p of a.parts) {
        if (p.seesBPlusRatedV !== undefined) expect(p.seesBPlusRatedV, p.part).toBeGreaterThanOrEqual(crestV);
        const volts = Number(/^([\d.]+) V/.exec(p.rating)?.[1] ?? Number.NaN);
        if (/capacitor/.test(p.part) && !away.test(p.part)) expect(volts, `${p.part}: ${p.rating}`).toBeGreaterThanOrEqual(crestV);
      }
      for (const f of a.findings)
        for (const [, volts] of (f.do ?? "").matchAll(/rated (?:for )?(\d+(?:\.\d+)?) V/g))
          expect(Number(volts), f.id).toBeGreaterThanOrEqual(crestV);
      for (const f of a.findings) expect(`${f.says} ${f.do ?? ""}`).not.toMatch(/V at the least/);
    }
  });
});
it("says that the winding is only assumed where nobody has recorded it", () => {
  const here = ratingForHere(emptyBench);
  expect(here.known).toBe(false);
  expect(here.says).toContain("only assumed");
  expect(here.ratedV).toBeGreaterThanOrEqual(here.crestV);
  const known = ratingForHere(benchOfSet(patterns[1], ""));
  expect(known.known).toBe(true);
  expect(known.says).toMatch(/^500 V or more \(with nothing drawn B\+ can reach \d+ V here\)$/);
});
