import type { Answer } from "../ask/answered";
import { noiseUnderDb } from "../invented/rehearsal/noise-under";

/** Noise under a carrier, and where that comes from. */
export interface NoiseUnder {
  readonly noiseDb: number;
  readonly says: string;
}
/** Where no set is known, dB under the carrier: a station that is heard well. House value, no source. */
export const noiseUnlessKnown: NoiseUnder = { noiseDb: 30, says: "" };
/**
 * Noise of this set and of the band under a carrier, by the answer on sensitivity; what stands where no set is known, where that has none.
 *
 * @param sensitivity its answer
 * @param carrierDbm strength of the wanted carrier at the antenna terminal
 * @returns dB in 6 kHz under the carrier
 * @source noiseUnderDb
 */
export function noiseUnder({ results }: Answer, carrierDbm: number): NoiseUnder {
  const [own, world] = [results.receiverNoise?.value ?? undefined, results.worldNoise?.value ?? undefined];
  if (own === undefined || world === undefined) return noiseUnlessKnown;
  const noiseDb = Math.max(-20, Math.min(90, noiseUnderDb({ ownDb: own, worldDb: world, carrierDbm })));
  return {
    noiseDb,
    says: ` Noise ${noiseDb.toFixed(0)} dB under a carrier of ${carrierDbm.toFixed(0)} dBm: the set's own, ${own.toFixed(0)} dB over thermal, and the band's, ${world.toFixed(0)} dB, as the sheet on sensitivity has them.`,
  };
}
