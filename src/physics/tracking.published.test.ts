import { describe, expect, it } from "vitest";
import { partsHz } from "./oscillator-parts";

describe("an oscillator with its padder", () => {
  it("a twin gang of 270 pF with 300 pF in series on 180 uH: 995.13 kHz, 540 and 455 kHz (source: Build Your Own Transistor Radios, figure 3-3, values read)", () => {
    const hz = partsHz({ layout: "across the gang", henry: 180e-6, trimmerF: 0, padderF: 300e-12 }, 270e-12);
    expect(Math.abs(hz / 995e3 - 1)).toBeLessThan(2e-4);
  });
  it("does not give a textbook companion's 218.6 kHz of error at 1 MHz (400 to 1650 kHz, padder alone): it scaled from the wrong end (source: a public collection of worked examples of a textbook, chapter on receivers, example 8.5, read; it is wrong)", () => {
    const coilH = 365.478e-6;
    const signalF = (f: number): number => (300e-12 * 400e3 ** 2) / f ** 2;
    const at = (f: number): number =>
      partsHz({ layout: "across the gang", henry: coilH, trimmerF: 0, padderF: 138.614e-12 }, signalF(f)) - 455e3 - f;
    expect(Math.abs(at(400e3))).toBeLessThan(50);
    expect(Math.abs(at(1650e3))).toBeLessThan(500);
    expect(at(1e6) / 1e3).toBeCloseTo(-60.76, 0);
  });
});
