import { inside } from "../../ask/declare";
import type { Cell } from "../../set/columns";
import { socketName } from "../../set/sockets";
import { printValue, printVolts } from "../../units/print";
import { rangeOf } from "../inputs/chart";
import type { Asked, G, Put } from "./ask";
import { allTogether, type Judged, type JudgedOhms, judgeChart, judgeResistances, rowsOf, type Together, wrongOf } from "./solve";

/** Above this a grid that should be at nothing is positive, beyond contact potential and the meter, V. Common practice, no source. */
const positiveGridV = 0.3;

export const placeOf = (j: { readonly socket: Cell; readonly pin: Cell }): string =>
  `${j.socket === undefined ? "no socket" : socketName(j.socket)}${j.pin === undefined ? "" : ` pin ${j.pin}`}`;
export const where = (j: Judged): string => `${placeOf(j)}, ${j.electrode}`;
export const expectedText = ({ due }: Judged): string => {
  if (!due) return "not to be worked out";
  const { low, high } = due;
  return high - low <= Math.max(0.01 * Math.max(Math.abs(high), Math.abs(low)), 1e-3)
    ? printVolts(high)
    : `${printVolts(low)} to ${printVolts(high)}`;
};
const percent = (ratio: number): string => `${Math.abs(Math.round(100 * (ratio - 1)))} %`;
const togetherSays = (t: Together): string => {
  const up = t.ratio > 1;
  const [least, most] = [t.low, t.high].map(percent).sort((a, b) => a.length - b.length || a.localeCompare(b));
  const span = least === most ? "" : ` (${least} to ${most})`;
  const ofBPlus = up
    ? "silicon in place of the rectifier tube, or a missing load"
    : "a weak rectifier, a worn filter capacitor, or too much load";
  const heaters =
    t.heaters === undefined
      ? `The heaters were not read: if they are off by as much, it is the line; if they are right, it is B+: ${ofBPlus}`
      : t.points === "line"
        ? `The heaters are ${t.heaters > 1 ? "up" : "down"} by ${percent(t.heaters)} as well, so it is the line, or a wrong tap`
        : `The heaters are not (${t.heaters > 1 ? "up" : "down"} by ${percent(t.heaters)}), so it is B+: ${ofBPlus}`;
  return `${t.rows.length} plates, screens and B+ are ${up ? "up" : "down"} together by ${percent(t.ratio)}${span}. ${heaters}, before any one stage is suspected.`;
};

/**
 * What is wrong, before all what all readings have in common, as one sentence.
 *
 * @param x inputs
 * @returns the sentence
 * @source house rule
 */
export function headlineOf(x: Asked): string {
  const all = judgeChart(x);
  if (all.length === 0) return "No row has both a chart value and a reading yet.";
  const together = allTogether(all);
  const wrong = wrongOf(all, together);
  const unclear = all.filter((j) => j.verdict === "cannot judge").length;
  const tail = unclear > 0 ? ` ${unclear} can't be judged until the resistance of their node is known.` : "";
  const common = together ? `${togetherSays(together)} ` : "";
  if (wrong.length === 0 && together) return `${common.trim()} Nothing else is wrong.${tail}`;
  if (wrong.length === 0) return `${all.length - unclear} of ${all.length} readings are as they should be on this meter.${tail}`;
  const [first] = wrong;
  return `${common}${wrong.length} of ${all.length} readings ${wrong.length === 1 ? "is" : "are"} wrong${together ? " by themselves" : ""}: ${where(first)} is ${first.verdict} (${printVolts(first.measured)} where this meter should read ${expectedText(first)})${wrong.length > 1 ? ", and more below" : ""}.${tail}`;
}

/** Grids that stand positive, whether the chart says anything of them or not: the harm is in the reading. */
const positiveGrids = (x: Asked) =>
  rowsOf(x).filter((r) => r.electrode === "grid" && r.measured !== undefined && r.measured > positiveGridV && (r.chart ?? 0) < 0.5);
/** Heaters and B+ all a little high, where there are too few plates and screens to go together. */
const lineIsHigh = (all: readonly Judged[]): boolean => {
  const fed = all.filter((j) => (j.electrode === "heater" || j.electrode === "B+") && j.due);
  const both = ["heater", "B+"].every((e) => fed.some((j) => j.electrode === e));
  return both && fed.every((j) => j.measured > 1.03 * (j.due?.high ?? 0) && j.measured < 1.3 * (j.due?.high ?? 0));
};
/** Findings of one kind that are told at most: a chart that is wrong all over has one cause. */
const most = 12;

/**
 * What each reading of the charts means, what harms first, then what all have in common.
 *
 * @param g inputs at their best, and results with their intervals
 * @param put takes each finding
 * @source house rule
 */
export function findingsOf(g: G, put: Put): void {
  const x = g.best;
  const all = judgeChart(x);
  const together = allTogether(all);
  for (const r of positiveGrids(x)) aboutGrid(r, put);
  if (together) aboutTogether(together, put);
  else if (lineIsHigh(all)) aboutHighLine(put);
  for (const j of wrongOf(all, together).slice(0, most)) aboutWrong(j, put);
  for (const j of all.filter((r) => r.verdict === "cannot judge").slice(0, most)) aboutUnclear(j, put);
  aboutRanges(x, put);
  for (const r of judgeResistances(x)
    .filter((o) => o.verdict !== "as it should be")
    .slice(0, most))
    aboutOhms(r, put);
  const sound = all.filter((j) => j.verdict === "as it should be").length;
  if (sound > 0)
    put(
      "volts-sound",
      "note",
      `${sound} readings are as they should be. A correct DC reading proves no capacitor, no coil and no tube's gain.`,
      { restsOn: ["judged"], hazards: inside },
    );
}
function aboutGrid(r: ReturnType<typeof positiveGrids>[number], put: Put): void {
  put(
    `volts-positive-grid-${r.row}`,
    "danger",
    `${placeOf(r)}, grid at ${printVolts(r.measured ?? 0)}: a positive grid ruins its tube, and the transformer at its plate.`,
    {
      do: "Switch off now. Discharge, measure; then ask what explains this stage's readings: coupling capacitor, tube, or the line behind the grid.",
      restsOn: ["wrong"],
      hazards: [...inside, "heat"],
    },
  );
}
function aboutTogether(t: Together, put: Put): void {
  put(`volts-together-${t.ratio > 1 ? "up" : "down"}`, "act", togetherSays(t), {
    do: "Read the line and a heater while the set is on, and ask the sheet on B+ for the cause, before any stage is suspected.",
    restsOn: ["together", "lineRatio"],
    hazards: ["b-plus", "line", "stored-charge"],
  });
}
function aboutHighLine(put: Put): void {
  put("volts-line", "check", "Heaters and B+ are all high together: that is the line, or a wrong tap, before any other fault.", {
    do: "Read the line while the set is on, and ask again with it.",
    restsOn: ["lineRatio"],
    hazards: ["b-plus", "line", "stored-charge"],
  });
}
function aboutWrong(j: Judged, put: Put): void {
  const sign = j.verdict === "of the wrong sign" ? " (leads the wrong way round, or the wrong pin, if it is not a grid)" : "";
  put(
    `volts-${j.verdict.replace(/ /g, "-")}-${j.row}`,
    "act",
    `${where(j)}: ${printVolts(j.measured)} is ${j.verdict}${sign}. This meter should read ${expectedText(j)}, give or take ${Math.round(100 * j.tolerance)} % (chart ${printVolts(j.chart)}).`,
    {
      do:
        j.electrode === "B+" || j.electrode === "heater"
          ? "Read the line and the heaters while the set is on, and ask the sheet on B+ for the cause. Power off, discharged and measured, before any part is touched."
          : "Read the other pins of this tube, then ask what explains its readings (suspects). Power off, discharged and measured, before any part is touched.",
      restsOn: ["wrong"],
    },
  );
}
function aboutUnclear(j: Judged, put: Put): void {
  put(
    `volts-unclear-${j.row}`,
    "check",
    j.due
      ? `${where(j)}: cannot judge ${printVolts(j.measured)} until the node's resistance is known. A sound node would read ${expectedText(j)} on this meter, by its resistance.`
      : `${where(j)}: cannot judge ${printVolts(j.measured)}. The chart's meter would have pulled this node down to next to nothing, so its ${printVolts(j.chart)} says little.`,
    {
      do: `Find the resistance that feeds this node on the service sheet, or measure it with the power off, and write it on the card${j.needsRange ? ", and the meter's range beside the reading" : ""}.`,
      restsOn: ["unclear"],
    },
  );
}
function aboutRanges(x: Asked, put: Put): void {
  for (const r of rowsOf(x))
    if (r.range !== undefined && rangeOf(r) === undefined && r.measured !== undefined)
      put(
        `volts-range-${r.row}`,
        "check",
        `${placeOf(r)}: a range of ${printValue(r.range, "voltage")} does not hold the ${printVolts(r.measured)} read. The range is left out here.`,
      );
}
function aboutOhms(j: JudgedOhms, put: Put): void {
  put(
    `volts-ohms-${j.verdict}-${j.row}`,
    "act",
    `${placeOf(j)}: ${printValue(j.measured, "resistance", 0.01 * j.measured)} is ${j.verdict} (chart ${printValue(j.chart, "resistance", 0.01 * j.chart)}, 20 % either way). ${j.verdict === "high" ? "In the circuit a reading is never more than the part on its own: a part that reads high is high, or open." : "Low may be another path in parallel: lift one lead to find out, and let filters charge first."}`,
    { do: "Set unplugged, discharged and measured; lift one lead of the part and measure it on its own." },
  );
}
