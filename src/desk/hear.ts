import { z } from "zod";
import { listen } from "../readings/sound/listen";
import type { Listener } from "../readings/sound/listener";
import { openSound } from "../readings/sound/open-sound";
import type { SoundHead } from "../readings/sound/sound";
import { orThrow } from "../units/issue";
import { standardUncertainty } from "../units/quantity";
import { field, fileSchema, type LongFile, longFileSchema } from "./declare";
import type { Accompanied } from "./errand";
import { clockOf, type Heard } from "./heard";

export const soundFile = (says = "recording, WAV or FLAC; a dash for what is piped in") =>
  field(longFileSchema, "<file>", says, { file: "in pieces" });
export const channelField = () =>
  field(z.coerce.number().int().min(1).optional(), "--channel <number>", "channel to listen to, from 1; the louder one if not given");
export const clockField = () =>
  field(
    z.string().optional(),
    "--clock <ppm>",
    "how fast the sound device's clock runs, with its uncertainty: 12 ppm ±1 ppm; within 100 ppm if not given",
  );
/** The sound device's response, as a loop-back measured it. */
export const deviceField = () =>
  field(fileSchema.optional(), "--device <file>", "the sound device's response, as fettle response --by loop-back wrote it: it is undone", {
    file: true,
  });

export interface HearSaid {
  readonly file: LongFile;
  readonly channel?: number | undefined;
  readonly clock?: string | undefined;
}

/**
 * Listens to a recording from its beginning to its end, in pieces.
 *
 * @param said the file, its channel, the device's clock
 * @param make who listens, once the head is read; its sample rate is the device's true one
 * @param beside who is told how far it is, and may stop it
 * @throws {InputError} where it can't be read, is silent, or was stopped
 */
export async function hear<L extends Listener>(
  said: HearSaid,
  make: (head: SoundHead) => L,
  beside: Accompanied,
): Promise<{ readonly listener: L; readonly heard: Heard }> {
  const { file } = said;
  const clock = clockOf(said.clock);
  const sound = orThrow(await openSound(file.pieces(), file.name, file.bytesCount));
  const { sampleRateHz, samplesCount } = sound;
  const listener = make({ ...sound, sampleRateHz: sampleRateHz * (1 + clock.value) });
  let told = 0;
  const tell = (count: number): boolean => {
    const minutes = Math.floor(count / sampleRateHz / 60);
    if (minutes > told) {
      told = minutes;
      const all = samplesCount === undefined ? "" : ` of ${Math.ceil(samplesCount / sampleRateHz / 60)}`;
      beside.progress?.(`${file.name}: ${minutes}${all} min heard`);
    }
    return !beside.signal?.aborted;
  };
  const how = { channel: said.channel === undefined ? undefined : said.channel - 1, heard: tell };
  const health = orThrow(await listen(sound, file.name, [listener], how));
  beside.progress?.("");
  const { blocks: _, ...head } = sound;
  return {
    listener,
    heard: {
      name: file.name,
      head,
      health,
      clock,
      clockU: standardUncertainty(clock.spread),
      warnings: [...sound.warnings, ...health.warnings],
    },
  };
}
