import type { BfoStood } from "../readings/sound/response";
import { type Slot, type SteppedBy, slotsOf } from "../readings/sound/tone-steps";
import type { avcStates, Held } from "../readings/stepped/plan";
import type { Dimension } from "../units/dimensions";
import { InputError, orThrow } from "../units/issue";
import { parseQuantity } from "../units/parse";
import { audioResolutionHz } from "./response";

/** What is said of a strip's response beside its sound, as typed. */
export interface StripSaid {
  readonly bfo?: string | undefined;
  readonly sideband?: "upper" | "lower" | undefined;
  readonly far?: string | undefined;
  readonly from?: string | undefined;
  readonly to?: string | undefined;
  readonly points?: number | undefined;
  readonly takes?: string | undefined;
  readonly begins: string;
  readonly tone: string;
  readonly avc?: (typeof avcStates)[number] | undefined;
  readonly hold: Held;
  readonly narrowest: string;
  readonly within: string;
}
const si = (text: string, dimension: Dimension, path: string): number => orThrow(parseQuantity(text, dimension, path)).value;
/**
 * What must be said.
 *
 * @throws {InputError} where it was not
 */
export function needed<T>(value: T | undefined, path: string, expected: string): T {
  if (value === undefined || value === "") throw new InputError([{ path, code: "not-said", read: "", expected }]);
  return value;
}
/**
 * How the BFO stood, and how finely the noise beside it is to be told apart.
 *
 * @throws {InputError} unless the far sideband is known to be out
 */
export function bfoSaid(said: StripSaid): { readonly stood: BfoStood; readonly resolutionHz: number; readonly everyHz: number } {
  const stood = {
    bfoHz: si(needed(said.bfo, "--bfo", "frequency of the BFO, at the IF"), "frequency", "--bfo"),
    sideband: needed(said.sideband, "--sideband", "upper or lower: the side of the BFO that is heard"),
    farDownDb: si(
      needed(said.far, "--far", "how far down the other side of the BFO is: with both sides heard at once there is no selectivity to read"),
      "decibel",
      "--far",
    ),
  };
  if (!(stood.farDownDb >= 10))
    throw new InputError([
      { path: "--far", code: "out-of-range", read: said.far ?? "", expected: "10 dB or more: else both sides are heard at once" },
    ]);
  const narrowestHz = si(said.narrowest, "frequency", "--narrowest");
  if (!(narrowestHz > 0))
    throw new InputError([{ path: "--narrowest", code: "out-of-range", read: said.narrowest, expected: "a width above 0" }]);
  return { stood, resolutionHz: Math.min(audioResolutionHz, narrowestHz / 40), everyHz: narrowestHz / 20 };
}
/** How a generator went, and the stretches of the sound that are listened to. */
export interface GeneratorSaid extends SteppedBy {
  readonly slots: readonly Slot[];
  readonly withinDb: number;
  readonly gave?: ReadonlyMap<number, number> | undefined;
}
/**
 * How a generator stepped or swept.
 *
 * @param said as typed
 * @param gave its level at each frequency, where the output was held
 * @throws {InputError} where something is missing, or it went too fast for the narrowest width
 */
export function generatorSaid(said: StripSaid, gave: ReadonlyMap<number, number> | undefined): GeneratorSaid {
  if (said.hold === "output")
    needed(gave, "--levels", "the generator's level at each step: the output alone tells nothing where it is held");
  const ends = gave && [...gave.keys()];
  const by: SteppedBy = {
    fromHz: ends ? ends[0] : si(needed(said.from, "--from", "the generator's first frequency"), "frequency", "--from"),
    toHz: ends ? ends[ends.length - 1] : si(needed(said.to, "--to", "the generator's last frequency"), "frequency", "--to"),
    pointsCount: ends?.length ?? said.points,
    takesS: si(needed(said.takes, "--takes", "how long it took from the first frequency to the end of the last"), "time", "--takes"),
    beginsS: si(said.begins, "time", "--begins"),
    toneHz: si(said.tone, "frequency", "--tone"),
    narrowestHz: si(said.narrowest, "frequency", "--narrowest"),
    holds: said.hold,
    avc: needed(said.avc, "--avc", "off, clamped or on: with AVC at work the curve comes out too broad"),
  };
  const slots = orThrow(slotsOf(by)).map((s, i) => (ends ? { ...s, hz: ends[i] } : s));
  return { ...by, slots, withinDb: si(said.within, "decibel", "--within"), gave };
}
