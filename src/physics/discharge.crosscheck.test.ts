/** Second implementation: figures worked out apart from this code. */
import { expect, it } from "vitest";
import { lineCurrentA, storedJ, timeToFall } from "./discharge";

/** Source: the textbook laws C V^2/2, R C ln and 2 pi f C V; recomputed here. */
it.each([
  [20e-6, 450, 2.03, 4.03],
  [40e-6, 350, 2.45, 7.05],
  [80e-6, 400, 6.4, 15.2],
  [100e-6, 450, 10.1, 20.1],
])(
  "%f F at %i V holds %f J and takes %f s through 100 kohm to 60 V (worked out apart from this code from C V^2/2 and R C ln)",
  (c, v, joule, s) => {
    expect(storedJ(c, v)).toBeCloseTo(joule, 1);
    expect(timeToFall(c, 100e3, v, 60)).toBeCloseTo(s, 1);
  },
);

it.each([
  [1e-9, 120, 60, 0.045],
  [2.2e-9, 120, 60, 0.0995],
  [4.7e-9, 230, 50, 0.34],
  [10e-9, 117, 60, 0.441],
  [0.05e-6, 117, 60, 2.21],
  [0.1e-6, 117, 60, 4.41],
])("%f F at %i V, %i Hz passes %f mA (recomputed)", (c, v, f, milliampere) => {
  expect(lineCurrentA(c, v, f) * 1000).toBeCloseTo(milliampere, milliampere > 1 ? 2 : 3);
});

it("0.5 mA at 132 V and 60 Hz is 10.05 nF", () => {
  expect((0.5e-3 / lineCurrentA(1, 132, 60)) * 1e9).toBeCloseTo(10.05, 2);
});
