import type { DraftingOf } from "../../ask/declare";
import type { Mark, Volts } from "../../ask/drawn/circuit";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { bPlusMost } from "../../ask/drawn/volts";
import { socketName, socketNumber } from "../../set/sockets";
import { printValue } from "../../units/print";
import { type StagePart, stageDrawing } from "../inputs/drawn-stage";
import type { ask, G } from "./ask";
import { allTogether, type Judged, judgeChart, rowsOf, wrongOf } from "./solve";

const drawnAt = ["plate", "screen", "cathode", "grid"] as const;
const isWrong = (j: Judged): boolean => j.verdict !== "as it should be" && j.verdict !== "cannot judge";

/**
 * The tube whose volts are the first that are wrong, with what stands and should stand at its pins.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns the circuit
 * @source judgeChart
 */
export function drawingOf(g: G, draft: DraftingOf<typeof ask>): CircuitSketch {
  const x = g.best;
  const all = judgeChart(x);
  const atPins = (j: Judged): boolean => drawnAt.some((e) => e === j.electrode);
  const wrong = wrongOf(all, allTogether(all)).filter(atPins);
  const here = wrong[0] ?? all.find(atPins);
  const own = all.filter((j) => j.socket === here?.socket);
  const rows = rowsOf(x).filter((r) => r.socket === here?.socket);
  const socket = here?.socket === undefined ? undefined : socketName(here.socket);
  const tube = draft.bench.tubes().find((t) => socketNumber(t.socket) === Math.floor(here?.socket ?? Number.NaN));
  const kind = tube && draft.bench.choice(`stages.${tube.stage}.kind`);
  const volts = (e: (typeof drawnAt)[number]): Volts | undefined => {
    const j = own.find((o) => o.electrode === e);
    const fed = e === "plate" || e === "screen";
    return j && { ...(j.due ? { expected: j.due } : {}), read: j.measured, ...(fed ? bPlusMost(g.rating) : {}) };
  };
  const ohm = (e: (typeof drawnAt)[number]) => {
    const part = rows.find((r) => r.electrode === e)?.part;
    return part === undefined ? undefined : { text: printValue(part, "resistance") };
  };
  const marks = Object.fromEntries(own.filter((j) => isWrong(j) && atPins(j)).map((j) => [j.electrode, "suspect" as const]));
  const supply = all.find((j) => j.electrode === "B+");
  return stageDrawing(draft, {
    id: "pins",
    title: socket ? `The pins of ${socket}` : "The pins of a tube",
    socket,
    what: tube?.function ?? "tube",
    tuned: kind === "rf" || kind === "if-tube" || kind === "mixer",
    coupled: kind === "audio" || kind === "detector",
    screen: own.some((j) => j.electrode === "screen") || own.length === 0,
    values: { plate: ohm("plate"), screen: ohm("screen"), cathode: ohm("cathode"), grid: ohm("grid") },
    volts: {
      supply: { ...(supply ? { read: supply.measured } : {}), ...bPlusMost(g.rating) },
      plate: volts("plate"),
      screen: volts("screen"),
      cathode: volts("cathode"),
      grid: volts("grid"),
    },
    returns: kind === "rf" || kind === "if-tube" || kind === "mixer" ? "AVC line" : undefined,
    marks: marks as Partial<Record<StagePart, Mark>>,
  });
}
