/** Second implementation: figures of another program for the same invented strips, at the tolerances it states. */
import { describe, expect, it } from "vitest";
import { amAudioBandwidthHz } from "./am-audio";
import { StripResponse } from "./if-strip";
import type { StripModel } from "./if-strip-numbers";
import { noiseBandwidthHz } from "./noise-band";
import { NullLoad, nullFigures } from "./null-circuits";
import { type Peak, peakOf, widthHz } from "./passband";
import { narrow, wide } from "./prototype-strips.testdata";
import { feedbackConductanceS, oscillationPoint, PlateSeen, seriesResistanceOhm, TankLoad } from "./q-multiplier";
import type { Response } from "./response";

const near = (got: number, want: number, rel: number) => expect(Math.abs(got / want - 1)).toBeLessThan(rel);
const feedback = (gm: number) => ({ dividerRatio: 0.5, transconductanceS: gm, amplificationRatio: 100 });
/** The prototype hangs the tank straight on the plate and folds cable and coil into a conductance without slope: a huge coupling capacitor and a vanishing cable with the same loss do the same. */
const direct = {
  tankCapacitance: 1.5e-9,
  tankQ: 130,
  couplingCapacitance: 1e-3,
  cableCapacitance: 1e-18,
  cableCoilQ: (2 * Math.PI * 455e3 * 1e-18) / 3.55e-6,
};

class Loaded implements Response {
  re = 0;
  im = 0;
  constructor(
    readonly strip: StripResponse,
    readonly tank: TankLoad,
  ) {}
  at(hz: number) {
    this.tank.at(hz);
    return this.strip.at(hz, this.tank.re, this.tank.im);
  }
  complexAt(hz: number) {
    this.tank.at(hz);
    this.strip.complexAt(hz, this.tank.re, this.tank.im);
    this.re = this.strip.re;
    this.im = this.strip.im;
  }
}

describe("negative conductance of the follower", () => {
  it.each([
    [1.6e-3, 0, 396.0, 392.5162, 0.01],
    [1.6e-3, 2200, 86.93361, 86.89644, 0.001],
    [1.6e-3, 4700, 46.07223, 46.06669, 0.001],
    [0.8e-3, 4700, 41.27064, 41.26666, 0.001],
  ])("gm %f, Rf %f", (gm, rf, formula, exactNodal, within) => {
    const g = feedbackConductanceS(feedback(gm), rf) * 1e6;
    near(g, formula, 1e-4);
    near(g, exactNodal, within);
    near(seriesResistanceOhm(feedback(gm), g * 1e-6) + 1, rf + 1, 1e-9);
  });
  it("follows gm less the larger the series resistance", () => {
    // d ln Gn / d ln gm by a central difference; with no resistance Gn goes as gm
    const follows = (ohm: number) => {
      const [less, more] = [-1e-4, 1e-4].map((d) => Math.log(feedbackConductanceS(feedback(1.6e-3 * Math.exp(d)), ohm)));
      return (more - less) / 2e-4;
    };
    near(follows(4700), 0.116344, 1e-5);
    near(follows(1000), 0.382263, 1e-5);
    near(follows(0), 1, 1e-9);
  });
});

describe("oscillation point", () => {
  it.each([
    [wide, -5000, 44.88172, 450230.8],
    [wide, -2500, 46.82641, 452546.5],
    [wide, 0, 48.8486, 454983.7],
    [wide, 2500, 47.38781, 457435.5],
    [wide, 5000, 45.65884, 459763.4],
    [narrow, 0, 49.88549, 454980.1],
    [narrow, 5000, 46.44126, 459781.0],
  ] as [StripModel, number, number, number][])("case %#", (strip, offset, criticalUs, hz) => {
    const tank = new TankLoad().load(direct, 455e3 + offset, 455e3);
    const p = oscillationPoint(tank, new PlateSeen().load(new StripResponse(strip), direct.couplingCapacitance, 455e3));
    near(p.criticalS * 1e6, criticalUs, 2e-3);
    expect(Math.abs(p.hz - hz)).toBeLessThan(12);
  });
});

describe("peak function", () => {
  it.each([
    [wide, 0, 5587.785, 49587.28, 1860.724, -11.96731],
    [wide, 0.8, 1725.029, 32715.72, 511.3987, 2.007003],
    [wide, 0.95, 448.3455, 22433.59, 131.9336, 13.98074],
    [wide, 0.99, 90.82612, 13619.26, 35.53565, 26.56765],
    [narrow, 0.5, 3088.416, 6009.669, 972.0077, -5.427051],
    [narrow, 0.9, 885.7431, 5773.978, 263.1051, 8.526404],
  ] as [StripModel, number, number, number, number, number][])(
    "case %#: widths, audio and gain",
    (strip, fraction, w6, w60, audio, gain) => {
      const bare = new StripResponse(strip);
      const before = bare.at(455e3);
      const tank = new TankLoad().load(direct, 455e3, 455e3);
      tank.regenerationS = fraction * oscillationPoint(tank, new PlateSeen().load(bare, direct.couplingCapacitance, 455e3)).criticalS;
      const r = new Loaded(bare, tank);
      const peak: Peak = peakOf(r, [455e3]);
      // The prototype reads widths and peaks off a 10 Hz grid: a ninth of the narrowest width.
      near(widthHz(r, peak, 6), w6, fraction > 0.98 ? 1.5e-2 : fraction > 0.9 ? 6e-3 : 4e-3);
      near(widthHz(r, peak, 60), w60, fraction > 0.98 ? 4e-3 : 2e-3);
      expect(Math.abs(10 * Math.log10(r.at(455e3) / before) - gain)).toBeLessThan(0.06);
      if (fraction < 0.9) near(amAudioBandwidthHz(r, 455e3), audio, 2e-2);
      expect(noiseBandwidthHz(r, peak)).toBeLessThan(noiseBandwidthHz(bare, peakOf(bare, [455e3])));
    },
  );
});

describe("null function", () => {
  const base = { tankCapacitance: 1.5e-9, tankQ: 130, couplingCapacitance: 5e-12, loopGain: 10, balanceError: 0.03 };
  const figures = (m: Parameters<NullLoad["load"]>[0]) => {
    const strip = new StripResponse(wide);
    return nullFigures(new NullLoad().load(m, 455e3, strip), strip, 455e3);
  };
  it.each([
    [5e-12, 0.97, 25.01301, 5651],
    [5e-12, 0.99, 34.18865, 5611],
    [3e-12, 0.99, 25.62401, 1546],
    [10e-12, 0.97, 36.63858, 10773],
  ])("shunt, Cc %f, regeneration %f", (cc, regeneration, depth, width) => {
    const f = figures({ ...base, circuit: "shunt", couplingCapacitance: cc, regeneration });
    expect(Math.abs(f.depthDb - depth)).toBeLessThan(0.1);
    expect(Math.abs(f.widthHz - width)).toBeLessThan(5);
  });
  it.each([
    [10, 0.9, 20.82764, 4026],
    [10, 0.97, 20.82763, 1162],
    [31.6, 0.97, 30.26427, 3608],
    [100, 0.97, 40.0864, 9019],
  ])("inverse feedback, D %f, regeneration %f", (loopGain, regeneration, depth, width) => {
    const f = figures({ ...base, circuit: "inverse-feedback", loopGain, regeneration });
    expect(Math.abs(f.depthDb - depth)).toBeLessThan(0.1);
    expect(Math.abs(f.widthHz / width - 1)).toBeLessThan(0.003);
  });
  it.each([
    [0.01, 40],
    [0.03, 30.5],
    [0.1, 20],
  ])("subtraction, balance off by %f: depth -20 log of it, width of the tank", (balanceError, depth) => {
    const f = figures({ ...base, circuit: "subtraction", balanceError, regeneration: 0.97 });
    expect(Math.abs(f.depthDb - depth)).toBeLessThan(0.1);
    expect(Math.abs(f.widthHz / 105 - 1)).toBeLessThan(0.02 + balanceError);
  });
});
