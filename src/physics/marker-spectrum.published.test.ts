/**
 * Sources: square wave 2 A/(pi n) peak, A from top to bottom, odd harmonics only; a pulse of duty d, 2 A d sin(pi n d)/(pi n d), so that one of 1/5 lacks
 * each fifth (both read in a published table, Fourier Series Coefficients for Standard Waveforms); k T0 = -174 dBm/Hz (handbook value);
 * ITU-R P.372 coefficients recomputed to its reference code's figures. Beside them, marked so, figures of a second implementation.
 */
import { describe, expect, it } from "vitest";
import { type Environment, externalNoiseDb } from "../standards/external-noise";
import { harmonicPeakV } from "./marker-spectrum";
import { kT0WPerHz } from "./noise";

const square = { amplitudeV: 5, repetitionHz: 100e3, dutyRatio: 0.5, riseS: 0, fallS: 0 };

describe("harmonics of a marker's waveform", () => {
  it.each([1, 3, 35, 299])("a square wave's %i-th is 2 A/(pi n)", (n) =>
    expect(harmonicPeakV(square, n) / ((2 * 5) / (Math.PI * n))).toBeCloseTo(1, 9),
  );
  it.each([2, 16, 300])("a perfect square has no %i-th", (n) => expect(harmonicPeakV(square, n)).toBeLessThan(1e-12));
  it("a decade's duty of a fifth loses each fifth", () => {
    const wave = { ...square, dutyRatio: 0.2 };
    expect(harmonicPeakV(wave, 5)).toBeLessThan(1e-12);
    expect(harmonicPeakV(wave, 35)).toBeLessThan(1e-12);
    expect(harmonicPeakV(wave, 36)).toBeGreaterThan(0.01);
  });
});

describe("external noise", () => {
  it("k T0 is -174 dBm in one hertz", () => expect(Math.abs(10 * Math.log10(kT0WPerHz * 1e3) + 174)).toBeLessThan(0.05));
  it.each([
    ["city", 7e6, 53.39],
    ["residential", 3.5e6, 57.43],
    ["residential", 28e6, 32.41],
    ["rural", 14e6, 35.45],
  ] as [Environment, number, number][])("%s at %f Hz", (env, hz, fam) =>
    expect(Math.abs(externalNoiseDb(hz, env) - fam)).toBeLessThan(0.006),
  );
  it("a quiet rural site is limited by the galaxy at 28 MHz", () =>
    expect(Math.abs(externalNoiseDb(28e6, "quiet-rural") - 18.72)).toBeLessThan(0.006));
});
