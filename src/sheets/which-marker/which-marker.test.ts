import { expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { sheetById } from "../index";
import theory from "./theory.md";

const ask = (overrides: Record<string, string>) =>
  orThrow(answer(sheetById("which-marker")!, emptyBench, { draws: 500, points: 11, overrides }));
const row = (text: string) => Number(new RegExp(`\\| ${text} *\\| ([\\d.]+)`).exec(theory)![1]);

it("recomputes the worked example: 1 % at 21 MHz is ambiguous, 0.5 % at 3.5 MHz is not", () => {
  const wide = ask({ dialFrequency: "21.03 Mc", dialError: "0 kHz ±210 kHz" });
  expect(wide.results.halfSpacing.value! / 1e3).toBe(row("half the spacing"));
  expect(wide.headline).toContain("The dial alone can't tell");
  expect(0.005 * 3500).toBe(row("a dial of 0.5 % at 3.5 MHz"));
  const near = ask({ dialFrequency: "3.51 Mc", dialError: `0 kHz ±${row("a dial of 0.5 % at 3.5 MHz")} kHz` });
  expect(near.headline).toContain("3.5 MHz");
  expect(near.findings.map((f) => f.id)).toContain("which-sure");
});
it("offers coarser markers where they settle it, a known station where they do not", () => {
  const say = (a: ReturnType<typeof ask>) => a.findings.find((f) => f.id === "which-ambiguous")!.do!;
  expect(say(ask({ dialFrequency: "21.03 Mc", dialError: "0 kHz ±150 kHz" }))).toContain("5 times as far apart");
  expect(say(ask({ dialFrequency: "21.4 Mc", dialError: "0 kHz ±900 kHz" }))).toMatch(/WWV on 20 MHz/);
});
it("prints a marker of 25 kHz to its last digit, wherever it is said to be beyond doubt", () => {
  for (const [dialFrequency, hz] of [
    ["14.02 MHz", 14.025e6],
    ["7.13 MHz", 7.125e6],
    ["28.5251 MHz", 28.525e6],
  ] as const) {
    const a = ask({ dialFrequency, dialError: "0 kHz ±6 kHz", spacing: "25 kHz" });
    expect(a.results.marker.value).toBe(hz);
    expect(a.headline).toContain(`It is the marker at ${hz / 1e6} MHz;`);
  }
  const wide = ask({ dialFrequency: "7.13 MHz", dialError: "0 kHz ±40 kHz", spacing: "25 kHz" });
  expect(wide.findings.find((f) => f.id === "which-ambiguous")!.do).toContain("the one next to here is 7.125 MHz, for certain");
});
it("says when a count does not agree", () => {
  expect(ask({ dialFrequency: "7.11 Mc", dialError: "0 kHz ±20 kHz", counted: "25" }).findings.map((f) => f.id)).toContain(
    "which-count-disagrees",
  );
  expect(ask({ dialFrequency: "7.11 Mc", dialError: "0 kHz ±20 kHz", counted: "21" }).findings.map((f) => f.id)).not.toContain(
    "which-count-disagrees",
  );
});
it("says that no marker fits where the nearest is further off than the dial can be", () => {
  const a = ask({ dialFrequency: "7.14 MHz", dialError: "0 kHz ± 10 kHz", counted: "21" });
  expect(a.headline).toMatch(/No marker lies where the dial can be/);
  expect(a.findings.some((f) => f.id === "which-sure")).toBe(false);
});
