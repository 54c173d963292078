import type { Bench } from "../../set/bench";
import type { Dimension } from "../../units/dimensions";
import { printValue } from "../../units/print";
import { type Quantity, standardUncertainty } from "../../units/quantity";
import { isLiveSet } from "../chassis";
import type { Resolved } from "../resolved";
import type { Figure } from "../results";
import { aboutFigure } from "../say";
import type { End, Shown, Volts } from "./circuit";

/** What a sheet draws with: values of the set and of the answer as they are shown, each knowing whether anybody has looked. */
export interface Values {
  readonly bench: Bench;
  /** an input, or a leaf of a model such as `strip.can1.primaryCapacitance`; nothing where it was not read */
  readonly value: (path: string) => Shown | undefined;
  /** a result's interval, or an input with its doubt, as the volts to expect */
  readonly expect: (name: string) => Pick<Volts, "expected" | "assumed">;
  /** what the common side of this set is drawn as: a live chassis is never the frame of an isolated one, and never earth */
  readonly common: End;
}
export interface Drafting<N extends string = string> extends Values {
  readonly result: (name: N) => Shown | undefined;
}

/** Of parts and volts, three figures are more than a hand needs; a frequency has all of its own. */
const coarse: readonly Dimension[] = ["resistance", "capacitance", "inductance", "voltage", "current", "length", "power"];
function withKnown({ value, spread, origin }: Quantity, dimension: Dimension): string {
  if (spread.shape === "normal" && origin !== "assumed") return printValue(value, dimension, standardUncertainty(spread));
  return printValue(origin === "assumed" || coarse.includes(dimension) ? Number(value.toPrecision(3)) : value, dimension);
}
/** An interval of 95 % of a quantity as it is stated. */
const doubtOf = ({ value, spread }: Pick<Quantity, "value" | "spread">): number =>
  spread.shape === "exact" ? 0 : spread.shape === "normal" ? 2 * spread.u : Math.abs(value) === 0 ? 0 : spread.half;

/** Whether no set is described at all: then nothing of an answer is this set's. */
export const isNoSet = (bench: Bench): boolean => bench.stageKinds().length === 0;
interface From {
  readonly bench: Bench;
  readonly inputs: Resolved;
  readonly figures: Readonly<Record<string, Figure>>;
}
/**
 * What a sheet draws with.
 *
 * @param from set, inputs and results of the answer
 * @returns values as they are shown
 * @source house frame
 */
export function draftingOf({ bench, inputs, figures }: From): Drafting {
  const found = (path: string) => inputs.quantities.find((q) => q.path === path);
  const noSet = isNoSet(bench);
  const marked = (text: string, assumed: boolean): Shown => (assumed ? { text, assumed: true } : { text });
  const chassis = String(inputs.plain.chassis ?? bench.choice("chassis") ?? "unstated");
  return {
    bench,
    value: (path) => {
      const q = found(path);
      return q && marked(withKnown(q.quantity, q.dimension), q.quantity.origin === "assumed");
    },
    result: (name) => {
      const f = figures[name];
      return f && f.low !== null ? marked(aboutFigure(f), noSet) : undefined;
    },
    expect: (name) => {
      const f = figures[name];
      if (f)
        return f.low === null || f.high === null ? {} : { expected: { low: f.low, high: f.high }, ...(noSet ? { assumed: true } : {}) };
      const q = found(name)?.quantity;
      if (!q) return {};
      const doubt = doubtOf(q);
      return { expected: { low: q.value - doubt, high: q.value + doubt }, ...(q.origin === "assumed" ? { assumed: true as const } : {}) };
    },
    common: isLiveSet(chassis) ? "live-chassis" : "chassis",
  };
}
