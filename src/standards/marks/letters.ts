import { bad, good, type Read } from "../../units/issue";
import { printValue } from "../../units/print";
import type { Told } from "./colours";

/** Source: letter codes of older tubular ceramics, read. */
const ceramicLetter: Readonly<Record<string, string>> = {
  W: "+470",
  A: "+100",
  B: "+30",
  C: "0 (NP0)",
  D: "-30",
  E: "-50",
  F: "-80",
  G: "-150",
  H: "-220",
  J: "-330",
  K: "-470",
  L: "-560",
  N: "-750",
};
/** Source: IEC 60062, from memory. */
const letterTolerance: Readonly<Record<string, string>> = {
  B: "±0.1 pF",
  C: "±0.25 pF",
  D: "±0.5 pF",
  F: "±1 %",
  G: "±2 %",
  H: "±2.5 %",
  J: "±5 %",
  K: "±10 %",
  M: "±20 %",
  N: "±30 %",
  Z: "-20 +80 %",
  P: "-0 +100 %",
  S: "-20 +50 %",
};

/**
 * A part told by a code of digits and letters: 4K7J, 103M, 470JN.
 *
 * @param said the code; what stands behind it, such as volts, is not looked at
 * @returns value, tolerance, and how else it may be read; or what a code looks like
 * @source IEC 60062 from memory; 470JN read
 */
export function letters(said: string): Read<Told> {
  const [text = ""] = said.trim().split(/\s+/);
  const three = /^(\d\d)(\d)([A-Z]?)$/.exec(text);
  if (three && !/^\d\d0/.test(text))
    return good({
      value: printValue(Number(three[1]) * 10 ** Number(three[2]) * 1e-12, "capacitance"),
      tolerance: letterTolerance[three[3]] ?? "not said",
      also:
        three[3] !== "" && "KM".includes(three[3])
          ? `As a resistor it would be ${three[1]}${three[2]} ${three[3] === "K" ? "kΩ" : "MΩ"}.`
          : "",
    });
  const rkm = /^(\d+)([RKMGpnu])(\d*)([A-Z]?)$/.exec(text);
  if (rkm) {
    const [, whole, unit, rest, t] = rkm;
    const factor = { R: 1, K: 1e3, M: 1e6, G: 1e9, p: 1e-12, n: 1e-9, u: 1e-6 }[unit] as number;
    const v = Number(`${whole}.${rest || 0}`) * factor;
    return good({
      value: printValue(v, "RKMG".includes(unit) ? "resistance" : "capacitance"),
      tolerance: letterTolerance[t] ?? "not said",
      also: unit === "M" ? "On some old American prints M is a thousand." : "",
    });
  }
  const plain = /^(\d+)([A-Z])([A-Z])$/.exec(text);
  if (plain && ceramicLetter[plain[3]])
    return good({
      value: printValue(Number(plain[1]) * 1e-12, "capacitance"),
      tolerance: `${letterTolerance[plain[2]] ?? "not said"}, ${ceramicLetter[plain[3]]} ppm/K`,
      also: "",
    });
  const round = /^(\d\d)0([A-Z])$/.exec(text);
  if (round)
    return good({
      value: printValue(Number(round[1]) * 1e-12, "capacitance"),
      tolerance: letterTolerance[round[2]] ?? "not said",
      also: `As plain picofarads it would be ${printValue(Number(`${round[1]}0`) * 1e-12, "capacitance")}: a bridge will tell.`,
    });
  const decimal = /^0?\.(\d+)$/.exec(text);
  if (decimal)
    return good({
      value: printValue(Number(`0.${decimal[1]}`) * 1e-6, "capacitance"),
      tolerance: "not said",
      also: "A bare decimal on an old capacitor is microfarads.",
    });
  return bad("code", "not-a-code", said, "a code such as 4K7J, 4n7K, 103M or 470JN");
}
