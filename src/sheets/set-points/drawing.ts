import type { DialFace } from "../../ask/drawn/dial-face";
import type { Sketch } from "../../ask/drawn/pictures";
import { printValue } from "../../units/print";
import { mhz } from "../inputs/dial-figures";
import type { G } from "./ask";
import { settingOf } from "./solve";

/**
 * The bandspread scale with its marks, and where the markers fall on it.
 *
 * @param g what the answer stands on
 * @returns the dial
 * @source settingOf
 */
export function drawingOf(g: G): Sketch {
  const { marks } = g.best;
  const { now } = settingOf(g.best);
  const says = marks.map((m) => m.says);
  const [low, high] = [Math.min(...says, ...marks.map((m) => m.is)), Math.max(...says, ...marks.map((m) => m.is))];
  const margin = 0.06 * (high - low);
  const off = (hz: number): string => `${printValue(Math.abs(hz), "frequency", 50)} ${hz > 0 ? "high" : "low"}`;
  const worst = now.reduce((k, e, i) => (Math.abs(e) > Math.abs(now[k]) ? i : k), 0);
  const face: Omit<DialFace, "example"> = {
    kind: "dial",
    id: "scale",
    title: "The bandspread scale, and where the markers fall on it",
    scale: { from: low - margin, to: high + margin, says: "MHz, as the scale is marked" },
    marks: marks.map((m) => ({ at: m.is, text: String(Number((m.is / 1e6).toFixed(3))) })),
    beats: marks.map((m) => ({ at: m.says, says: mhz(m.is) })),
    edges: [],
    ...(marks[worst]
      ? {
          pointer: {
            at: marks[worst].says,
            half: 0,
            says: `the worst: ${mhz(marks[worst].is)} is read at ${mhz(marks[worst].says)}, ${off(now[worst])}`,
          },
        }
      : {}),
  };
  return face;
}
