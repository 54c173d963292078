import { describe, expect, it } from "vitest";
import { capacitancePerLengthFPerM } from "./cable";

/** Printed to the integer pF/ft, so half a unit in the last place is the most that the source justifies. */
const tolerancePfPerFt = 0.5;
// Source: compiled coaxial-cable data sheet (types to MIL-C-17), columns Z0, velocity factor, pF/ft; read in a public copy.
describe("capacitance of a line", () => {
  it.each([
    ["RG-58A/U", 50, 0.66, 31],
    ["RG-8/U foam", 50, 0.78, 26],
    ["RG-59B/U", 75, 0.66, 21],
    ["RG-8A/U", 52, 0.66, 30],
  ])("gives the printed pF/ft for %s", (_, z0, vf, printed) => {
    expect(Math.abs(capacitancePerLengthFPerM(z0, vf) * 1e12 * 0.3048 - printed)).toBeLessThan(tolerancePfPerFt + 0.01);
  });
});
