import { expect, it } from "vitest";
import { normalCdf } from "./normal";

/** Source: Abramowitz and Stegun, Handbook of Mathematical Functions, table 26.1. */
it.each([
  [0, 0.5],
  [1, 0.841344746],
  [1.96, 0.975002105],
  [2.3263478740408408, 0.99],
  [-3, 0.001349898],
])("the normal law at %f is %f", (x, p) => expect(Math.abs(normalCdf(x) - p)).toBeLessThan(1.5e-7));
