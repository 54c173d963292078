import type { NoValue } from "../../ask/results";
import { loadForRatioF, type PulledCrystal, pullBy } from "../../physics/crystal-pull";
import type { Asked } from "./ask";

/** All but the chassis. */
type Trimmed = Omit<Asked, "chassis">;
const crystalOf = (x: Trimmed): PulledCrystal => ({
  motionalF: x.motionalCapacitance,
  holderF: x.shuntCapacitance,
  loadF: x.loadCapacitance,
});
function changeOf(x: Trimmed, crystalError: number): number | NoValue {
  if (x.sign === "unknown") return { none: "the sign is not known yet: nudge the trimmer first" };
  const loadF = loadForRatioF(crystalOf(x), 1 / (1 + crystalError));
  return loadF === undefined ? { none: "no capacitance across this crystal pulls it that far" } : loadF - x.loadCapacitance;
}

/**
 * Error of a marker crystal from its beat with a standard-frequency carrier, and what the trimmer does about it.
 *
 *     e = (beat + what the ear can't hear) / f_station + path           error at f: f e
 *     pulled = f_series sqrt(1 + C1/(C0 + CL))                          load wanted: pulled by 1/(1 + e)
 *
 * By ear a beat under the audio chain's low end sounds like none: the dead zone is added as unknown. Counted by flutter or tone it is not.
 *
 * @param x plain inputs, SI; deadZone and path drawn about 0
 * @returns ratios, Hz, F, s
 * @source identity; the crystal's loop, physics/crystal-pull.ts
 */
export function solveTrim(x: Trimmed) {
  const unheard = x.method === "ear" ? x.deadZone : 0;
  const size = (x.beat + unheard) / x.stationFrequency;
  const signed = x.sign === "markers-low" ? -size : size;
  const crystalError = signed + x.path;
  const crystal = crystalOf(x);
  return {
    crystalError,
    errorAtTarget: crystalError * x.target,
    errorAt100k: crystalError * 100e3,
    pullPerPicofarad: pullBy(crystal, 1e-12),
    lowersBy: -pullBy(crystal, x.trimmerTravel),
    raisesBy: pullBy(crystal, -x.trimmerTravel),
    trimmerChange: changeOf(x, crystalError),
    // a beat of one count in this time is what the wanted error amounts to at the station
    listenTime: 1 / ((x.wanted / x.target) * x.stationFrequency),
    bestReachable: 1e-7 * x.target,
  };
}
