import { bad, good, type Read } from "../../units/issue";

/** What is held while the frequency steps: the generator's level, and the meter is read; or the output, and the generator is raised. */
export const held = ["level", "output"] as const;
export type Held = (typeof held)[number];
/** What the set's AVC does meanwhile. */
export const avcStates = ["off", "clamped", "on"] as const;

export interface SteppedSaid {
  readonly fromHz: number;
  readonly toHz: number;
  readonly pointsCount: number;
  readonly levelDbm: number;
  readonly mostDbm: number;
  readonly settleS: number;
  readonly readingsCount: number;
  readonly holds: Held;
  readonly avc: (typeof avcStates)[number];
  /** narrowest width at -3 dB that the set may show */
  readonly narrowestHz: number;
  /** by how much generator and meter may be off from one point to the next, standard uncertainty, dB */
  readonly betweenPointsDb: number;
  readonly modulation?: { readonly percent: number; readonly toneHz: number } | undefined;
}
/** A sweep that is to be stepped: judged, and in order of its steps. */
export interface SteppedPlan extends SteppedSaid {
  readonly frequencyHz: readonly number[];
}

/** More than this is fed to no front end. Source: common practice, no source. */
export const mostEverDbm = 10;
/** A width B at -3 dB is within 0.1 % of where it goes after ln(1000) / (pi B). Source: a resonance's envelope decays as exp(-pi B t). */
const settlings = Math.log(1000) / Math.PI;
export const settlingS = (narrowestHz: number): number => settlings / narrowestHz;
/** Least number of readings at a point: of fewer, no scatter can be told. Source: JCGM 101:2008 6.4.9.4 asks for four. */
export const leastReadings = 4;

/**
 * A stepped sweep, if it can give what is asked of it.
 *
 * @param said from, to, level and what is held
 * @returns the plan with its frequencies, the middle one first where the output is held; or the first issue, located
 * @source settling of a resonance; selectivity only with AVC out of the way or the output held, common practice, no source
 */
export function planSteps(said: SteppedSaid): Read<SteppedPlan> {
  const { fromHz, toHz, pointsCount, settleS, narrowestHz, modulation } = said;
  const hz = (f: number): string => `${f} Hz`;
  if (!(fromHz > 0)) return bad("--from", "out-of-range", hz(fromHz), "a frequency above 0");
  if (!(toHz > fromHz)) return bad("--to", "out-of-range", hz(toHz), `a frequency above ${hz(fromHz)}`);
  if (!Number.isInteger(pointsCount) || pointsCount < 5 || pointsCount > 2001)
    return bad("--points", "out-of-range", String(pointsCount), "5 to 2001 points");
  if (said.mostDbm > mostEverDbm)
    return bad("--most", "too-loud", `${said.mostDbm} dBm`, `at most ${mostEverDbm} dBm: more can harm a front end`);
  if (said.levelDbm > said.mostDbm)
    return bad("--level", "too-loud", `${said.levelDbm} dBm`, `at most ${said.mostDbm} dBm; --most sets how loud it may get`);
  if (!Number.isInteger(said.readingsCount) || said.readingsCount < leastReadings || said.readingsCount > 100)
    return bad("--readings", "out-of-range", String(said.readingsCount), `${leastReadings} to 100 readings at each point`);
  if (said.holds === "level" && said.avc === "on")
    return bad(
      "--avc",
      "avc-flattens",
      "on",
      "AVC off or clamped, or --hold output: AVC turns the gain down at the peak, and the curve would come out too broad",
    );
  if (!(narrowestHz > 0)) return bad("--narrowest", "out-of-range", hz(narrowestHz), "a width above 0");
  const least = settlingS(narrowestHz);
  if (!(settleS >= least) || settleS > 60) {
    const rate = (toHz - fromHz) / (pointsCount - 1) / least;
    return bad(
      "--settle",
      "too-fast",
      `${settleS} s`,
      `${settleS > 60 ? "at most 60 s" : `at least ${least.toPrecision(2)} s: a width of ${hz(narrowestHz)} needs that to settle, so at most ${rate.toPrecision(2)} Hz a second with these points`}`,
    );
  }
  if (modulation) {
    if (!(modulation.percent > 0 && modulation.percent <= 100))
      return bad("--modulation", "out-of-range", `${modulation.percent} %`, "above 0, at most 100 %");
    if (!(modulation.toneHz > 0 && modulation.toneHz <= narrowestHz / 4))
      return bad(
        "--tone",
        "sidebands-outside",
        hz(modulation.toneHz),
        `at most a quarter of the narrowest width, ${hz(narrowestHz / 4)}: else the sidebands lie on the slopes and the curve comes out smeared`,
      );
  }
  const step = (toHz - fromHz) / (pointsCount - 1);
  const up = Array.from({ length: pointsCount }, (_, i) => Math.round((fromHz + i * step) * 1000) / 1000);
  const middle = Math.floor(pointsCount / 2);
  // the output is compared with that at the middle: from there outwards, so that each level is near the one before it
  const frequencyHz = said.holds === "level" ? up : [...up.slice(middle), ...up.slice(0, middle).reverse()];
  return good({ ...said, frequencyHz });
}

/** How long it takes at least, s. */
export const secondsOf = (plan: SteppedPlan): number => plan.frequencyHz.length * plan.settleS * (plan.holds === "level" ? 1 : 3);

/**
 * Mean and standard uncertainty of a few readings of one thing.
 *
 * @param readings at least four
 * @returns mean, and its uncertainty with the allowance for their small number
 * @source JCGM 101:2008 6.4.9.4: s / sqrt(n), times sqrt((n - 1) / (n - 3))
 */
export function meanOf(readings: readonly number[]): { readonly mean: number; readonly u: number } {
  const n = readings.length;
  const mean = readings.reduce((a, b) => a + b, 0) / n;
  const variance = readings.reduce((a, b) => a + (b - mean) ** 2, 0) / (n - 1);
  return { mean, u: Math.sqrt((variance / n) * ((n - 1) / (n - 3))) };
}
