import { isLiveSet, isSafeToJoin } from "../../ask/chassis";
import { answers } from "../../ask/declare";
import type { Table } from "../../ask/drawings";
import { storedJ, timeToFall } from "../../physics/discharge";
import { hazardousDcV } from "../../standards/cautions";
import { touchLimitOf } from "../../standards/touch-current";
import { type Asked, ask, type G } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf } from "./findings";
import { partsOf } from "./parts";
import { filterOf, solve } from "./solve";
import theory from "./theory.md";

function headlineOf(g: G): string {
  const x = g.best;
  const chassis = isSafeToJoin(x.chassis)
    ? isLiveSet(x.chassis)
      ? "The chassis is live, behind a line isolation transformer: never earth it. "
      : ""
    : "The chassis counts as live: never earth it, and touch no part of it. ";
  const over = g.verdict((i, y) => y.bypassCurrent > touchLimitOf(i.touchLimit).ampere);
  const bypass =
    x.bypass > 0 && !g.isAssumed("bypass")
      ? `The line bypass alone passes ${g.about("bypassCurrent")}${over === "yes" ? `, over the ${x.touchLimit} allowed` : over === "open" ? `, perhaps over the ${x.touchLimit} allowed` : ""}. `
      : "";
  return `${chassis}${bypass}The filter can hold ${g.about("noLoad")} and ${g.about("stored")}: with the bleeder open it stays. Measure before touching, every time.`;
}

function nodesTable(x: Asked): Table {
  const { noLoadV, wholeF } = filterOf(x);
  const falls = timeToFall(wholeF, x.bleeder, noLoadV, hazardousDcV.value);
  const stays = "stays: MEASURE, discharge, MEASURE";
  return {
    id: "nodes",
    title: "What each filter capacitor holds, with nothing drawn at the highest line. A guide: measure before touching",
    columns: [
      { name: "node", dimension: "ratio" },
      { name: "volts", dimension: "voltage", u: 5 },
      { name: "energy", dimension: "energy", u: 0.3 },
      { name: "to 60 V, bleeder intact", dimension: "time", u: 0.3 },
      { name: "bleeder open", dimension: "ratio" },
      { name: "resistor or choke before the bleeder open", dimension: "ratio" },
    ],
    rows: (
      [
        ["first capacitor", x.firstCapacitance, stays],
        ["second capacitor", x.secondCapacitance, stays],
        ["third capacitor", x.thirdCapacitance, "falls by itself, the others stay"],
      ] as const
    ).map(([node, farad, cut]) => [node, noLoadV, storedJ(farad, noLoadV), falls, stays, cut]),
  };
}

export const safety = answers(ask, {
  theory,
  prepare: () => ({ axes: {}, solve }),
  drawing: drawingOf,
  headline: headlineOf,
  findings: findingsOf,
  parts: partsOf,
  tables: (x) => [nodesTable(x)],
});
