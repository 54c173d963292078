import type { NoValue } from "../contract";

export interface TrimInputs {
  readonly method: "ear" | "flutter" | "tone";
  readonly sign: "unknown" | "markers-high" | "markers-low";
  readonly stationFrequency: number;
  readonly beat: number;
  readonly deadZone: number;
  readonly path: number;
  readonly target: number;
  readonly wanted: number;
  readonly motionalCapacitance: number;
  readonly shuntCapacitance: number;
  readonly loadCapacitance: number;
}

/**
 * Error of a marker crystal from its beat with a standard-frequency carrier.
 *
 *     e = (beat + what the ear can't hear) / f_station + path           error at f: f e
 *     pull: de/dC = -C1 / (2 (C0 + CL)^2)
 *
 * By ear a beat under the audio chain's low end sounds like none: the dead zone is added as unknown. Counted by flutter or tone it is not.
 *
 * @param x plain inputs, SI; deadZone and path drawn about 0
 * @returns ratios, Hz, F, s
 * @source identity; pulling of a crystal by its load, textbook formula
 */
export function solveTrim(x: TrimInputs) {
  const unheard = x.method === "ear" ? x.deadZone : 0;
  const size = (x.beat + unheard) / x.stationFrequency;
  const signed = x.sign === "markers-low" ? -size : size;
  const crystalError = signed + x.path;
  const perF = -x.motionalCapacitance / (2 * (x.shuntCapacitance + x.loadCapacitance) ** 2);
  const change: number | NoValue =
    x.sign === "unknown" ? { none: "the sign is not known yet: nudge the trimmer first" } : -crystalError / perF;
  return {
    crystalError,
    errorAtTarget: crystalError * x.target,
    errorAt100k: crystalError * 100e3,
    pullPerPicofarad: perF * 1e-12,
    trimmerChange: change,
    // a beat of one count in this time is what the wanted error amounts to at the station
    listenTime: 1 / ((x.wanted / x.target) * x.stationFrequency),
    bestReachable: 1e-7 * x.target,
  };
}
