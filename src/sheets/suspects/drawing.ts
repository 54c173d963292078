import type { DraftingOf, GroundOf } from "../../ask/declare";
import type { Mark, Volts } from "../../ask/drawn/circuit";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { type StagePart, stageDrawing } from "../inputs/drawn-stage";
import type { ask } from "./ask";
import { isPentode, rankOf, voltsOf } from "./solve";
import { tubeHere } from "./tubes-here";

/** Which part of the drawing a cause is, by how its name begins. */
const partOfCause: readonly (readonly [RegExp, StagePart])[] = [
  [/^cathode-(resistor|open)/, "cathode"],
  [/^screen-resistor/, "screen"],
  [/^plate-/, "plate"],
  [/^screen-bypass/, "screenBypass"],
  [/^cathode-bypass/, "cathodeBypass"],
  [/tube|heater/, "tube"],
  [/^coupling/, "coupling"],
  [/^(return|avc)/, "grid"],
];
/** What a sound stage would have there, and what was read. */
const node = (sound: number | null, read: number | undefined, share: number, most: number | undefined): Volts | undefined =>
  sound === null && read === undefined
    ? undefined
    : {
        ...(sound === null ? {} : { expected: { low: sound * (1 - share), high: sound * (1 + share) } }),
        ...(read === undefined ? {} : { read }),
        ...(most === undefined ? {} : { most }),
      };

/**
 * The stage with its volts, and the part that explains them best, with those that explain them as well.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns the circuit
 * @source infer/stage
 */
export function drawingOf(g: GroundOf<typeof ask>, draft: DraftingOf<typeof ask>): CircuitSketch {
  const x = g.best;
  const ranking = rankOf(x);
  const tube = tubeHere(draft.bench, { tube: x.tube });
  const kind = draft.bench.choice(`${draft.bench.at}.kind`);
  const read = voltsOf(x);
  const { value, expect } = draft;
  const suspects = (ranking?.causes[0]?.fault.id === "none-visible" ? [] : (ranking?.ties ?? [])).flatMap((c) => {
    const part = partOfCause.find(([begins]) => begins.test(c.fault.id))?.[1];
    return part === undefined ? [] : [[part, "suspect"] as const];
  });
  const most = x.highestVolts;
  const at = (name: "healthyPlate" | "healthyScreen" | "healthyCathode") => g.figures[name].value;
  const fixed = x.gridReturn === "fixed";
  return stageDrawing(draft, {
    id: "stage",
    title: `The stage${tube ? ` of ${tube.socket}` : ""} with its volts`,
    socket: tube?.socket,
    what: tube?.function ?? "amplifier",
    tuned: kind === "rf" || kind === "if-tube",
    coupled: true,
    screen: isPentode(x),
    values: { plate: value("plateFeed"), screen: value("screenFeed"), cathode: value("cathodeResistor"), grid: value("gridResistor") },
    volts: {
      supply: { ...expect("supply"), ...(read.supply === undefined ? {} : { read: read.supply }), most },
      plate: node(at("healthyPlate"), read.plate, 0.1, most),
      screen: node(at("healthyScreen"), read.screen, 0.1, most),
      cathode: node(at("healthyCathode"), read.cathode, 0.2, undefined),
      grid: read.grid === undefined ? undefined : { read: read.grid },
      before: expect("beforeVolts"),
      return: expect("returnVolts"),
    },
    returns: fixed ? (x.returnVolts === 0 ? undefined : "bias") : "AVC line",
    marks: Object.fromEntries(suspects) as Partial<Record<StagePart, Mark>>,
  });
}
