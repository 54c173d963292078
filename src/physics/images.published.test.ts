import { describe, expect, it } from "vitest";
import { circuitsRejectionDb, imageHz } from "./images";

const alpha = (q: number, f: number, other: number): number => 10 ** (circuitsRejectionDb(1, q, f, other) / 20);

describe("image rejection", () => {
  // source: examination questions and answers as published on the web (read), and Kennedy, Electronic Communication Systems (from memory) where said;
  // printed to three or four figures, rho rounded before alpha was worked out
  it.each([
    ["1000 kHz, IF 455, Q 100", 1000e3, 455e3, 100, 138.6, 1e-3],
    ["25 MHz, IF 455, Q 100 (from memory)", 25e6, 455e3, 100, 7.22, 1e-3],
    ["30 MHz, IF 455, Q 100", 30e6, 455e3, 100, 6.063, 1e-3],
  ])("%s", (_, f, i, q, printed, tolerance) => {
    expect(Math.abs(alpha(q, f, imageHz(f, i, "above")) / printed - 1)).toBeLessThan(tolerance);
  });
  it("555 kHz with the oscillator at 1010 kHz: IF 455, image 1465 kHz (source: textbook companion, example 8.17)", () => {
    expect(imageHz(555e3, 455e3, "above")).toBe(1465e3);
    // the companion's rho 2.26080 and alpha 90.438
    expect(alpha(40, 555e3, 1465e3)).toBeCloseTo(90.438, 3);
  });
  it("a station on 1500 kHz as image at dial 570 with IF 465 (source: the same, example 8.4)", () => {
    expect(imageHz(570e3, 465e3, "above")).toBe(1500e3);
  });
  it("does not give the printed 3.9 for 30 MHz, Q 65: that step dropped the 1 under the root (source: the same kind of page, wrong)", () => {
    expect(alpha(65, 30e6, imageHz(30e6, 455e3, "above"))).toBeCloseTo(4.012, 3);
    expect(Math.abs(alpha(65, 30e6, imageHz(30e6, 455e3, "above")) - 3.9)).toBeGreaterThan(0.1);
  });
});
