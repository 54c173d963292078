import { describe, expect, it } from "vitest";
import { leakageLimitA } from "./electrolytics";
import { bodyOhm, impulseVOf } from "./touch-current";

/** Source: JAN-C-62 and makers' rules as amateurs and makers' sheets quote them (read); IEC 60384-14; IEC 479-1, table 1, as quoted. */
describe("leakage rules", () => {
  it.each([
    ["JAN-C-62", 20, 450, 1.1, "read"],
    ["JAN-C-62", 20, 250, 0.7, "read"],
    ["plain foil", 16, 450, 1.08, "read as about 1 mA"],
    ["modern", 2200, 35, 0.77, "maker's sheet, read"],
    ["modern", 47, 40, 0.0188, "maker's sheet, read"],
  ])("%s: %f uF at %f V may leak %f mA (%s)", (rule, microfarad, volts, milliampere) => {
    expect(leakageLimitA(rule as string, Number(microfarad) * 1e-6, volts as number) * 1000).toBeCloseTo(milliampere as number, 4);
  });
});

describe("safety", () => {
  it("a 2.2 uF X2 part stands 1685 V of impulse (IEC 60384-14, read)", () => {
    expect(impulseVOf("X2", 2.2e-6)).toBeCloseTo(1685, 0);
    expect(impulseVOf("Y2", 4.7e-9)).toBe(5000);
  });
  it("half of people have less than 1625 ohm at 125 V, one in twenty less than 1125 (IEC 479-1 table 1 as quoted, read)", () => {
    expect(bodyOhm.find((b) => b.volts === 125)).toMatchObject({ half: 1625, oneInTwenty: 1125 });
  });
});
