/**
 * Second implementation: the same nodal model in another language; its figures, with the tolerances it states,
 * stand here as plain numbers. Beside it, a complex matrix solve of the whole strip written here.
 */
import { describe, expect, it } from "vitest";
import { amAudioBandwidthHz } from "./am-audio";
import { StripResponse } from "./if-strip";
import type { CanModel, StripModel } from "./if-strip-numbers";
import { noiseBandwidthHz } from "./noise-band";
import { crossingHz, peakOf, rejectionDb, widthHz } from "./passband";
import { ceramic, narrow, pair, wide } from "./prototype-strips.testdata";

const db = (p: number) => 10 * Math.log10(p);
const near = (got: number, want: number, rel: number) => expect(Math.abs(got / want - 1)).toBeLessThan(rel);

/** That program's single cans are at half power and half voltage (3.01, 6.02 dB), its strips at 3 and 6 dB. */
describe("one can against the prototype", () => {
  it.each([
    [0.5, 3827.587, 5648.577, 15569.33, 160179.5],
    [1, 6421.321, 8457.077, 20276.18, 201985.7],
    [2, 11917.72, 14222.5, 29527.8, 281768.1],
  ])("k Q = %f", (kq, w3, w6, w20, w60) => {
    const r = new StripResponse(pair(kq / 100));
    const peak = peakOf(r, [455e3]);
    near(widthHz(r, peak, 10 * Math.log10(2)), w3, 1e-4);
    near(widthHz(r, peak, 20 * Math.log10(2)), w6, 1e-4);
    near(widthHz(r, peak, 20), w20, 1e-4);
    near(widthHz(r, peak, 60), w60, 1e-3);
  });
});

describe("whole strips against the prototype", () => {
  it.each([
    ["wide", wide, 8082.184, 10670.72, 20022.74, 67772.2, 72.84163, 454810, 4043.305, 8468.6, 5.099681],
    ["narrow, with the ladder filter", narrow, 3580.457, 4239.176, 5381.109, 18973.92, 69.71928, 454860, 1784.805, 3321.15, 59.93796],
  ] as [string, StripModel, ...number[]][])("%s", (_, strip, w3, w6, w20, w60, gain, peakHz, audio, noise, rej5) => {
    const r = new StripResponse(strip);
    const peak = peakOf(r, [455e3]);
    expect(Math.abs(peak.hz - peakHz)).toBeLessThan(6);
    near(widthHz(r, peak, 3), w3, 5e-4);
    near(widthHz(r, peak, 6), w6, 5e-4);
    near(widthHz(r, peak, 20), w20, 5e-4);
    near(widthHz(r, peak, 60), w60, 5e-4);
    expect(Math.abs(db(r.at(455e3)) - gain)).toBeLessThan(0.02);
    near(amAudioBandwidthHz(r, 455e3), audio, 5e-3);
    // The prototype divides by the power at 455 kHz, we by the peak's.
    near((noiseBandwidthHz(r, peak) * peak.power) / r.at(455e3), noise, 2e-3);
    expect(Math.abs(rejectionDb(r, 455e3, 5000, peak.power) - rej5)).toBeLessThan(0.02);
  });
  it("the ladder filter alone", () => {
    const bare = new StripResponse(wide);
    const with4 = new StripResponse({ ...wide, filter: ceramic });
    const fs = [400e3, 430e3, 440e3, 445e3, 448e3, 450e3, 453e3, 455e3, 457e3, 460e3, 465e3, 480e3, 510e3];
    const att = [
      -42.07023, -42.18679, -42.87434, -44.49319, -48.16102, -57.92118, -5.920917, -2.283134, -7.768909, -59.93282, -45.47135, -42.44326,
      -41.89382,
    ];
    for (const [i, f] of fs.entries()) expect(Math.abs(db(with4.at(f) / bare.at(f)) - att[i])).toBeLessThan(0.02);
  });
});

describe("against a matrix solve of the whole can", () => {
  it("agrees to 9 digits in amplitude and in driving-point impedance, with an admittance on the plate", () => {
    const can: CanModel = { ...wide.cans[0], primaryOffset: 1300, secondaryOffset: -700, addedCapacitance: 7e-12, coupling: 0.023 };
    const strip: StripModel = { intermediateFrequency: 455e3, cans: [can], filter: null };
    const r = new StripResponse(strip);
    for (let f = 380e3; f < 540e3; f += 7919) {
      const y: Complex = [2e-6, 3e-5];
      const power = r.at(f, y[0], y[1]);
      const [vp, vg] = matrixSolve(can, 455e3, f, y);
      expect(Math.abs(power / (abs2(vg) * can.transconductance ** 2) - 1)).toBeLessThan(1e-9);
      r.plateAt(f);
      const [zp] = matrixSolve(can, 455e3, f, [0, 0]);
      expect(Math.hypot(r.plateRe - zp[0], r.plateIm - zp[1]) / Math.hypot(...zp)).toBeLessThan(1e-9);
      expect(abs2(vp)).toBeGreaterThan(0);
    }
  });
  it("fills a curve with what it says point by point, with and without a load and the filter, to 9 digits", () => {
    const tank = { conductanceS: 3e-5, capacitanceF: 1.5e-9, inverseH: (2 * Math.PI * 455e3) ** 2 * 1.5e-9, seriesF: 1e-9 };
    for (const strip of [wide, narrow, { ...wide, cans: [wide.cans[0]] }]) {
      const r = new StripResponse(strip);
      const hz = Float64Array.from({ length: 301 }, (_, i) => 380e3 + 500 * i);
      for (const load of [undefined, tank]) {
        const out = new Float64Array(hz.length);
        r.fill(hz, out, load);
        for (const [i, f] of hz.entries()) {
          const w = 2 * Math.PI * f;
          const y: Complex = [tank.conductanceS, w * tank.capacitanceF - tank.inverseH / w];
          const yc: Complex = [0, w * tank.seriesF];
          const seen: Complex = load ? div(mul(y, yc), [y[0] + yc[0], y[1] + yc[1]]) : [0, 0];
          const power = r.at(f, seen[0], seen[1]);
          expect(Math.abs(out[i] / power - 1)).toBeLessThan(1e-9);
          r.complexAt(f, seen[0], seen[1]);
          expect(Math.abs((r.re ** 2 + r.im ** 2) / power - 1)).toBeLessThan(1e-9);
        }
      }
    }
  });
  it("puts both outer crossings on the side they belong to", () => {
    const r = new StripResponse(wide);
    const peak = peakOf(r, [455e3]);
    expect(crossingHz(r, peak, 6, -1)).toBeLessThan(peak.hz);
    expect(crossingHz(r, peak, 6, 1)).toBeGreaterThan(peak.hz);
  });
});

type Complex = [number, number];
const mul = (a: Complex, b: Complex): Complex => [a[0] * b[0] - a[1] * b[1], a[0] * b[1] + a[1] * b[0]];
const sub = (a: Complex, b: Complex): Complex => [a[0] - b[0], a[1] - b[1]];
const div = (a: Complex, b: Complex): Complex => {
  const s = b[0] ** 2 + b[1] ** 2;
  return [(a[0] * b[0] + a[1] * b[1]) / s, (a[1] * b[0] - a[0] * b[1]) / s];
};
const abs2 = (a: Complex) => a[0] ** 2 + a[1] ** 2;

/** Four unknowns (two node voltages, two coil currents), one ampere into the plate, by Gaussian elimination. */
function matrixSolve(can: CanModel, f0: number, f: number, y: Complex): [Complex, Complex] {
  const w = 2 * Math.PI * f;
  const w0 = 2 * Math.PI * f0;
  const c1 = can.primaryCapacitance + can.outputCapacitance;
  const c2 = can.secondaryCapacitance + can.inputCapacitance;
  const l1 = 1 / ((2 * Math.PI * (f0 + can.primaryOffset)) ** 2 * c1);
  const l2 = 1 / ((2 * Math.PI * (f0 + can.secondaryOffset)) ** 2 * c2);
  const m = can.coupling * Math.sqrt(l1 * l2);
  const o: Complex = [0, 0];
  const one: Complex = [1, 0];
  const a: Complex[][] = [
    [[1 / can.plateResistance + y[0], w * (c1 + can.addedCapacitance) + y[1]], o, one, o, one],
    [o, [1 / can.loadResistance, w * c2], o, one, o],
    [one, o, [-(w0 * l1) / can.primaryQ, -w * l1], [0, -w * m], o],
    [o, one, [0, -w * m], [-(w0 * l2) / can.secondaryQ, -w * l2], o],
  ];
  for (let k = 0; k < 4; k++) {
    const p = [k, 1, 2, 3].reduce((best, i) => (i >= k && abs2(a[i][k]) > abs2(a[best][k]) ? i : best), k);
    [a[k], a[p]] = [a[p], a[k]];
    for (let i = 0; i < 4; i++) {
      if (i === k) continue;
      const factor = div(a[i][k], a[k][k]);
      a[i] = a[i].map((v, j) => sub(v, mul(factor, a[k][j])));
    }
  }
  return [div(a[0][4], a[0][0]), div(a[1][4], a[1][1])];
}
