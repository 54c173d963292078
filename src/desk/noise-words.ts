import type { Difference } from "../readings/sound/noise-level";
import type { NoiseSays } from "./noise-entries";

/** Words for noise, the same at a terminal and on the page. */

/** dB with its interval, 95 %; no finer than a tenth. */
export function withinDb({ db, uDb }: Difference): string {
  const half = Math.max(0.1, 1.96 * uDb);
  return `${db.toFixed(1)} dB (${(db - half).toFixed(1)} to ${(db + half).toFixed(1)})`;
}
/** What one or two recordings come to, each a line: what is large first, and what is to be known of it. */
export function noiseWords({ ratio, first }: NoiseSays): readonly { readonly large: string; readonly small?: string }[] {
  const { tone } = first.told;
  return [
    ...(ratio
      ? [
          {
            large: `(S+N)/N: ${withinDb(ratio)}`,
            ...(ratio.db < 3 * ratio.uDb
              ? { small: "The modulation can't be told from the noise: a longer recording or a stronger signal will tell." }
              : {}),
          },
        ]
      : []),
    ...(tone
      ? [
          {
            large: `SINAD: ${withinDb({ db: tone.sinadDb, uDb: tone.uDb })}, of the tone at ${tone.hz.toFixed(0)} Hz`,
            ...(tone.secondHz === undefined
              ? {}
              : { small: `A second tone, at ${tone.secondHz.toFixed(0)} Hz, counts as noise and distortion in it.` }),
          },
        ]
      : []),
    ...(!ratio && !tone ? [{ large: `Noise floor: ${withinDb({ db: first.told.rmsDbfs, uDb: first.told.uDb })} re full scale` }] : []),
  ];
}
/** Whether the set hears the band; none without a dummy load's recording. */
export function riseWords({ rise }: NoiseSays): { readonly large: string; readonly small: readonly string[] } | undefined {
  if (!rise) return undefined;
  const { says, db, uDb } = rise;
  const told =
    db < 1.96 * uDb || !says
      ? "The noise does not rise with the antenna: at this frequency the set hears its own noise alone, or the antenna brings nothing. Try a noisier hour and another antenna before you blame the front end."
      : `External noise is ${says.externalDb.toFixed(1)} dB ${says.externalDb < 0 ? "against" : "above"} the set's own: its own noise costs ${says.lossDb.toFixed(1)} dB of signal to noise here.${says.lossDb < 1 ? " The set hears the band: a better front end would gain next to nothing." : ""}`;
  return {
    large: `Rise from dummy load to antenna: ${withinDb(rise)}`,
    small: [
      told,
      "This holds only on a spot without a station, with a dummy load of the antenna's impedance, and with a linear detector: a diode with little on it doubles a rise, so have the BFO on.",
    ],
  };
}
