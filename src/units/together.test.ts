import { describe, expect, it } from "vitest";
import { together } from "./together";

describe("a number and its unit", () => {
  it.each([
    ["66.5 V where this meter should read 103 V", "66.5\u00a0V where this meter should read 103\u00a0V"],
    ["about 18 kΩ (22 %), 0.02 µF, 455 kHz", "about 18\u00a0kΩ (22\u00a0%), 0.02\u00a0µF, 455\u00a0kHz"],
    ["10 m and 15 to 35 min", "10\u00a0m and 15 to 35\u00a0min"],
  ])("stay on one line: %s", (text, expected) => expect(together(text)).toBe(expected));
  it.each(["row 3 Volts", "1 of 13", "step 26 Marker", "pin 5 VTVM"])("and nothing else does: %s", (text) =>
    expect(together(text)).toBe(text),
  );
});
