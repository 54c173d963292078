import { describe, expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { couplingRatio, harmonicPeakV } from "../../physics/marker-spectrum";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { sheetById } from "../index";
import { noiseV } from "./solve";
import theory from "./theory.md";

const ask = (overrides: Record<string, string> = {}) =>
  orThrow(answer(sheetById("markers")!, emptyBench, { draws: 100, points: 31, overrides: { chassis: "isolated", ...overrides } }));
const ids = (a: ReturnType<typeof ask>) => a.findings.map((f) => f.id);

it("recomputes the worked example of its page", () => {
  const row = (text: string) => Number(new RegExp(`\\| ${text} *\\| ([\\d.]+)`).exec(theory)![1]);
  const path = { sourceOhm: 0.001, couplingF: 2e-12, antennaOhm: 80, inputOhm: 1e9, inputF: 1e-18 };
  for (const n of [5, 35, 99])
    expect(
      Math.abs(
        harmonicPeakV({ amplitudeV: 5, repetitionHz: 100e3, dutyRatio: 0.5, riseS: 0, fallS: 0 }, n) *
          couplingRatio(n * 100e3, path) *
          1e6 -
          row("every odd marker, peak"),
      ),
    ).toBeLessThan(0.5);
  const noise = noiseV({ environment: "residential", antenna: "connected", bandwidth: 3000, receiverNoiseFigure: -300 }, 3.5e6);
  expect(Math.abs(noise * 1e6 - row("a residential site at 3.5 MHz, 3 kHz, noise"))).toBeLessThan(0.05);
});
describe("what it says", () => {
  it("a perfect square loses the even markers, a decade's fifth each fifth; a duty beside them none", () => {
    expect(ids(ask({ duty: "0.5" }))).toContain("markers-missing");
    expect(ask({ duty: "0.2" }).findings.find((f) => f.id === "markers-missing")!.says).toContain("every 5th");
    expect(ids(ask({ duty: "0.47" }))).not.toContain("markers-missing");
  });
  it("slow edges make the top weak; a loud coupling deafens the bottom", () => {
    expect(ids(ask({ riseTime: "200 ns", fallTime: "200 ns", markerCoupling: "0.2 pF" })).some((i) => i.startsWith("markers-weak"))).toBe(
      true,
    );
    expect(ids(ask({ markerCoupling: "50 pF" })).some((i) => i.startsWith("markers-loud"))).toBe(true);
  });
  it("the window holds the coupling that common practice uses", () => {
    const a = ask();
    expect(a.results.smallestCoupling.value!).toBeLessThan(1e-12);
    expect(a.results.largestCoupling.value!).toBeGreaterThan(1e-12);
  });
  it("without the antenna the markers stand higher over the noise", () =>
    expect(ask({ antenna: "disconnected" }).results.overNoiseHighest.value!).toBeGreaterThan(ask().results.overNoiseHighest.value! + 10));
});
