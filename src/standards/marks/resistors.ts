import { bad, good, type Read } from "../../units/issue";
import { own } from "../../units/own";
import { printValue } from "../../units/print";
import { digits, multiplied, type Told } from "./colours";

/** Source: IEC 60062, from memory; older parts: none 20 %. */
const resistorTolerance: Readonly<Record<string, string>> = {
  brown: "±1 %",
  red: "±2 %",
  green: "±0.5 %",
  blue: "±0.25 %",
  violet: "±0.1 %",
  gold: "±5 %",
  silver: "±10 %",
  none: "±20 %",
};

/**
 * A resistor told by its bands.
 *
 * @param c colours by name, in order
 * @returns value, tolerance, and how else it may be read; or the place that is wrong
 * @source IEC 60062, from memory
 */
export function bands(c: readonly string[]): Read<Told> {
  if (c.length < 3 || c.length > 6) return bad("bands", "wrong-number", `${c.length} bands`, "three to six colours");
  const count = c.length >= 5 ? 3 : 2;
  const d = digits(c.slice(0, count), "band");
  if (!d.ok) return d;
  const v = multiplied(d.value, c[count], `band ${count + 1}`);
  if (!v.ok) return v;
  const tolerance = own(resistorTolerance, c[count + 1] ?? "none") ?? `unknown (${c[count + 1]})`;
  return good({
    value: printValue(v.value, "resistance"),
    tolerance,
    also: c.length === 5 ? "On an old four-band part a fifth band may give the failure rate: then only the first two are digits." : "",
  });
}

/**
 * A resistor told by body, end and dot.
 *
 * @param c colours by name, in order
 * @returns value, tolerance, and how else it may be read; or the place that is wrong
 * @source practice of the 1930s
 */
export function bodyEndDot(c: readonly string[]): Read<Told> {
  if (c.length < 3 || c.length > 4)
    return bad("colours", "wrong-number", `${c.length} colours`, "body, end, dot, and perhaps the other end (tolerance)");
  const d = digits(c.slice(0, 2), "colour");
  if (!d.ok) return d;
  const v = multiplied(d.value, c[2], "dot");
  if (!v.ok) return v;
  return good({
    value: printValue(v.value, "resistance"),
    tolerance: own(resistorTolerance, c[3] ?? "none") ?? "±20 %",
    also: "If you see no dot, it is the colour of the body.",
  });
}
