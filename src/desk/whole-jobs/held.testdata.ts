import type { Figure } from "../../ask/results";
import type { Reading } from "../../job/document";
import { sheetById } from "../../sheets/index";
import { type Quantity, standardUncertainty } from "../../units/quantity";
import { ask } from "../actions";
import type { Played } from "./played.testdata";
import { accessories, type World } from "./world.testdata";

/** A figure that the job states with its interval, beside what is true of the set. */
export interface Held {
  readonly what: string;
  readonly low: number;
  readonly high: number;
  readonly truth: number;
}
type When = "found" | "left";
const truthOf = (world: World, name: string): number | undefined => world.truth.figures.find((x) => x.name === name)?.value;
function ofFigure(world: World, what: string, f: Figure | undefined, truth: number | undefined): Held[] {
  if (!f || f.low === null || f.high === null || truth === undefined) return [];
  return [{ what: `${world.id} ${what}`, low: f.low, high: f.high, truth }];
}
function ofQuantity(world: World, what: string, q: Quantity | undefined, truth: number | undefined): Held[] {
  if (!q || truth === undefined) return [];
  const half = 1.96 * standardUncertainty(q.spread);
  return [{ what: `${world.id} ${what}`, low: q.value - half, high: q.value + half, truth }];
}

/** What a sweep says of the strip. */
export const stripHeld = (world: World, { figures }: Reading, when: When): Held[] =>
  (
    [
      ["width at -3 dB", "ifWidth3Hz"],
      ["width at -6 dB", "ifWidth6Hz"],
      ["width at -60 dB", "ifWidth60Hz"],
      ["peak frequency", "ifPeakHz"],
    ] as const
  ).flatMap(([name, key]) =>
    ofQuantity(
      world,
      `${name} ${when}`,
      figures.find((f) => f.name === name)?.quantity as Quantity | undefined,
      truthOf(world, `${key} ${when}`),
    ),
  );

const few = { draws: 400, points: 11 };
/** What the questions on an accessory and its taking say. */
export function accessoryHeld(world: World, job: Played, when: When): Held[] {
  const kind = world.set.accessory?.kind;
  if (kind === undefined) return [];
  const at = `fittings.${accessories[kind]}`;
  const said = (sheet: string, result: string): Figure | undefined => ask(sheetById(sheet)!, job.view, at, few).results[result];
  const truth = (name: string): number | undefined => truthOf(world, `${name} ${when}`);
  const fall = [truth("bplusWithoutAccessoryV"), truth("bplusWithAccessoryV")];
  const shareOf = fall[0] === undefined || fall[1] === undefined ? undefined : 1 - fall[1] / fall[0];
  const heater = truth("heaterWithAccessoryV");
  const ppm = truth("markerOffPpm");
  const both = [
    ...ofFigure(world, `B+ fall ${when}`, said("accessory-proof", "bPlusFall"), shareOf),
    ...ofFigure(world, `heaters off ${when}`, said("accessory-proof", "heaterOff"), heater === undefined ? undefined : heater / 6.3 - 1),
  ];
  if (kind === "Q multiplier")
    return [...both, ...ofFigure(world, `off centre ${when}`, said("multiplier-centre", "offCentre"), truth("qMultiplierOffCentreHz"))];
  if (kind === "marker generator")
    return [...both, ...ofFigure(world, `marker ${when}`, said("marker-trim", "crystalError"), ppm === undefined ? undefined : ppm * 1e-6)];
  return [
    ...both,
    ...ofFigure(world, `crystal ${when}`, said("converter-setting", "crystalOff"), truth("converterCrystalOffHz")),
    ...ofFigure(world, `gain ${when}`, said("converter-setting", "gain"), truth("converterGainDb")),
  ];
}
/** What the log of the warm-up says of what is still to come, and how fast it goes at the end. */
export function driftHeld(world: World, job: Played): Held[] {
  const { left, atEnd } = ask(sheetById("drift")!, job.view, undefined, { ...few, overrides: { warmUp: "60 min" } }).results;
  const rate = truthOf(world, "driftRateAtEndHzPerMin");
  return [
    ...ofFigure(world, "drift still to come", left, truthOf(world, "driftStillToComeHz")),
    ...ofFigure(world, "drift a minute at the end", atEnd, rate),
  ];
}
