import { kT0WPerHz } from "../../physics/noise";

/** Noise of a scene is told in so wide a band, Hz. */
const bandHz = 6000;
const ratio = (db: number): number => 10 ** (db / 10);
/**
 * Noise of a set and of the band under a carrier, in 6 kHz.
 *
 * @param of the set's noise figure, dB; external noise over thermal, dB; strength of the carrier at the antenna terminal, dBm
 * @returns dB under the carrier
 * @source noise factors over k T0 add as fr + fa - 1, ITU-R P.372
 */
export const noiseUnderDb = (of: { readonly ownDb: number; readonly worldDb: number; readonly carrierDbm: number }): number =>
  of.carrierDbm - 10 * Math.log10(1000 * kT0WPerHz * bandHz * (ratio(of.ownDb) + ratio(of.worldDb) - 1));
