import { bad, good, type Read } from "../../units/issue";
import { own } from "../../units/own";
import { printValue } from "../../units/print";
import { colours, digits, multiplierOf, type Told } from "./colours";

/** Source: a standard's summary table, read. */
const ceramicTc: Readonly<Record<string, string>> = {
  black: "0 (NP0)",
  brown: "-30",
  red: "-80",
  orange: "-150",
  yellow: "-220",
  green: "-330",
  blue: "-470",
  violet: "-750",
  grey: "+30",
  white: "+500, or +100 on older parts",
};
/**
 * A capacitor told by its dots: ceramic, five colours.
 *
 * @param c colours by name, in order
 * @returns value, tolerance, and how else it may be read; or the place that is wrong
 * @source coefficients by a standard's summary table, read; tolerances from memory
 */
export function ceramicDots(c: readonly string[]): Read<Told> {
  if (c.length !== 5)
    return bad("dots", "wrong-number", `${c.length} colours`, "temperature coefficient, two digits, multiplier, tolerance");
  const tc = own(ceramicTc, c[0]);
  if (!tc) return bad("dot 1", "not-a-coefficient", c[0], `one of ${Object.keys(ceramicTc).join(", ")}`);
  const d = digits(c.slice(1, 3), "dot");
  if (!d.ok) return d;
  // grey is a hundredth here, white a tenth
  const m = c[3] === "grey" ? 0.01 : c[3] === "white" ? 0.1 : multiplierOf(c[3]);
  if (m === undefined) return bad("dot 4", "not-a-multiplier", c[3], `one of ${colours.join(", ")}`);
  const small = d.value * m <= 10;
  const tolerance: Readonly<Record<string, string>> = small
    ? { black: "±2 pF", brown: "±0.1 pF", green: "±0.5 pF", grey: "±0.25 pF", white: "±1 pF" }
    : { black: "±20 %", brown: "±1 %", red: "±2 %", green: "±5 %", white: "±10 %" };
  return good({
    value: printValue(d.value * m * 1e-12, "capacitance"),
    tolerance: `${own(tolerance, c[4]) ?? `unknown (${c[4]})`}, ${tc} ppm/K`,
    also: "Tolerances from memory.",
  });
}
