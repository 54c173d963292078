import type { Content, TableCell } from "pdfmake/interfaces";
import type { OwnersReport } from "../../job/rollups/owner/owner";
import type { ProofLine } from "../../job/rollups/proof/line";
import { closed, upperFirst } from "../../units/sentence";
import { beforeAfterSvg } from "../figures/before-after";
import type { Drawing } from "../figures/drawing";
import { svgOf } from "../figures/svg";
import { said, section, tabled } from "./owner-looks";
import { head, pageWidth, quiet, titled } from "./paper";

/** What was measured before and after, in numbers and pictures. */

/** Points that are drawn; what is over is in the technical record. */
const mostPoints = 14;
const mostFigures = 16;

const named = (l: ProofLine): string => `${upperFirst(l.figure)}${l.where ? `, ${l.where}` : ""}`;
/** What was read both times, then what was read once. */
function measured(all: readonly ProofLine[]): Content[] {
  const both = all.filter((l) => l.found !== "" && l.left !== "");
  const once = all.filter((l) => l.found === "" || l.left === "");
  /** what names the methods already doesn't name them twice */
  const isNamed = (l: ProofLine): boolean => l.method.split(" / ").every((m) => l.says.toLowerCase().includes(m.toLowerCase()));
  const says = (l: ProofLine): TableCell => ({
    text: [l.says, isNamed(l) ? "" : closed(upperFirst(l.method))].filter((t) => t !== "").join(" "),
    fontSize: 9.5,
  });
  return [
    ...(both.length === 0
      ? []
      : [
          tabled(
            titled("Measured before and after"),
            ["*", 104, 104, 138],
            ["What", "As found", "As left", "What it says"],
            both.map((l): TableCell[] => [named(l), l.found, l.left, says(l)]),
          ),
        ]),
    ...(once.length === 0
      ? []
      : [
          tabled(
            titled("Measured once"),
            ["*", 150, 138],
            ["What", "Value", "What it says"],
            once.map((l): TableCell[] => [named(l), l.left === "" ? `as found: ${l.found}` : `as left: ${l.left}`, says(l)]),
          ),
        ]),
  ];
}
/** The points of the picture in numbers. */
const volts = (points: readonly ProofLine[]): Content[] =>
  points.length === 0
    ? []
    : [
        tabled(
          titled("The same in numbers"),
          ["*", 110, 96, 96],
          ["Point", "Should read here", "As found", "As left"],
          points.map((l): TableCell[] => [l.figure, l.model || l.chart || "", l.found, l.left || "not read again"]),
        ),
      ];
const underHead = (title: string | undefined, ...rest: Content[]): Content => ({
  unbreakable: true,
  stack: [...(title ? [head(title)] : []), ...rest],
});
export function beforeAndAfter({ figures, points }: OwnersReport, sweeps: Drawing | undefined): Content[] {
  const title = "Before and after";
  if (figures.length === 0 && points.length === 0 && !sweeps) return section(title, said("Nothing was measured both before and after."));
  const chosen = points.filter((l) => l.share).slice(0, mostPoints);
  const drawn = chosen.map((l) => ({ label: l.figure, ...l.share }));
  const picture = drawn.length === 0 ? undefined : beforeAfterSvg(drawn, { width: 500, labels: 170 });
  const shown = figures.slice(0, mostFigures);
  const over = points.length - drawn.length + figures.length - shown.length;
  const more = over === 0 ? "" : ` ${over === 1 ? "One more value is" : `${over} more values are`} in the technical record.`;
  const intro = said(`Measured at the bench, with its uncertainty where that is known.${more}`);
  return [
    ...(sweeps
      ? [
          underHead(
            title,
            intro,
            { text: "How sharply it tunes", bold: true, margin: [0, 4, 0, 0] },
            { text: "The narrower and the more even on both sides, the better it separates two stations.", color: quiet, fontSize: 9.5 },
            { svg: svgOf(sweeps, { width: 500, height: 205 }), width: pageWidth },
          ),
        ]
      : []),
    ...(picture
      ? [
          underHead(
            sweeps ? undefined : title,
            ...(sweeps ? [] : [intro]),
            { text: "Voltages against what they should be", bold: true, margin: [0, 8, 0, 2] },
            { svg: picture.svg, width: pageWidth },
          ),
        ]
      : []),
    ...(sweeps || picture ? [] : [underHead(title, intro)]),
    ...volts(chosen),
    ...measured(shown),
  ];
}
