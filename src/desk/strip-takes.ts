import type { Device } from "../readings/sound/device";
import type { TakeFor } from "../readings/sound/live";
import { inARow, inputOf, type ResponsePoint } from "../readings/sound/response";
import { audioTold, bfoTold, generatorTold, type ResponseTold } from "./response";
import { bfoSaid, generatorSaid, needed, type StripSaid } from "./strip-said";
import { responseTake, type TakeKind, type Takes, takeFor } from "./takes";

/** What is known beside the sound of the recordings. */
export interface StripKnown {
  readonly said: StripSaid;
  /** the generator's level at each frequency, where the output is held */
  readonly gave?: ReadonlyMap<number, number> | undefined;
  /** response of the sound device, output and input, where a loop-back measured it before */
  readonly loop?: Device | undefined;
  /** audio response that the job has */
  readonly audio?: readonly ResponsePoint[] | undefined;
}
/**
 * What the sound of one recording is listened to for.
 *
 * @throws {InputError} where what is said of the BFO or the generator can give no selectivity
 */
export function slotFor(kind: TakeKind, slot: string, { said, gave, loop }: StripKnown): TakeFor {
  if (kind === "response" && slot === "bfo") return { what: "response", resolutionHz: bfoSaid(said).resolutionHz };
  if (kind !== "response" || slot !== "generator") return takeFor(kind, loop);
  const { slots, toneHz } = generatorSaid(said, gave);
  return { what: "steps", slots, toneHz };
}
/**
 * Selectivity by the noise beside the BFO; none where it was not recorded.
 *
 * @throws {InputError} unless the audio response and the far sideband are known
 */
export function bfoTake(takes: Takes, { said, loop, audio }: StripKnown): ResponseTold | undefined {
  const { bfo: own, loop: looped } = takes;
  if (!own?.told.spectrum) return undefined;
  const { stood, everyHz } = bfoSaid(said);
  const measured =
    looped?.told.spectrum && audioTold("loop-back", { heard: looped.heard, spectrum: looped.told.spectrum }, { onCarrier: false }).points;
  const device = measured ?? loop;
  const through = needed(
    responseTake(takes, "audio", loop)?.points ?? audio,
    "--audio",
    "the audio response, measured first: it is divided out",
  );
  // the set's noise came in by the sound device's input alone
  const noise = { heard: own.heard, spectrum: own.told.spectrum };
  return bfoTold(noise, device ? inARow(through, inputOf(device)) : through, stood, everyHz);
}
/**
 * Selectivity by a generator; none where it was not recorded.
 *
 * @throws {InputError} where it can give none
 */
export function generatorTake(takes: Takes, { said, gave }: StripKnown): ResponseTold | undefined {
  const { generator: own } = takes;
  return own?.told.steps && generatorTold(own.heard, own.told.steps, generatorSaid(said, gave));
}
