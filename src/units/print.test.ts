import { describe, expect, it } from "vitest";
import { withBareDoubt } from "./bare";
import { dimensions } from "./dimensions";
import { printChance, printExact, printInterval, printKnown, printQuantity, printShort, printValue } from "./print";

describe("a zero", () => {
  it.each([
    ["resistance", "0 Ω"],
    ["voltage", "0 V"],
    ["capacitance", "0 F"],
    ["current", "0 A"],
    ["frequency", "0 Hz"],
    ["time", "0 s"],
    ["fraction", "0 %"],
  ] as const)("of %s is printed in the plain unit, however it is known", (dimension, text) => {
    for (const shown of [
      printValue(0, dimension),
      printValue(-0, dimension, 0.003),
      printValue(1e-18, dimension, 0.1),
      printShort(0, dimension),
      printExact(0, dimension),
      printInterval(0, 0, 0, dimension),
    ])
      expect(shown).toBe(text);
  });
  it("has no prefix in any dimension that has a unit without one", () => {
    for (const [name, d] of Object.entries(dimensions))
      if (name !== "sReading" && d.print.some((p) => p.factor === 1))
        expect(printValue(0, name as keyof typeof dimensions)).toBe(`0 ${d.si}`.trim().replace("0 °C", "0 °C").replace(/^0 °$/, "0°"));
  });
  it("near one keeps the unit of what is not rounded away", () => expect(printValue(0.004, "resistance", 0.0005)).toBe("4.0 mΩ"));
});

describe("an interval", () => {
  it("that a value is lost in is told in the unit of the doubt, with its digits", () => {
    expect(printInterval(928e-6, -9.376e-3, 11.672e-3, "current")).toBe("1 mA (-9 to 12)");
    expect(printInterval(0.3e-3, -8, 9, "voltage")).toBe("0 V (-8 to 9)");
  });
  it("well beside nothing keeps the unit of its value", () => {
    expect(printInterval(7.1e3, 6.8e3, 7.4e3, "frequency")).toBe("7.10 kHz (6.80 to 7.40)");
  });
  it("shows nothing finer than it was written: a bare value has its own digits, one with a doubt those that are known", () => {
    const bare = withBareDoubt(
      { value: 105e3, spread: { shape: "exact" }, origin: "measured", source: "" },
      { dimension: "resistance" },
      { text: "105k" },
    );
    expect(bare.spread.shape).toBe("normal");
    expect(printKnown(bare, "resistance")).toBe("105 kΩ");
    expect(printKnown({ ...bare, spread: { shape: "normal", u: 200 }, source: "bridge" }, "resistance")).toBe("105.00 kΩ");
  });
});

describe("a chance", () => {
  it.each([
    [0, "under 1 %"],
    [0.0099, "under 1 %"],
    [0.01, "1 %"],
    [0.528, "53 %"],
    [0.99, "99 %"],
    [0.994, "over 99 %"],
    [1, "over 99 %"],
  ])("of %d is told in whole per cent, and alike wherever it stands", (p, text) => {
    for (const shown of [
      printChance(p),
      printValue(p, "chance"),
      printValue(p, "chance", 0.004),
      printShort(p, "chance"),
      printInterval(p, p, p, "chance"),
      printInterval(p, 0, 1, "chance"),
      printQuantity(p, { shape: "normal", u: 0.02 }, "chance"),
    ])
      expect(shown).toBe(text);
  });
});
