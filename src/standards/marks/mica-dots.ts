import { bad, good, type Read } from "../../units/issue";
import { printValue } from "../../units/print";
import { digitOf, digits, multiplied, type Told } from "./colours";

const micaTolerance = (c: string | undefined): string =>
  c === undefined || c === "none"
    ? "±20 %"
    : c === "gold"
      ? "±5 %"
      : c === "silver"
        ? "±10 %"
        : digitOf(c) > 0
          ? `±${digitOf(c)} %`
          : "±20 %";
const micaVolts = (c: string | undefined): string =>
  c === undefined || c === "none" ? "500 V" : c === "gold" ? "1000 V" : c === "silver" ? "2000 V" : `${100 * digitOf(c)} V`;
/**
 * A capacitor told by its dots: mica, three, five or six of them.
 *
 * @param c colours by name, in order
 * @returns value, tolerance, and how else it may be read; or the place that is wrong
 * @source three dots and the six-dot significant figures read; the order of the lower row, and five dots, from memory
 */
export function micaDots(c: readonly string[]): Read<Told> {
  if (c.length === 3 || c.length === 5) {
    const d = digits(c.slice(0, 2), "dot");
    if (!d.ok) return d;
    const v = multiplied(d.value, c[2], "dot 3");
    if (!v.ok) return v;
    return good({
      value: printValue(v.value * 1e-12, "capacitance"),
      tolerance: `${micaTolerance(c[4])}, ${micaVolts(c[3])}`,
      also: "Read along the arrow.",
    });
  }
  if (c.length !== 6)
    return bad(
      "dots",
      "wrong-number",
      `${c.length} dots`,
      "three, five or six: top row from left to right, then the bottom row from right to left",
    );
  if (["black", "white", "silver"].includes(c[0])) {
    // the newer code: what it is, two digits; multiplier, tolerance, characteristic
    const d = digits(c.slice(1, 3), "dot");
    if (!d.ok) return d;
    const v = multiplied(d.value, c[3], "dot 4");
    if (!v.ok) return v;
    const kind = c[0] === "silver" ? "paper (a silver first dot)" : "mica";
    const alternative = digits(c.slice(0, 3), "dot");
    const old = alternative.ok ? multiplied(alternative.value, c[3], "dot 4") : undefined;
    return good({
      value: printValue(v.value * 1e-12, "capacitance"),
      tolerance: `${c[4] === "red" ? "±2 %" : micaTolerance(c[4])}, ${kind}`,
      also:
        old?.ok && c[0] !== "silver"
          ? `Under the older code, in which the first dot is a digit too, it would be ${printValue(old.value * 1e-12, "capacitance")}: a bridge will tell.`
          : "",
    });
  }
  const d = digits(c.slice(0, 3), "dot");
  if (!d.ok) return d;
  const v = multiplied(d.value, c[3], "dot 4");
  if (!v.ok) return v;
  return good({ value: printValue(v.value * 1e-12, "capacitance"), tolerance: `${micaTolerance(c[4])}, ${micaVolts(c[5])}`, also: "" });
}
