import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { fitDial } from "../../infer/dial/fit";
import { dialCases, inventDial } from "../../infer/dial/possible-dials";
import { normalStream } from "../../numerics/random";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { bandEdge } from "./sheet";
import { type Edging, edges, extentHz, safeReading } from "./solve";
import theory from "./theory.md";

const assumed = { readingNoise: 0.1, zeroBeatHz: 20, backlash: 0.2, backlashU: 0.2 };
const x: Edging = {
  mode: "CW",
  side: "same",
  confidence: 0.99,
  keyedWidth: 150,
  audioHigh: 3000,
  markerDoubt: 3e-6,
  drift: 0,
  driftDoubt: 50,
};
const fitOf = (k: number, seed: number, how: "up" | "both" = "up") => {
  const d = inventDial(dialCases[k], seed, how);
  return { d, fit: orThrow(fitDial(d.points, dialCases[k].conversion, assumed)) };
};

describe("out of band at most 1 % at each edge, over 10,000 settings, with a marker on the edge and without", () => {
  it.each([
    [0, 0],
    [0, 0.37],
    [1, 0],
    [1, 0.37],
    [2, 0],
    [2, 0.37],
  ])("dial %i, edges %f of a spacing off a marker", (k, off) => {
    const c = dialCases[k];
    const [low, high] = [c.lowHz + (1 + off) * c.spacingHz, c.highHz - (1 + off) * c.spacingHz];
    const out = [0, 0];
    const ratios: number[] = [];
    for (let seed = 0; seed < 63; seed++) {
      const { d, fit } = fitOf(k, 1000 + seed);
      const { carrierLow, carrierHigh } = edges(fit, low, high, x);
      const [z, m, w] = ["setting", "marker", "drift"].map((n) => normalStream(seed, `${n} ${k} ${off}`, 160));
      for (const [i, [r, edge]] of (
        [
          [carrierLow as number, low],
          [carrierHigh as number, high],
        ] as const
      ).entries()) {
        const other = Math.hypot(edge * x.markerDoubt, x.driftDoubt);
        for (let t = 0; t < 160; t++) {
          const hz = d.truthHz(r + d.readingNoise * z[t], 1) + edge * x.markerDoubt * m[t] + x.driftDoubt * w[t];
          if (i === 0 ? hz < edge : hz > edge) out[i]++;
        }
        // the best guard that anybody could keep who knew the dial itself
        const slope = (d.truthHz(r + 0.01, 1) - d.truthHz(r - 0.01, 1)) / 0.02;
        ratios.push(Math.abs(d.truthHz(r, 1) - edge) / (2.3263 * Math.hypot(slope * d.readingNoise, other)));
      }
    }
    for (const n of out) expect(n / 10_080).toBeLessThanOrEqual(0.01);
    ratios.sort((a, b) => a - b);
    expect(ratios[63]).toBeLessThanOrEqual(1.5);
  });
});

describe("laws of the safe settings", () => {
  it("none lies outside the band by the law itself, whatever the dial, the edges and the mode", () => {
    fc.assert(
      fc.property(
        fc.nat(3000),
        fc.nat(3),
        fc.double({ min: 0.12, max: 0.45, noNaN: true }),
        fc.double({ min: 0.55, max: 0.88, noNaN: true }),
        fc.constantFrom("CW", "AM", "USB", "LSB"),
        fc.constantFrom("same", "either"),
        fc.constantFrom("up", "both"),
        (seed, k, a, b, mode, side, how) => {
          const c = dialCases[k];
          const { d, fit } = fitOf(k, seed, how as "up");
          const [low, high] = [a, b].map((p) => c.lowHz + p * (c.highHz - c.lowHz));
          const asked = { ...x, mode: mode as "CW", side: side as "same" };
          const e = edges(fit, low, high, asked);
          const { below, above } = extentHz(asked);
          const reached = (r: unknown) => (typeof r === "number" ? [d.truthHz(r, 1), d.truthHz(r, -1)] : []);
          const slack = 4 * d.backlash * ((c.highHz - c.lowHz) / c.divisions);
          if (typeof e.carrierLow === "number" && typeof e.signalLow === "number") {
            expect(e.signalLow).toBeGreaterThanOrEqual(e.carrierLow);
            for (const hz of reached(e.signalLow)) expect(hz - below).toBeGreaterThan(low - slack);
          }
          if (typeof e.carrierHigh === "number" && typeof e.signalHigh === "number") {
            expect(e.signalHigh).toBeLessThanOrEqual(e.carrierHigh);
            for (const hz of reached(e.signalHigh)) expect(hz + above).toBeLessThan(high + slack);
          }
          if (typeof e.guardLow === "number") expect(e.guardLow).toBeGreaterThan(0);
        },
      ),
      { numRuns: 80 },
    );
  });
  it("more confidence, worse markers, more drift and either side each keep further from the edge", () => {
    const { fit } = fitOf(2, 5, "both");
    const low = (more: Partial<Edging>) => safeReading(fit, 3.6e6, "above", { ...x, ...more }) as number;
    for (const more of [{ confidence: 0.9999 }, { markerDoubt: 5e-4 }, { driftDoubt: 3000 }, { drift: -2000 }])
      expect(low(more), JSON.stringify(more)).toBeGreaterThan(low({}));
    expect(low({ side: "either" })).toBeGreaterThanOrEqual(low({}));
  });
  it("runs the other way on a scale that runs the other way", () => {
    const { d } = fitOf(2, 5);
    const turned = d.points.map((p) => ({ ...p, reading: 100 - p.reading, approach: -1 as const }));
    const fit = orThrow(fitDial(turned, dialCases[2].conversion, assumed));
    const straight = edges(fitOf(2, 5).fit, 3.6e6, 3.9e6, x);
    const other = edges(fit, 3.6e6, 3.9e6, x);
    expect(Math.abs((other.carrierLow as number) + (straight.carrierLow as number) - 100)).toBeLessThan(0.25);
    expect(other.carrierHigh).toBeLessThan(other.carrierLow as number);
  });
  it("calls no window safe that is narrower than the doubt, on a scale that rises or falls", () => {
    const { d, fit } = fitOf(2, 5);
    const turned = orThrow(
      fitDial(
        d.points.map((p) => ({ ...p, reading: 100 - p.reading, approach: -1 as const })),
        dialCases[2].conversion,
        assumed,
      ),
    );
    for (const f of [fit, turned])
      for (const widthHz of [200, 1000, 2500]) {
        const e = edges(f, 3.7e6, 3.7e6 + widthHz, x);
        expect([e.carrierLow, e.carrierHigh, e.guardLow], `${widthHz} Hz`).toEqual(
          Array(3).fill({ none: expect.stringContaining("nowhere") }),
        );
      }
    const am = edges(fit, 3.7e6, 3.7055e6, { ...x, mode: "AM" });
    expect(am.signalLow).toMatchObject({ none: expect.stringContaining("nowhere") });
  });
  it("says nothing of an edge beyond the zero beats", () => {
    const { fit } = fitOf(2, 5);
    expect(safeReading(fit, 3.3e6, "above", x)).toMatchObject({ none: expect.stringContaining("beyond the zero beats") });
  });
});

describe("the sheet", () => {
  const d = inventDial({ ...dialCases[2], lowHz: 3.4e6, highHz: 3.9e6 }, 4);
  const points = d.points.map((p) => `${p.reading}, ${p.frequencyHz} Hz, up`).join("; ");
  const ask = (more = {}) =>
    orThrow(answer(bandEdge, emptyBench, { draws: 20, points: 21, overrides: { points, region: "ITU Region 1", ...more } }));
  it("states the settings between which the carrier is inside, per edge, and the signal apart from it", () => {
    const a = ask({ mode: "USB" });
    expect(a.headline).toMatch(
      /Carrier inside 3.5 MHz to 3.8 MHz from [\d.]+ to [\d.]+ on the scale, 99 % at each edge; a USB signal wholly inside/,
    );
    expect(a.results.signalHigh.value!).toBeLessThan(a.results.carrierHigh.value!);
    expect(a.results.signalLow.value).toBe(a.results.carrierLow.value);
    expect(a.findings.some((f) => f.id === "edge-marker-low")).toBe(true);
  });
  it("gives no edge while neither Region nor licence is stated, and asks; the line only suggests", () => {
    const a = ask({ region: "unstated", line: "100 to 130 V, 60 Hz" });
    expect(a.headline).toContain("Which ITU Region the set is used in isn't recorded, so no band edge is known and none is given.");
    for (const f of Object.values(a.results))
      expect([f.value, f.low, f.why]).toEqual([null, null, expect.stringContaining("Region isn't recorded")]);
    expect(a.findings.find((f) => f.id === "edge-region")!.says).toContain("may be in Region 2: is it?");
    expect(a.findings.some((f) => f.id === "edge-rules")).toBe(false);
    expect(
      ask({ region: "unstated", line: "another" })
        .findings.map((f) => f.says)
        .join(" "),
    ).not.toContain("is it?");
    expect(ask({ region: "unstated", licence: "US Part 97, CW" }).headline).toContain("3.5 MHz to 4 MHz");
  });
  it("answers from two zero beats, further inside than from all, or nowhere", () => {
    const few = (n: number) =>
      d.points
        .filter((_, i) => i === 2 || i === 8 || (n > 2 && i === 5))
        .map((p) => `${p.reading}, ${p.frequencyHz} Hz, up`)
        .join("; ");
    const all = ask().results;
    for (const n of [2, 3]) {
      const a = ask({ points: few(n) });
      expect(a.findings.some((f) => f.id === "edge-few")).toBe(true);
      for (const end of ["carrierLow", "carrierHigh"] as const)
        if (a.results[end].value !== null)
          expect((a.results[end].value - all[end].value!) * (end === "carrierLow" ? 1 : -1)).toBeGreaterThan(0);
        else expect(a.results[end].why).toMatch(/nowhere|beyond/);
    }
  });
  it("takes the owner's own edges, and refuses a licence that has no band there", () => {
    expect(ask({ licence: "own", lowEdge: "3.55 MHz", highEdge: "3.75 MHz" }).headline).toContain("3.55 MHz to 3.75 MHz");
    const beside = inventDial({ ...dialCases[2], lowHz: 6e6, highHz: 6.5e6 }, 4)
      .points.map((p) => `${p.reading}, ${p.frequencyHz} Hz`)
      .join("; ");
    const r = answer(bandEdge, emptyBench, { draws: 10, overrides: { points: beside, region: "ITU Region 1" } });
    expect(r.ok ? "" : r.issues[0].code).toBe("no-band");
  });
  it("refuses own edges until both are stated", () => {
    const wrong: [string, Record<string, string>][] = [
      ["lowEdge: not-said", {}],
      ["highEdge: not-said", { lowEdge: "3.55 MHz" }],
      ["highEdge: not-above", { lowEdge: "3.55 MHz", highEdge: "3.5 MHz" }],
    ];
    for (const [code, more] of wrong) {
      const r = answer(bandEdge, emptyBench, { draws: 10, overrides: { points, licence: "own", ...more } });
      expect(r.ok ? "" : `${r.issues[0].path}: ${r.issues[0].code}`, JSON.stringify(more)).toBe(code);
    }
  });
  it("says that a signal fits nowhere, and why, where its carrier still does", () => {
    const narrow = ask({ licence: "own", lowEdge: "3.7 MHz", highEdge: "3.7075 MHz", mode: "AM" });
    expect(narrow.headline).toMatch(/Carrier inside 3.7 MHz to 3.7075 MHz from [\d.]+ to [\d.]+ on the scale/);
    expect(narrow.headline).toContain("an AM signal wholly inside nowhere that is certain to be clear of both edges");
  });
  it("says from which side to come, and that the transmitter must be zero beat", () => {
    expect(ask().headline).toMatch(/Come to it turning up, the main dial as it was/);
    expect(ask({ side: "either" }).headline).toContain("From either side");
    expect(ask().findings.find((f) => f.id === "edge-transmitter")!.do).toContain("Zero beat the transmitter");
    expect(ask().findings.find((f) => f.id === "edge-marker-low")!.says).toContain("never send on it");
  });
  it("tells a station that is off from one that is where it should be", () => {
    const at = (hz: number) => d.readingFor(hz, 1).toFixed(2);
    const a = ask({ stations: `${at(3.6e6)}, 3.6 MHz; ${at(3.72e6)}, 3.7 MHz`, stationTolerance: "3 kHz" });
    expect(a.tables[0].rows.map((r) => r[4])).toEqual(["where it should be", "off"]);
  });
  it("recomputes the worked example of its page", () => {
    const value = (name: string) => Number(new RegExp(`\\| ${name} *\\| (\\d+) *Hz`).exec(theory)![1]);
    const all = Math.hypot(5000 * 0.1, 500, 7e6 * 1e-5, 200);
    expect(value("all together")).toBe(Math.round(all));
    expect(Math.abs(value("guard for 99 % \\(2.326 times\\)") - 2.326 * all)).toBeLessThan(1);
  });
});
