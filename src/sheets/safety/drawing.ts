import { isLiveSet } from "../../ask/chassis";
import type { DraftingOf } from "../../ask/declare";
import type { Charge } from "../../ask/drawn/charge";
import type { Volts } from "../../ask/drawn/circuit";
import { ladder } from "../../ask/drawn/ladder";
import type { CircuitSketch, Sketch } from "../../ask/drawn/pictures";
import { timeToFall } from "../../physics/discharge";
import { hazardousDcV } from "../../standards/cautions";
import { printValue } from "../../units/print";
import type { ask, G } from "./ask";
import { filterOf } from "./solve";

/** Where the line comes in: fuse, switch, what goes to the chassis, and the transformer where the set has one. */
function lineSide(g: G, draft: DraftingOf<typeof ask>): CircuitSketch {
  const x = g.best;
  const volts: Volts = { ...draft.expect("ratedLine"), most: x.ratedLine * x.highLine, ac: true };
  const fromLine = isLiveSet(x.chassis);
  const over = g.verdict((_, y) => y.bypassCurrent > 0.5e-3) === "yes";
  const neutral = { end: "terminal", label: "neutral" } as const;
  const bypass =
    x.bypass > 0
      ? [
          [
            {
              kind: "capacitor",
              what: "line bypass",
              value: draft.value("bypass"),
              says: over ? `${g.about("bypassCurrent")} touch current` : "Y class only",
              mark: over ? "fit" : undefined,
            } as const,
          ],
        ]
      : [];
  return ladder({ id: "line-side", title: "Where the line comes in", common: draft.common }, [
    { label: "line", end: "terminal", volts },
    {
      series: { kind: "fuse", what: "fuse, slow", value: { text: `${g.about("fuseLow")} to ${g.about("fuseHigh")}` } },
    },
    {
      series: { kind: "switch", what: "switch" },
      down: [
        ...bypass,
        fromLine ? [{ kind: "block", what: "heaters and rectifier" }] : [{ kind: "coil", what: "transformer's primary", below: neutral }],
      ],
    },
  ]);
}

/** How the filter's charge goes once the switch is off, with its bleeder intact and open. */
function charge(g: G): Omit<Charge, "example"> {
  const { noLoadV, wholeF } = filterOf(g.best);
  const limitV = hazardousDcV.value;
  const levels = [3 / 4, 1 / 2, 1 / 4].map((t) => limitV + (noLoadV - limitV) * t).concat(limitV);
  const falls = levels.map((volts) => ({ volts, afterS: timeToFall(wholeF, g.best.bleeder, noLoadV, volts) }));
  return {
    kind: "charge",
    id: "charge",
    title: "What the filter holds after the switch is off",
    limitV,
    columns: [
      {
        label: "bleeder intact",
        fromV: noLoadV,
        falls: noLoadV > limitV ? falls : [],
        says: `by its ${printValue(g.best.bleeder, "resistance", g.best.bleeder / 5)}. Nobody knows whether it is intact: MEASURE.`,
      },
      { label: "bleeder open", fromV: noLoadV, falls: [], says: "stays for hours, and comes back a little after a discharge: MEASURE." },
    ],
  };
}

/**
 * Where the line comes in, and what the filter holds once it is off.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns circuit and columns
 * @source physics/discharge.ts
 */
export const drawingOf = (g: G, draft: DraftingOf<typeof ask>): readonly Sketch[] => [charge(g), lineSide(g, draft)];
