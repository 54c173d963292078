import { expect, it } from "vitest";
import { iaruS9Dbm, iaruSMeterDb } from "./smeter";

// Source: IARU Region 1 HF Managers Handbook V9.0 4.1.3: S9 = -73 dBm (50 uV in 50 ohm), 6 dB a unit; S1 = -121 dBm.
it("puts S1 at -121 dBm and S9 at 50 uV in 50 ohm", () => {
  expect(iaruS9Dbm + iaruSMeterDb(1)).toBe(-121);
  expect(Math.abs(Math.sqrt(1e-3 * 10 ** (iaruS9Dbm / 10) * 50) * 1e6 - 50)).toBeLessThan(0.5);
});
