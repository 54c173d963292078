import { bad, good, type Read } from "../units/issue";
import { parseQuantity } from "../units/parse";
import type { Quantity } from "../units/quantity";
import type { SetDescription } from "./describe";

const linesOf = (text: string): readonly (readonly [number, string])[] =>
  text
    .split(/\n|;/)
    .map((l, i) => [i + 1, l.trim()] as const)
    .filter(([, l]) => l !== "");

/**
 * Bands as they were typed.
 *
 * @param text one a line
 * @param from where it comes from
 * @returns the bands, lettered in their order; or the line that is none
 * @source house format
 */
export function readBands(text: string, from: Pick<Quantity, "origin" | "source">): Read<SetDescription["bands"]> {
  const out: SetDescription["bands"] = [];
  for (const [line, said] of linesOf(text)) {
    const path = `bands line ${line}`;
    const m = /^([\d.,]+)\s*([a-z/]*)\s*(?:-|–|to)\s*([\d.,]+)\s*([a-z/]+)\s*(.*)$/i.exec(said);
    if (!m) return bad(path, "not-a-band", said, "from - to with a unit, such as 1.5 - 4.3 MHz or 7 - 7.3 MHz spread");
    const words = m[5]
      .toLowerCase()
      .split(/[\s,]+/)
      .filter(Boolean);
    const strange = words.find((w) => !["spread", "bandspread", "below", "above"].includes(w));
    if (strange) return bad(path, "not-a-band", strange, "spread, below or nothing after the band");
    const low = parseQuantity(`${m[1]} ${m[2] || m[4]}`, "frequency", path);
    const high = parseQuantity(`${m[3]} ${m[4]}`, "frequency", path);
    if (!low.ok) return low;
    if (!high.ok) return high;
    if (!(low.value.value > 0 && high.value.value > low.value.value && high.value.value < 200e6))
      return bad(path, "not-a-band", said, "a lower and then a higher frequency, above 0 and under 200 MHz");
    const spread = words.some((w) => w.endsWith("spread"));
    const q = (value: number): Quantity => ({ value, spread: { shape: "exact" }, ...from });
    out.push({
      id: String.fromCharCode(97 + out.length),
      label: said.replace(/\s*\b(below|above)\b/gi, "").replace(/\bspread\b/i, "bandspread"),
      low: q(low.value.value),
      high: q(high.value.value),
      oscillator: words.includes("below") ? "below" : "above",
      spread,
    });
  }
  if (out.length === 0 || out.length > 26) return bad("bands", "not-a-band", text, "one to 26 bands, one a line");
  return good(out);
}
