import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { spokenReading } from "./spoken";

describe("a reading as it is said", () => {
  it.each([
    ["two hundred and fifty volts", "250 V"],
    ["two fifty", "250"],
    ["one eighty five volts", "185 V"],
    ["one hundred five", "105"],
    ["250 volts", "250 V"],
    ["minus 3.2", "-3.2"],
    ["negative two point five volts", "-2.5 V"],
    ["point three", "0.3"],
    ["zero", "0"],
    ["one point oh five megohms", "1.05 MΩ"],
    ["forty-seven kilohms", "47 kΩ"],
    ["470 k ohms", "470 kΩ"],
    ["four thousand seven hundred ohms", "4700 Ω"],
    ["12,000 ohms", "12000 Ω"],
    ["six point three volts", "6.3 V"],
    ["thirty five milliamps", "35 mA"],
  ])("%s is %s", (said, read) => expect(spokenReading(said)).toBe(read));
  it.each(["", "volts", "plate", "two and a bit", "250 or 260", "one point two point three", "twenty thirty", "next"])(
    "%j holds no one figure, and is not guessed at",
    (said) => expect(spokenReading(said)).toBe(undefined),
  );
  it("any figure that a recogniser writes in digits stays what it is", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 99_999 }), fc.integer({ min: 0, max: 99 }), fc.boolean(), (n, d, minus) => {
        const text = `${minus ? "-" : ""}${n}.${d}`;
        expect(spokenReading(`${text} volts`)).toBe(`${text} V`);
      }),
    );
  });
});
