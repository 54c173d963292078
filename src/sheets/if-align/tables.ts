import type { Table } from "../../ask/drawings";
import type { Asked } from "./ask";
import { couplingOf, loadFor } from "./solve";

const word = (name: string) => ({ name, dimension: "ratio" as const });

/**
 * The procedure can by can, the last one first.
 *
 * @param x plain inputs, SI
 * @returns turn, what, k Q, resistor in ohm (NaN where none is wanted), how
 * @source lessons and handbooks on alignment (read); common practice
 */
export function procedure({ strip }: Asked): Table {
  const f = strip.intermediateFrequency;
  const none = Number.NaN;
  const cans = strip.cans
    .map((can, i) => ({ can, name: `can ${i + 1}`, at: i === 0 ? "mixer grid" : `grid before can ${i + 1}` }))
    .reverse();
  return {
    id: "order",
    title: "The procedure for these cans",
    columns: [
      word("turn"),
      word("what"),
      { name: "k Q", dimension: "ratio", u: 0.03 },
      { name: "resistor", dimension: "resistance" },
      word("how"),
    ],
    rows: [
      [
        "first",
        "before anything",
        none,
        none,
        "warm half an hour; oscillator stopped or a band without signals; BFO off; AVC clamped at -1.5 to -3 V; volume full, the generator turned down to the least that reads",
      ],
      ...cans.flatMap(({ can, name, at }, k): (string | number)[][] => {
        const turn = String(k + 1);
        const { a } = couplingOf(can, f);
        const where = `generator at the ${at} through 0.01 to 0.1 µF`;
        if (a <= 1.1) return [[turn, name, a, none, `${where}: secondary, then primary, twice round`]];
        const ohm = loadFor(can, f);
        return [
          [turn, name, a, ohm, `${where}: resistor across the primary, peak the secondary`],
          [turn, name, a, ohm, "resistor across the secondary, peak the primary; take it off; look at the sweep"],
        ];
      }),
      [
        "last",
        "the whole strip",
        none,
        none,
        `generator at the mixer grid, all ${strip.cans.length} once more without resistors; -6 dB points at equal distances from the centre within a tenth`,
      ],
    ],
  };
}
