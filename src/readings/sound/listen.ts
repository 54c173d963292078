import { bad, good, type Read } from "../../units/issue";
import { type Health, HealthWatch } from "./health";
import type { Listener } from "./listener";
import { RateWatch } from "./rate-watch";
import type { Sound } from "./sound";

/** How a sound is listened to. */
export interface Listening {
  /** from 0; the louder one of the beginning where not said */
  readonly channel?: number | undefined;
  /** told now and then how many samples have gone by; false stops it */
  readonly heard?: ((count: number) => boolean) | undefined;
}
/** Shorter than this nothing can be told of it. */
const shortestS = 0.25;

/**
 * Plays a sound to whoever listens, once, one channel of it.
 *
 * @param sound opened
 * @param name its name, for the errors
 * @param listeners each gets every sample of the channel, in order
 * @param how which channel, and who is told of it
 * @returns how well it was recorded; an issue where it is silent, too short, or was stopped
 * @source house frame
 */
export async function listen(sound: Sound, name: string, listeners: readonly Listener[], how: Listening = {}): Promise<Read<Health>> {
  if (how.channel !== undefined && !(how.channel < sound.channelsCount))
    return bad("--channel", "no-channel", String(how.channel + 1), `a channel from 1 to ${sound.channelsCount}`);
  let channel = how.channel;
  const watch = new HealthWatch(sound, () => channel ?? 0);
  const rates = new RateWatch(sound.sampleRateHz);
  let count = 0;
  for await (const block of sound.blocks()) {
    channel ??= louder(block);
    watch.push(block);
    for (const l of [...listeners, rates]) l.push(block[channel]);
    count += block[0].length;
    if (how.heard && !how.heard(count)) return bad(name, "stopped", "", "you to ask again: it was stopped");
  }
  const health = { ...watch.health, warnings: [...watch.health.warnings, ...rates.warnings] };
  if (health.secondsCount < shortestS)
    return bad(name, "too-short", `${count} samples at ${sound.sampleRateHz} Hz`, `at least ${shortestS} s of sound`);
  if (health.silent)
    return bad(
      name,
      "silence",
      `at most ${health.peakDbfs.toFixed(0)} dB re full scale`,
      "a sound: is the lead in the right socket, the input chosen and not muted?",
    );
  return good(health);
}
/** The louder channel of a block; the first where all are silent. */
function louder(block: readonly Float64Array[]): number {
  const energies = block.map((x) => x.reduce((s, v) => s + v * v, 0));
  return energies.indexOf(Math.max(...energies));
}
