import type { QuantityInput } from "../../ask/inputs";
import type { Bench } from "../../set/bench";
import { tubePoints, tubeTableSource } from "../../standards/receiving-tubes";
import { exact, type Quantity } from "../../units/quantity";
import { type StageHere, stageHere, usualOf } from "./stage-here";

type Chosen = Readonly<Record<string, string>>;
type Dimension = QuantityInput["dimension"];
const bare = (q: Quantity): Quantity => ({ ...q, spread: exact });

/** A figure of the tube's row, else what was kept at the stage. The tolerances are inputs of their own, so no figure brings a spread. */
export const ofTube = (
  name: string,
  dimension: Dimension,
  meaning: string,
  of: (p: (typeof tubePoints)[number]) => number,
  range: object = {},
) =>
  ({
    kind: "quantity",
    dimension,
    ...range,
    meaning,
    howMeasured: "tube manual",
    from: (bench: Bench, chosen: Chosen) => {
      const kept = bench.quantity(`${bench.at}.${name}`);
      if (kept) return bare(kept);
      const p = tubePoints.find((t) => t.type === chosen.tubeType);
      return p && { value: of(p), spread: exact, origin: "stated" as const, source: `${p.type}: ${tubeTableSource} (${p.seen})` };
    },
  }) as const satisfies QuantityInput;

type Usual = keyof ReturnType<typeof usualOf>;
/** The card's electrode whose ohms give a figure, and the figure of the stage. */
const places: Readonly<Record<Usual, { readonly of: (h: StageHere) => number; readonly node?: "plate" | "screen" | "cathode" | "grid" }>> =
  {
    supply: { of: (h) => h.stage.supplyV },
    plateFeed: { of: (h) => h.stage.plateOhm, node: "plate" },
    screenFeed: { of: (h) => h.stage.screenOhm, node: "screen" },
    cathodeResistor: { of: (h) => h.stage.cathodeOhm, node: "cathode" },
    gridResistor: { of: (h) => h.stage.gridOhm, node: "grid" },
    returnVolts: { of: (h) => h.stage.returnV },
    beforeVolts: { of: (h) => h.stage.beforeV },
  };
/** A figure of the stage: what was kept, else what its card and chart give, else what is usual. */
export const ofStage = (name: Usual, dimension: Dimension, meaning: string, howMeasured: string, range: object = {}) =>
  ({
    kind: "quantity",
    dimension,
    ...range,
    meaning,
    howMeasured,
    from: (bench: Bench, chosen: Chosen) => {
      const kept = bench.quantity(`${bench.at}.${name}`);
      if (kept) return bare(kept);
      const here = stageHere(bench, chosen);
      const { of, node } = places[name];
      const written = node !== undefined && here.onCard[node] !== undefined;
      const [, usual] = usualOf(bench, chosen)[name];
      const value = of(here);
      if (written || here.charted)
        return {
          value,
          spread: exact,
          origin: "stated" as const,
          source: written ? "ohms on the card of the voltage chart" : "what gives this stage's volts on its chart",
        };
      return { value, spread: exact, origin: "assumed" as const, source: usual };
    },
  }) as const satisfies QuantityInput;
type Law = StageHere["stage"]["tube"];
/** What this stage's sound tube is against the manual's law, as the chart has it. */
export const ofTubeNow = (meaning: string, howMeasured: string, of: (now: Law, manual: Law) => number) =>
  ({
    kind: "quantity",
    dimension: "ratio",
    positive: true,
    max: 100,
    meaning,
    howMeasured,
    from: (bench: Bench, chosen: Chosen) => {
      const { charted, manual, stage } = stageHere(bench, chosen);
      if (!charted || !manual) return undefined;
      return {
        value: of(stage.tube, manual),
        spread: exact,
        origin: "stated" as const,
        source: "what gives this stage's volts on its chart",
      };
    },
    assumed: { value: 1, spread: exact, source: "as the manual has it" },
  }) as const satisfies QuantityInput;
export const tolerance = (meaning: string, howMeasured: string, value: number, source: string) =>
  ({
    kind: "quantity",
    dimension: "fraction",
    positive: true,
    max: 0.5,
    meaning,
    howMeasured,
    assumed: { value, spread: exact, source },
  }) as const satisfies QuantityInput;
