import { expect, it } from "vitest";
import { normalStream } from "../../numerics/random";
import { orThrow } from "../../units/issue";
import { dialAxis, drawDial } from "./draw";
import { fitDial } from "./fit";
import { dialAt, hzAt } from "./fitted";
import { dialCases, inventDial } from "./possible-dials";
import { dialTerms } from "./scaling";

const assumed = { readingNoise: 0.1, zeroBeatHz: 20, backlash: 0.2, backlashU: 0.2 };
const drawsCount = 1500;
const xi = Array.from({ length: dialTerms }, (_, k) => normalStream(1, `c${k}`, drawsCount));

it.each([
  [2, 8, "up", undefined],
  [2, 8, "both", 1],
  [2, 8, "both", -1],
  [0, 3, "both", 0],
] as const)(
  "draws of the law have the mean and the width that it states: dial %i, seed %i, taken %s, asked from %s",
  (k, seed, how, approach) => {
    const { points } = inventDial(dialCases[k], seed, how);
    const fit = orThrow(fitDial(points, dialCases[k].conversion, assumed));
    const along = dialAxis(fit, [40], approach);
    const at = new Float64Array(1);
    const values = Array.from({ length: drawsCount }, (_, i) => {
      const own = xi.map((s) => s[i]);
      drawDial(fit, (i + 0.5) / drawsCount, own, 1)(along, at);
      return at[0];
    });
    const mean = values.reduce((s, v) => s + v, 0) / values.length;
    const sd = Math.sqrt(values.reduce((s, v) => s + (v - mean) ** 2, 0) / values.length);
    const a = dialAt(fit, 40, approach);
    expect(hzAt(fit, 40, approach)).toBe(a.hz);
    expect(Math.abs(mean - a.hz)).toBeLessThan(0.1 * a.uHz);
    expect(Math.abs(sd / a.uHz - 1)).toBeLessThan(0.06);
  },
);
