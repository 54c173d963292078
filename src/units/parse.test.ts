import { describe, expect, it } from "vitest";
import type { Dimension } from "./dimensions";
import { parseQuantity } from "./parse";

const value = (text: string, d: Dimension) => {
  const r = parseQuantity(text, d);
  return r.ok ? r.value.value : r.issues[0].code;
};
const written: [string, Dimension, number][] = [
  ["455 kc", "frequency", 455e3],
  ["7.1 Mc", "frequency", 7.1e6],
  ["7.1 mc/s", "frequency", 7.1e6],
  ["120 cps", "frequency", 120],
  ["455kHz", "frequency", 455e3],
  ["22 mmf", "capacitance", 22e-12],
  ["22 µµF", "capacitance", 22e-12],
  ["22 μμF", "capacitance", 22e-12],
  ["0.05 mfd", "capacitance", 0.05e-6],
  ["8 MFD", "capacitance", 8e-6],
  [".01 uf", "capacitance", 1e-8],
  ["4n7", "capacitance", 4.7e-9],
  ["1 jar", "capacitance", 1e-6 / 900],
  ["4k7", "resistance", 4700],
  ["4K7", "resistance", 4700],
  ["470K", "resistance", 470e3],
  ["R47", "resistance", 0.47],
  ["2M2", "resistance", 2.2e6],
  ["1 megohm", "resistance", 1e6],
  ["10 MEG", "resistance", 1e7],
  ["500,000", "resistance", 5e5],
  ["500,000 ohms", "resistance", 5e5],
  ["330", "resistance", 330],
  ["3 ft", "length", 0.9144],
  ["90 cm", "length", 0.9],
  ["1.5 m", "length", 1.5],
  ["12 µV", "voltage", 12e-6],
  ["S9+20", "sReading", 20],
  ["S7", "sReading", -12],
  ["-73 dBm", "dbm", -73],
  ["−73 dBm", "dbm", -73],
  ["5%", "ratio", 0.05],
  ["2000 µmho", "conductance", 2e-3],
  ["4400 umho", "conductance", 4.4e-3],
  ["2 mA/V", "conductance", 2e-3],
  ["80 MA", "current", 0.08],
  ["0,05 µF", "capacitance", 5e-8],
  ["31 pF/ft", "capacitancePerLength", 31e-12 / 0.3048],
  ["2.5 mhy", "inductance", 2.5e-3],
  ["40 metres", "frequency", 299792458 / 40],
];
describe("reads what the trade writes", () => {
  it.each(written)("%s as a %s", (text, d, si) => expect(value(text, d)).toBeCloseTo(si, 12 - Math.ceil(Math.log10(Math.abs(si) + 1e-18))));
  it.each([
    ["110 pF ±5%", "capacitance", { shape: "rectangular", half: 5.5e-12 }],
    ["110 pF 5%", "capacitance", { shape: "rectangular", half: 5.5e-12 }],
    ["455 kHz ±2 kHz", "frequency", { shape: "rectangular", half: 2000 }],
    ["455 ±2 kHz", "frequency", { shape: "rectangular", half: 2000 }],
    ["6.2 ±0.6 µV tri", "voltage", { shape: "triangular", half: 0.6e-6 }],
    ["100 ±5%", "frequency", "no-unit"],
    ["455 kHz ±2", "frequency", { shape: "rectangular", half: 2000 }],
    ["455 kHz +/- 2 kHz tri", "frequency", { shape: "triangular", half: 2000 }],
    ["455 kHz u 0.2 kHz", "frequency", { shape: "normal", u: 200 }],
    ["0.66 ±0.02", "ratio", { shape: "rectangular", half: 0.02 }],
  ] as [string, Dimension, unknown][])("%s with its spread", (text, d, spread) => {
    const r = parseQuantity(text, d);
    if (typeof spread === "string") return expect(r.ok ? "" : r.issues[0].code).toBe(spread);
    const got = r.ok ? r.value.spread : { shape: "none" };
    const size = (s: object) => Object.values(s).find((x) => typeof x === "number") as number;
    expect(got.shape).toBe((spread as { shape: string }).shape);
    expect(size(got) / size(spread as object)).toBeCloseTo(1, 12);
  });
});
describe("refuses what can be read in two ways, naming both", () => {
  it.each([
    ["1.5M", "resistance", "1.5 kΩ", "1.5 MΩ"],
    ["500M", "resistance", "500 kΩ", "500 MΩ"],
    ["0.05 mF", "capacitance", "0.05 µF", "0.05 mF (millifarad)"],
    ["8 m", "capacitance", "8 µF", "mF"],
    ["40 m", "frequency", "40 MHz", "40 metres"],
    ["47", "capacitance", "47 µF", "47 pF"],
    ["1,500 pF", "capacitance", "1500", "1.500"],
  ] as [string, Dimension, string, string][])("%s as a %s", (text, d, one, other) => {
    const r = parseQuantity(text, d, "field");
    expect(r.ok).toBe(false);
    if (!r.ok) {
      expect(r.issues[0].path).toBe("field");
      expect(r.issues[0].expected).toContain(one);
      expect(r.issues[0].expected).toContain(other);
    }
  });
  it("and takes a stated legend", () => {
    expect(parseQuantity("1.5M", "resistance", "", { resistorM: "thousand" })).toMatchObject({ ok: true, value: { value: 1500 } });
    expect(parseQuantity("0.05 mF", "capacitance", "", { capacitorM: "micro" })).toMatchObject({ ok: true, value: { value: 5e-8 } });
    expect(parseQuantity(".01", "capacitance", "", { bareCapacitor: "usual" })).toMatchObject({ ok: true, value: { value: 1e-8 } });
    expect(parseQuantity("270", "capacitance", "", { bareCapacitor: "usual" })).toMatchObject({ ok: true, value: { value: 270e-12 } });
  });
  it.each([
    ["455 pF", "frequency"],
    ["455", "frequency"],
    ["", "length"],
    ["abc", "voltage"],
    ["S9+20", "dbm"],
    ["1e999 V", "voltage"],
    ["S7+3", "sReading"],
    ["5 V ±-2 V", "voltage"],
  ] as [string, Dimension][])("%s as a %s", (text, d) => {
    expect(parseQuantity(text, d).ok).toBe(false);
  });
});

describe("a figure that its unit takes beyond all numbers", () => {
  it.each([
    ["1e308 kV", "voltage"],
    ["121 V u 1e308 kV", "voltage"],
    ["121 V ±1e308 kV", "voltage"],
    ["1e308 V ±1000 %", "voltage"],
    [`${"9".repeat(100)}e299 pF`, "capacitance"],
  ] as const)("is refused: %s", (text, d) => expect(value(text, d)).toBe("not-finite"));
  it.each(["constructor", "__proto__", "toString"])("and a unit is never taken from elsewhere: 5 %s", (unit) =>
    expect(value(`5 ${unit}`, "voltage")).toBe("wrong-unit"),
  );
});
