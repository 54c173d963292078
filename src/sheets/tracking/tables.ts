import type { Table } from "../../ask/drawings";
import { wantedHz } from "../../physics/tracking";
import type { Asked } from "./ask";
import { allRight, bandOf, oscillatorHz, sideOf, tracked } from "./circuit";
import { larger } from "./solve";

/**
 * What is received less the dial at five places: as designed, and with one part larger.
 *
 * @param x inputs, SI
 * @returns the table; none where there are no parts
 * @source the circuit
 */
export function effects(x: Asked): Table[] {
  const t = tracked(x);
  const parts = t?.parts;
  if (!t || !parts) return [];
  const column = (name: string) => ({ name, dimension: "frequency" as const, u: 30 });
  const cases = [
    ["as designed", allRight],
    ["coil 1 % more", larger.coil],
    ["trimmer 5 % more", larger.trimmer],
    ...(parts.layout === "no padder" ? [] : ([["padder 2 % more", larger.padder]] as const)),
    ["strays of the gang 1 pF more", larger.strays],
  ] as const;
  return [
    {
      id: "effects",
      title: "Frequency received minus the dial's: as designed, and with one part larger",
      columns: [
        { name: "dial", dimension: "frequency" },
        ...cases.map(([name]) => column(name)),
        { name: "oscillator", dimension: "frequency", u: 100 },
      ],
      rows: [0, 0.25, 0.5, 0.75, 1].map((k) => {
        const f = x.low + k * (x.high - x.low);
        const aside = sideOf(x) * x.intermediate;
        return [f, ...cases.map(([, o]) => oscillatorHz(t, parts, f, o) - aside - f), wantedHz(bandOf(x), f)];
      }),
    },
  ];
}
