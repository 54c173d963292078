import type { Table } from "../../ask/drawings";
import { type DialFit, dialSlope, hzAt, readingFor } from "../../infer/dial/fitted";
import { doubtHz } from "../inputs/dial-figures";
import { dialOf } from "../inputs/dial-law";
import type { Asked } from "./ask";
import { narrowers, spanOf } from "./narrow";
import { nextMarkerOf } from "./solve";

const steps = { "10 kHz": 10e3, "25 kHz": 25e3, "50 kHz": 50e3, "100 kHz": 100e3 } as const;
const mostRows = 400;
const at = (name: string, u: number) => ({ name, dimension: "frequency", u, part: 0.1 }) as const;
const turned = { "1": "turning up to it", "-1": "turning down to it", "0": "midway between turning up and turning down" } as const;

/**
 * Tables of the dial: the reading of each frequency, and what more zero beats would bring.
 *
 * @param x plain inputs
 * @returns frequencies and doubts, Hz; readings, divisions
 * @source the fitted law
 */
export function tablesOf(x: Asked): Table[] {
  const read = dialOf(x);
  if (!read.ok) return [];
  const { fit } = read.value;
  const narrower = narrowers(x, nextMarkerOf(fit, x.spacing));
  return [
    {
      id: "correction",
      title: `Scale reading of each frequency, ${turned[fit.side]}`,
      columns: [
        { name: "frequency", dimension: "frequency", exact: true },
        { name: "scale", dimension: "division", u: 0.03 },
        at("± 95 %", 30),
        at("a division", 30),
      ],
      rows: correctionRows(fit, steps[x.tableStep]),
    },
    ...(narrower.length > 0
      ? [
          {
            id: "narrower",
            title: "What more zero beats would bring",
            columns: [
              { name: "zero beat", dimension: "ratio" },
              { name: "beats more", dimension: "ratio", exact: true },
              at("± 95 % afterwards", 30),
              at("at its worst", 30),
            ],
            rows: narrower.map((n) => [n.what, n.beatsCount, n.typicalHz, n.worstHz]),
          } satisfies Table,
        ]
      : []),
  ];
}
function correctionRows(fit: DialFit, stepHz: number): number[][] {
  // the outermost markers themselves belong in the table, whatever their own reading noise
  const more = fit.leans ? 0 : 0.01 * (fit.high - fit.low);
  const [from, to] = spanOf(fit);
  const ends = [hzAt(fit, from - more), hzAt(fit, to + more)].sort((a, b) => a - b);
  const rows: number[][] = [];
  for (let k = Math.ceil(ends[0] / stepHz - 1e-9); k * stepHz <= ends[1] * (1 + 1e-9) && rows.length < mostRows; k++) {
    const reading = readingFor(fit, k * stepHz);
    if (reading !== undefined) rows.push([k * stepHz, reading, doubtHz(fit, reading), dialSlope(fit, reading)]);
  }
  return rows;
}
