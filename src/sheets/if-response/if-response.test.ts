import { describe, expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { benchOfSet } from "../../job/view";
import { StripResponse } from "../../physics/if-strip";
import { peakOf, widthHz } from "../../physics/passband";
import { pair } from "../../physics/prototype-strips.testdata";
import { patterns } from "../../set/patterns/kinds";
import { orThrow } from "../../units/issue";
import { sheetById } from "../index";
import theory from "./theory.md";

const sheet = sheetById("if-response")!;
const on = (pattern: string, overrides = {}) =>
  orThrow(answer(sheet, benchOfSet(patterns.find((p) => p.pattern === pattern)!, ""), { draws: 100, points: 21, overrides }));

describe("the four patterns are as wide as they say", () => {
  it.each([
    ["five-tube-live", 10e3, 2e3],
    ["nine-tube-bandspread", 6e3, 0.6e3],
    ["nine-tube-ceramic", 4e3, 0.5e3],
    ["double-conversion", 3e3, 0.5e3],
  ])("%s", (pattern, width, within) => {
    expect(Math.abs((on(pattern).results.width6dB.value as number) - width)).toBeLessThan(within);
  });
});
it("a winding off its frequency moves the middle and costs gain", () => {
  const [good, off] = [on("nine-tube-bandspread"), on("nine-tube-bandspread", { "strip.can1.primaryOffset": "3 kHz" })];
  expect(off.results.gain.value as number).toBeLessThan((good.results.gain.value as number) - 1);
  expect(off.results.offCentre.value as number).toBeGreaterThan(100);
});
it("recomputes the worked example of its page", () => {
  const rows = [...theory.matchAll(/^\| (\d\.\d) *\| ([\d.]+) kHz *\|$/gm)];
  expect(rows).toHaveLength(3);
  for (const [, kq, width] of rows) {
    const r = new StripResponse(pair(Number(kq) / 100));
    expect(Math.abs(widthHz(r, peakOf(r, [455e3]), 20 * Math.log10(2)) / 1000 - Number(width))).toBeLessThan(0.006);
  }
});
it("a width that the response does not reach has no value and says so", () => {
  const a = on("five-tube-live", {
    "strip.can1.primaryQ": "3",
    "strip.can1.secondaryQ": "3",
    "strip.can2.primaryQ": "3",
    "strip.can2.secondaryQ": "3",
  });
  expect(a.results.width60dB.value).toBeNull();
  expect(a.results.width60dB.why).toContain("not reached");
});
