import { describe, expect, it } from "vitest";
import { meterFrom, meterKindFrom, meterKinds } from "./meters";

/** Words as people write them on a card; what each kind draws is in the table of kinds. */
describe("a meter as it is written", () => {
  it.each([
    ["20 kΩ/V", { ohmPerVolt: 20e3 }],
    ["20,000 ohms per volt", { ohmPerVolt: 20e3 }],
    ["1000 ohm/V on 250 V", { ohmPerVolt: 1e3 }],
    ["0,5 kohm / V", { ohmPerVolt: 500 }],
    ["50k/V", { ohmPerVolt: 50e3 }],
    ["10 Mohm", { ohm: 10e6 }],
    ["1.5 meg", { ohm: 1.5e6 }],
    ["my VTVM", { ohm: 11e6 }],
    ["DMM", { ohm: 10e6 }],
  ])("%s is told by what it draws", (said, is) => expect(meterFrom(said)).toEqual(is));
  it.each(["the old one", "gizmo", "10 mV range", "250 V", ""])("%s names no meter", (said) => expect(meterFrom(said)).toBeUndefined());
  it("knows each kind of the table by its own name, and none for a load that the table has not", () => {
    for (const k of meterKinds) expect(meterKindFrom(k.name)).toBe(k.name);
    expect(meterKindFrom("50 kΩ/V")).toBeUndefined();
  });
});
