import type { Bench } from "../../set/bench";
import { parseQuantity } from "../../units/parse";
import { exact, type Quantity } from "../../units/quantity";

/** A figure of the safety record, the one going out before the one coming in; undefined where neither has it. */
const onCard =
  (field: string, dimension: "resistance" | "current", unit: string) =>
  (bench: Bench): Quantity | undefined => {
    for (const [id, said] of [
      ["safety-out", "going out"],
      ["safety-in", "coming in"],
    ] as const) {
      const text = bench.cardField(id, field);
      if (!text) continue;
      const q = parseQuantity(/^[\d.,\s]+$/.test(text) ? `${text} ${unit}` : text, dimension, field);
      if (q.ok) return { value: q.value.value, spread: exact, origin: "measured", source: `safety record, ${said}` };
    }
    return undefined;
  };
/** What the safety record says, as an input of a sheet. */
export const recorded = (dimension: "resistance" | "current", meaning: string, howMeasured: string, field: string, unit: string) =>
  ({
    kind: "quantity",
    dimension,
    min: 0,
    meaning,
    howMeasured,
    from: onCard(field, dimension, unit),
    optional: true,
  }) as const;
export const touchOneInput = recorded(
  "current",
  "touch current with the plug one way round",
  "meter of 1.5 to 2 kΩ from the chassis to earth, set on; by somebody trained for it",
  "Touch current one way, mA",
  "mA",
);
export const touchOtherInput = recorded(
  "current",
  "touch current with the plug the other way round",
  "meter of 1.5 to 2 kΩ from the chassis to earth, set on, the plug turned; by somebody trained for it",
  "Touch current other way, mA",
  "mA",
);
