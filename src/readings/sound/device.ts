import { levelAt, type ResponsePoint } from "./response";

/** What a sound device took off a power at a frequency, to be put back, and what that is known to, dB. */
export interface PutBack {
  readonly times: number;
  readonly uDb: number;
}
export type Device = readonly ResponsePoint[];
/**
 * A sound device's response, undone at a frequency; beyond its points it is taken as at the nearest.
 *
 * @param device response of its input; nothing is undone where it is not known
 * @param hz frequency
 * @returns factor of the power there, and its standard uncertainty
 * @source gains in a row multiply
 */
export function undone(device: Device | undefined, hz: number): PutBack {
  if (!device || device.length === 0) return { times: 1, uDb: 0 };
  const [low, high] = [device[0], device[device.length - 1]];
  const own = hz <= low.hz ? low : (levelAt(device, hz) ?? high);
  return { times: 10 ** (-own.levelDb / 10), uDb: own.uDb };
}
/**
 * The same for each bin of a spectrum.
 *
 * @source undone
 */
export function undoneBins(
  device: Device | undefined,
  binHz: number,
  count: number,
): { readonly times: Float64Array; readonly uDb: Float64Array } {
  const each = Array.from({ length: count }, (_, k) => undone(device, k * binHz));
  return { times: Float64Array.from(each, (b) => b.times), uDb: Float64Array.from(each, (b) => b.uDb) };
}
