import type { Bench } from "../../set/bench";
import { withBareDoubt } from "../../units/bare";
import { parseQuantity } from "../../units/parse";
import type { Quantity } from "../../units/quantity";

/**
 * A figure of the safety record, the one going out before the one coming in: it stands before whatever else the job stores of it.
 *
 * @param field heading on the card
 * @param dimension of the figure
 * @param unit of a bare figure there, as the heading shows it
 * @returns where the quantity comes from; undefined where neither card has it
 * @source house rule
 */
export const onRecord =
  (field: string, dimension: "resistance" | "current", unit: string) =>
  (bench: Bench): Quantity | undefined => {
    for (const [id, said] of [
      ["safety-out", "going out"],
      ["safety-in", "coming in"],
    ] as const) {
      const text = bench.cardField(id, field);
      if (!text) continue;
      const figure = /^[\d.,\s]+$/.test(text) ? `${text} ${unit}` : text;
      const q = parseQuantity(figure, dimension, field);
      if (q.ok)
        return withBareDoubt(
          { value: q.value.value, spread: q.value.spread, origin: "measured", source: `safety record, ${said}` },
          { dimension, bare: "reading" },
          { text: figure },
        );
    }
    return undefined;
  };
export const touchOneOnRecord = onRecord("Touch current one way, mA", "current", "mA");
export const touchOtherOnRecord = onRecord("Touch current other way, mA", "current", "mA");
