import type { Answer } from "../ask/answered";
import { kT0WPerHz } from "../physics/noise";

/** Noise of a scene is told in so wide a band, Hz. */
const bandHz = 6000;
const ratio = (db: number): number => 10 ** (db / 10);
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
 * @source noise factors over k T0 add as fr + fa - 1, ITU-R P.372
 */
export function noiseUnder({ results }: Answer, carrierDbm: number): NoiseUnder {
  const [own, world] = [results.receiverNoise?.value ?? undefined, results.worldNoise?.value ?? undefined];
  if (own === undefined || world === undefined) return noiseUnlessKnown;
  const noiseDbm = 10 * Math.log10(1000 * kT0WPerHz * bandHz * (ratio(own) + ratio(world) - 1));
  const noiseDb = Math.max(-20, Math.min(90, carrierDbm - noiseDbm));
  return {
    noiseDb,
    says: ` Noise ${noiseDb.toFixed(0)} dB under a carrier of ${carrierDbm.toFixed(0)} dBm: the set's own, ${own.toFixed(0)} dB over thermal, and the band's, ${world.toFixed(0)} dB, as the sheet on sensitivity has them.`,
  };
}
