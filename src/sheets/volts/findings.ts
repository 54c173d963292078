import type { GroundOn } from "../../ask/contract";
import type { Finding } from "../../ask/findings";
import type { Cell } from "../../set/columns";
import { socketName } from "../../set/sockets";
import { printValue } from "../../units/print";
import { rangeOf } from "../inputs/chart";
import { allTogether, type Judged, judgeChart, judgeResistances, rowsOf, type Together, type VoltsInputs, wrongVerdicts } from "./solve";

export type VoltsNames = "judged" | "wrong" | "unclear" | "together" | "lineRatio" | "worstOff";
type G = GroundOn<VoltsInputs, VoltsNames>;
export const inside: Finding["hazards"] = ["b-plus", "stored-charge"];
/** Above this a grid that should be at nothing is positive, beyond contact potential and the meter, V. Common practice, no source. */
export const positiveGridV = 0.3;

export const placeOf = (j: { readonly socket: Cell; readonly pin: Cell }): string =>
  `${j.socket === undefined ? "no socket" : socketName(j.socket)}${j.pin === undefined ? "" : ` pin ${j.pin}`}`;
export const where = (j: Judged): string => `${placeOf(j)}, ${j.electrode}`;
/** Volts to three figures, as a meter is read; what is under a millivolt is nothing. */
const volts = (v: number): string => (Math.abs(v) < 1e-3 ? "0 V" : printValue(Number(v.toPrecision(3)), "voltage"));
export const expectedText = ({ due }: Judged): string => {
  if (!due) return "not to be worked out";
  const { low, high } = due;
  return high - low <= Math.max(0.01 * Math.max(Math.abs(high), Math.abs(low)), 1e-3) ? volts(high) : `${volts(low)} to ${volts(high)}`;
};
const percent = (ratio: number): string => `${Math.abs(Math.round(100 * (ratio - 1)))} %`;
/** Rows that are wrong by themselves: not those that only follow all the others. */
export const wrongOf = (all: readonly Judged[], t: Together | undefined): Judged[] =>
  wrongVerdicts.flatMap((v) => all.filter((j) => j.verdict === v && !(t?.rows.includes(j.row) && j.electrode !== "B+")));

const togetherSays = (t: Together): string => {
  const up = t.ratio > 1;
  const [least, most] = [t.low, t.high].map(percent).sort((a, b) => a.length - b.length || a.localeCompare(b));
  const span = least === most ? "" : ` (${least} to ${most})`;
  const heaters =
    t.heaters === undefined
      ? "The heaters were not read: if they are off by as much, it is the line; if they are right, it is B+"
      : t.points === "line"
        ? `The heaters are ${t.heaters > 1 ? "up" : "down"} by ${percent(t.heaters)} as well, so it is the line, or a wrong tap`
        : `The heaters are not (${t.heaters > 1 ? "up" : "down"} by ${percent(t.heaters)}), so it is B+: ${up ? "silicon in place of the rectifier tube, or a missing load" : "a weak rectifier, a worn filter capacitor, or too much load"}`;
  return `${t.rows.length} plates, screens and B+ are ${up ? "up" : "down"} together by ${percent(t.ratio)}${span}. ${heaters}, before any one stage is suspected.`;
};

export function voltsHeadline(x: VoltsInputs): string {
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
  return `${common}${wrong.length} of ${all.length} readings ${wrong.length === 1 ? "is" : "are"} wrong${together ? " by themselves" : ""}: ${where(first)} is ${first.verdict} (${volts(first.measured)} where this meter should read ${expectedText(first)})${wrong.length > 1 ? ", and more below" : ""}.${tail}`;
}

/** Grids that stand positive, whether the chart says anything of them or not: the harm is in the reading. */
const positiveGrids = (x: VoltsInputs) =>
  rowsOf(x).filter((r) => r.electrode === "grid" && r.measured !== undefined && r.measured > positiveGridV && (r.chart ?? 0) < 0.5);

const wrongFinding = (j: Judged): Finding => ({
  id: `volts-${j.verdict.replace(/ /g, "-")}-${j.row}`,
  severity: "act",
  says: `${where(j)}: ${volts(j.measured)} is ${j.verdict}${j.verdict === "of the wrong sign" ? " (leads the wrong way round, or the wrong pin, if it is not a grid)" : ""}. This meter should read ${expectedText(j)}, give or take ${Math.round(100 * j.tolerance)} % (chart ${volts(j.chart)}).`,
  do:
    j.electrode === "B+" || j.electrode === "heater"
      ? "Read the line and the heaters while the set is on, and ask the sheet on B+ for the cause. Power off, discharged and measured, before any part is touched."
      : "Read the other pins of this tube, then ask what explains its readings (suspects). Power off, discharged and measured, before any part is touched.",
  restsOn: ["wrong"],
  hazards: inside,
});
const unclearFinding = (j: Judged): Finding => ({
  id: `volts-unclear-${j.row}`,
  severity: "check",
  says: j.due
    ? `${where(j)}: cannot judge ${volts(j.measured)} until the node's resistance is known. A sound node would read ${expectedText(j)} on this meter, by its resistance.`
    : `${where(j)}: cannot judge ${volts(j.measured)}. The chart's meter would have pulled this node down to next to nothing, so its ${volts(j.chart)} says little.`,
  do: `Find the resistance that feeds this node on the service sheet, or measure it with the power off, and write it on the card${j.needsRange ? ", and the meter's range beside the reading" : ""}.`,
  restsOn: ["unclear"],
  hazards: inside,
});
const ohmsFinding = (j: ReturnType<typeof judgeResistances>[number]): Finding => ({
  id: `volts-ohms-${j.verdict}-${j.row}`,
  severity: "act",
  says: `${placeOf(j)}: ${printValue(j.measured, "resistance", 0.01 * j.measured)} is ${j.verdict} (chart ${printValue(j.chart, "resistance", 0.01 * j.chart)}, 20 % either way). ${j.verdict === "high" ? "In the circuit a reading is never more than the part by itself: a part that reads high is high, or open." : "Low may be another path in parallel: lift one lead to find out, and let filters charge first."}`,
  do: "Set unplugged, discharged and measured; lift one lead of the part and measure it by itself.",
  restsOn: [],
  hazards: inside,
});
const positiveFinding = (r: ReturnType<typeof positiveGrids>[number]): Finding => ({
  id: `volts-positive-grid-${r.row}`,
  severity: "danger",
  says: `${placeOf(r)}, grid stands at ${volts(r.measured ?? 0)}: a positive grid ruins its tube, and the transformer at its plate.`,
  do: "Switch off now. Discharge, measure; then ask what explains this stage's readings: coupling capacitor, tube, or the line behind the grid.",
  restsOn: ["wrong"],
  hazards: [...inside, "heat"],
});

/** Heaters and B+ all a little high, where there are too few plates and screens to go together. */
const lineIsHigh = (all: readonly Judged[]): boolean => {
  const fed = all.filter((j) => (j.electrode === "heater" || j.electrode === "B+") && j.due);
  const both = ["heater", "B+"].every((e) => fed.some((j) => j.electrode === e));
  return both && fed.every((j) => j.measured > 1.03 * (j.due?.high ?? 0) && j.measured < 1.3 * (j.due?.high ?? 0));
};

export function voltsFindings(g: G): Finding[] {
  const all = judgeChart(g.best);
  const together = allTogether(all);
  const out: Finding[] = positiveGrids(g.best).map(positiveFinding);
  if (together)
    out.push({
      id: `volts-together-${together.ratio > 1 ? "up" : "down"}`,
      severity: "act",
      says: togetherSays(together),
      do: "Read the line and a heater while the set is on, and ask the sheet on B+ for the cause, before any stage is suspected.",
      restsOn: ["together", "lineRatio"],
      hazards: ["b-plus", "line", "stored-charge"],
    });
  else if (lineIsHigh(all))
    out.push({
      id: "volts-line",
      severity: "check",
      says: `Heaters and B+ are all high together: that is the line, or a wrong tap, before any other fault.`,
      do: "Read the line while the set is on, and ask again with it.",
      restsOn: ["lineRatio"],
      hazards: ["b-plus", "line", "stored-charge"],
    });
  out.push(...wrongOf(all, together).slice(0, 12).map(wrongFinding));
  out.push(
    ...all
      .filter((j) => j.verdict === "cannot judge")
      .slice(0, 12)
      .map(unclearFinding),
  );
  for (const r of rowsOf(g.best).filter((x) => x.range !== undefined && rangeOf(x) === undefined && x.measured !== undefined))
    out.push({
      id: `volts-range-${r.row}`,
      severity: "check",
      says: `${placeOf(r)}: a range of ${printValue(r.range ?? 0, "voltage")} does not hold the ${volts(r.measured ?? 0)} read. The range is left out here.`,
      restsOn: [],
      hazards: ["none"],
    });
  out.push(
    ...judgeResistances(g.best)
      .filter((r) => r.verdict !== "as it should be")
      .slice(0, 12)
      .map(ohmsFinding),
  );
  const sound = all.filter((j) => j.verdict === "as it should be").length;
  if (sound > 0)
    out.push({
      id: "volts-sound",
      severity: "note",
      says: `${sound} readings are as they should be. A correct DC reading proves no capacitor, no coil and no tube's gain.`,
      restsOn: ["judged"],
      hazards: inside,
    });
  return out;
}
