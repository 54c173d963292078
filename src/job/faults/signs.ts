import { resolveInputs, unreadOf } from "../../ask/resolve";
import type { Cell } from "../../set/columns";
import { socketNumber } from "../../set/sockets";
import { electrodeOf, electrodes } from "../../sheets/inputs/chart";
import { type Asked, ask as question } from "../../sheets/volts/ask";
import { expectedText, where } from "../../sheets/volts/findings";
import { allTogether, type Judged, type JudgedOhms, judgeChart, judgeResistances, wrongOf } from "../../sheets/volts/solve";
import { printValue, printVolts } from "../../units/print";
import { cardRows, writingOn } from "../cards";
import { benchOf, type JobView } from "../view";
import { signsBeside } from "./beside";
import type { Sign } from "./sign";

/**
 * The place of the set where a socket's stage is.
 *
 * @param view the job
 * @param socket its number, halves as tenths
 * @returns path of the stage; `set` where none is known
 * @source house format
 */
export function placeOfSocket(view: JobView, socket: Cell): string {
  if (socket === undefined) return "set";
  const exactly = view.set.tubes.find((t) => socketNumber(t.socket) === socket);
  const tube = exactly ?? view.set.tubes.find((t) => Math.floor(socketNumber(t.socket) ?? -1) === Math.floor(socket + 1e-9));
  return tube ? `stages.${tube.stage}` : "set";
}
/**
 * The inputs of the question on the chart, at their best; undefined where they can't be gathered.
 * @source house frame
 */
export function chartOf(view: JobView): Asked | undefined {
  const inputs = resolveInputs(question, benchOf(view, ""));
  // an example's rows show no fault of this set
  return inputs.ok && inputs.value.missing.length === 0 && unreadOf(question, inputs.value).length === 0
    ? (inputs.value.plain as Asked)
    : undefined;
}
/**
 * The card's row of a reading, by what it names: rows that can't be read are not numbered among those that are judged.
 * @source house format
 */
export function rowOnCard(view: JobView, j: Pick<Judged, "socket" | "pin" | "electrode">): number | undefined {
  return cardRows(view, "voltage-chart").find(
    ({ cells }) =>
      socketNumber(cells.Tube ?? "") === j.socket &&
      (j.pin === undefined || Number(cells.Pin) === j.pin) &&
      electrodes[electrodeOf(cells.Electrode ?? "")] === j.electrode,
  )?.number;
}
const writerOf = (view: JobView, j: Pick<Judged, "socket" | "pin" | "electrode"> | undefined): string =>
  writingOn(view, "voltage-chart").get(`row ${j ? (rowOnCard(view, j) ?? 0) : 0}: Measured V`)?.entry ?? "";

/**
 * The card's row of a resistance, by the tube and pin that it names.
 *
 * @param view the job
 * @param o the resistance as judged
 * @returns its number; 0 where no row is of it
 * @source house format
 */
export const ohmsRow = (view: JobView, o: JudgedOhms): number =>
  cardRows(view, "resistance-chart").find(
    ({ cells }) => socketNumber(cells.Tube ?? "") === o.socket && (o.pin === undefined || Number(cells.Pin) === o.pin),
  )?.number ?? 0;

/**
 * What readings show by themselves: every one of the charts that is wrong on its meter and line, what all have in common before what one stage has alone;
 * then the line's side, the strip and the accessories.
 *
 * @param view the job as it stands
 * @returns signs, the gravest first; none where nothing was read
 * @source sheets/volts; beside.ts
 */
export const signsOf = (view: JobView): readonly Sign[] => [...signsOfCharts(view), ...signsBeside(view)];
function signsOfCharts(view: JobView): readonly Sign[] {
  const x = chartOf(view);
  if (!x) return [];
  const all = judgeChart(x);
  const together = allTogether(all);
  const common: Sign[] = together
    ? [
        {
          place: "supplies",
          point: "B+",
          says: `plates, screens and B+ are ${together.ratio > 1 ? "up" : "down"} together by ${Math.abs(Math.round(100 * (together.ratio - 1)))} %`,
          entry: writerOf(
            view,
            all.find((j) => j.row === together.rows[0]),
          ),
        },
      ]
    : [];
  const alone = wrongOf(all, together).map(
    (j): Sign => ({
      place: j.electrode === "B+" ? "supplies" : placeOfSocket(view, j.socket),
      point: where(j),
      says: `${where(j)} is ${j.verdict}: ${printVolts(j.measured)} where this meter should read ${expectedText(j)}`,
      entry: writerOf(view, j),
    }),
  );
  const ohms = judgeResistances(x)
    .filter((o) => o.verdict === "high")
    .map(
      (o): Sign => ({
        place: placeOfSocket(view, o.socket),
        point: `ohms, row ${o.row}`,
        says: `${printValue(Number(o.measured.toPrecision(3)), "resistance")} where the chart has ${printValue(o.chart, "resistance")}`,
        entry: writingOn(view, "resistance-chart").get(`row ${ohmsRow(view, o)}: Measured Ω`)?.entry ?? "",
      }),
    );
  return [...common, ...alone, ...ohms];
}
