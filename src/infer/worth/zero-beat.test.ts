import { describe, expect, it } from "vitest";
import { normalStream } from "../../numerics/random";
import { orThrow } from "../../units/issue";
import { fitDial } from "../dial/fit";
import { dialAt, dialSlope, readingFor } from "../dial/fitted";
import { dialCases, inventDial } from "../dial/possible-dials";
import { shareRemoved } from "./doubt";
import { zeroBeatShrinking } from "./zero-beat";

const assumed = { readingNoise: 0.1, zeroBeatHz: 20, backlash: 0.2, backlashU: 0.2 };

describe("one more zero beat, expected beforehand, against beats that were drawn and fitted", () => {
  it.each([0, 1, 2, 3])("leaves of the law at an edge what it says, to a twentieth of the variance there was, dial %i", (k) => {
    const c = dialCases[k];
    let [said, found] = [0, 0];
    for (let seed = 0; seed < 6; seed++) {
      const d = inventDial(c, 300 + seed, "up");
      const points = d.points.filter((_, i) => i % 2 === 0);
      const fit = orThrow(fitDial(points, c.conversion, assumed));
      const edge = d.points[3].frequencyHz;
      const at = readingFor(fit, edge)!;
      const [expected] = zeroBeatShrinking(fit, [edge], edge, assumed.zeroBeatHz)!;
      expect(expected.before).toBeCloseTo(dialAt(fit, at).uHz ** 2, 3);
      said += expected.after / expected.before / 6;
      const z = normalStream(seed, `beats ${k}`, 20);
      // the beat falls where the law and its doubt, and the hand, let it fall
      const sd = Math.hypot(fit.readingNoise, Math.sqrt(expected.before) / dialSlope(fit, at), assumed.zeroBeatHz / dialSlope(fit, at));
      for (const x of z) {
        const more = { reading: at + sd * x, frequencyHz: edge, approach: 1 as const };
        const after = fitDial(
          [...points, more].sort((a, b) => a.reading - b.reading),
          c.conversion,
          assumed,
        );
        if (after.ok) found += dialAt(after.value, readingFor(after.value, edge) ?? at).uHz ** 2 / expected.before / z.length / 6;
      }
    }
    expect(Math.abs(said - found), `said ${said}, found ${found}`).toBeLessThan(0.05);
  });
  it("tells more of an edge beside it than of one at the other end of the scale", () => {
    const c = dialCases[2];
    const d = inventDial(c, 9, "up");
    const fit = orThrow(
      fitDial(
        d.points.filter((_, i) => i % 3 === 0),
        c.conversion,
        assumed,
      ),
    );
    const ends = [d.points[1].frequencyHz, d.points[d.points.length - 3].frequencyHz];
    const [near, far] = zeroBeatShrinking(fit, ends, ends[0], 20)!.map(shareRemoved);
    expect(near).toBeGreaterThan(far);
    expect(zeroBeatShrinking(fit, ends, 30e6, 20)).toBeUndefined();
  });
});
