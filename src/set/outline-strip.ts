import { type Quantity, tolerance } from "../units/quantity";
import { can, ladderFilter } from "./patterns/strips";
import type { DescribedStrip } from "./strip";

const qualities: Readonly<Record<string, { readonly q: number; readonly k: number }>> = {
  wide: { q: 72, k: 0.0178 },
  medium: { q: 108, k: 0.0105 },
  sharp: { q: 190, k: 0.0055 },
};

/**
 * An IF strip of so many cans of a kind, every value of it assumed.
 *
 * @param cans how many
 * @param quality of the outline's words
 * @param filter whether a ceramic ladder stands in it
 * @param ifHz as stated or assumed
 * @returns the strip
 * @source typical values, invented
 */
export function stripOf(cans: number, quality: string, filter: boolean, ifHz: Quantity): DescribedStrip {
  const { q, k } = qualities[quality];
  const c = quality === "sharp" ? 180e-12 : 112e-12;
  const sketch = (i: number) => {
    const last = i === cans - 1;
    return can({
      label: `T${i + 1}`,
      c: [c, c],
      // the diode loads the last can, so its own windings are usually a little lower
      q: last ? [q * 0.9, q * 0.9] : [q, q],
      k: last ? k * 1.2 : k,
      gm: i === 0 ? 0.4e-3 : 1.6e-3,
      rp: 700e3,
      cout: i === 0 ? 8e-12 : 6e-12,
      cin: last ? 10e-12 : 6e-12,
      load: last ? 220e3 : 1e6,
    });
  };
  return {
    // a figure typed without a tolerance keeps the usual one of cans that were set long ago
    intermediateFrequency:
      ifHz.spread.shape === "normal" ? ifHz : { ...ifHz, spread: tolerance(ifHz.origin === "stated" ? Math.max(500, halfOf(ifHz)) : 2000) },
    cans: Array.from({ length: cans }, (_, i) => sketch(i)),
    filter: filter ? ladderFilter(ifHz.value) : null,
  };
}
const halfOf = (q: Quantity): number => ("half" in q.spread ? q.spread.half : 0);
