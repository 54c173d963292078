import fc from "fast-check";
import { expect, it } from "vitest";
import { capacitancePerLengthFPerM, linePhaseRad, lumpedErrorRatio, lumpedLimitM, openLineSusceptanceS } from "./cable";

const line = fc.record({
  z: fc.double({ min: 30, max: 120, noNaN: true }),
  vf: fc.double({ min: 0.5, max: 1, noNaN: true }),
  l: fc.double({ min: 0.1, max: 30, noNaN: true }),
  f: fc.double({ min: 1e5, max: 2e6, noNaN: true }),
});
it("a short open line is its capacitance, and the error is (beta l)^2 / 3", () => {
  fc.assert(
    fc.property(line, ({ z, vf, l, f }) => {
      fc.pre(linePhaseRad(f, l, vf) < 0.3);
      const lumped = 2 * Math.PI * f * capacitancePerLengthFPerM(z, vf) * l;
      const exact = openLineSusceptanceS(f, l, z, vf);
      expect(exact / lumped - 1).toBeCloseTo(lumpedErrorRatio(f, l, vf), 9);
      const third = linePhaseRad(f, l, vf) ** 2 / 3;
      expect(Math.abs(lumpedErrorRatio(f, l, vf) / third - 1)).toBeLessThan(0.05);
    }),
  );
});
it("finds the length at which lumping is off by a given ratio", () => {
  for (const error of [1e-4, 1e-3, 0.01, 0.05])
    expect(lumpedErrorRatio(455e3, lumpedLimitM(455e3, 0.66, error), 0.66) / error).toBeCloseTo(1, 1);
});
// Worked out apart from this code at 455 kHz, VF 0.66: 5.8e-5 at 3 ft, 6.4e-4 at 10 ft, 0.58 % at 30 ft, 7 % at 100 ft (a second implementation).
it("meets the second implementation's lumping errors", () => {
  const printed: [number, number][] = [
    [3, 5.8e-5],
    [10, 6.4e-4],
    [30, 5.8e-3],
  ];
  for (const [ft, error] of printed) expect(Math.abs(lumpedErrorRatio(455e3, ft * 0.3048, 0.66) / error - 1)).toBeLessThan(0.02);
});
