import type { Chance } from "../../ask/contract";
import { noneOf } from "../../ask/declare";
import type { NoValue } from "../../ask/results";
import { toComeHz, type WarmUp } from "../../infer/drift/warm-up";
import { choleskyFactor } from "../../numerics/linear";
import { circuitTcf, compensatorF, fixedFor } from "../../physics/temperature";
import { type DriftInputs, type DriftTold, logOf, steadyWhy, warmUpFigures } from "./solve";

const noLaw = "neither one nor two time constants explain the log";
/** Time constants and line of one draw, out of the fit of one or two time constants, where it holds. */
function constants(
  d: DriftTold,
  chance: Chance,
): (draw: number) => {
  readonly tauS: readonly number[] | undefined;
  readonly lineHzPerV: number | undefined;
} {
  const { fit } = d;
  const n = Math.round(Math.sqrt(fit.covariance.length));
  const factor = choleskyFactor(fit.covariance, n) ?? new Float64Array(n * n);
  const streams = Array.from({ length: n }, (_, i) => chance.stream(`fit ${i}`));
  const amplitudes = fit.amplitudesHz.length;
  const holds = fit.misfit.mayExtrapolate;
  return (draw) => {
    const move = Array.from({ length: n }, (_, i) => {
      let s = 0;
      if (draw >= 0) for (let k = 0; k <= i; k++) s += factor[i * n + k] * streams[k][draw];
      return s;
    });
    return {
      lineHzPerV: fit.lineHzPerV === undefined || fit.misfit.verdict === "law-fails" ? undefined : fit.lineHzPerV + move[1 + amplitudes],
      tauS: holds
        ? fit.tauS.map((t, k) => t * Math.exp(Math.min(2, Math.max(-2, move[n - amplitudes + k])))).sort((p, q) => p - q)
        : undefined,
    };
  };
}

/** The capacitor that stills it, and what is then left at the other place of the dial. */
function compensation(
  x: DriftInputs,
  perKelvin: number | NoValue,
): { readonly needed: number | NoValue; readonly otherEnd: number | NoValue } {
  if (typeof perKelvin !== "number") return { needed: perKelvin, otherEnd: perKelvin };
  if (!(x.compensator + x.replacedCoefficient > 0))
    return noneOf(["needed", "otherEnd"] as const, "the capacitor replaced has as negative a coefficient as the new one: nothing is won");
  const needed = compensatorF(perKelvin, x.gangNow + x.fixedCapacitance, x.compensator, x.replacedCoefficient);
  if (!(needed > 0))
    return noneOf(
      ["needed", "otherEnd"] as const,
      "the frequency rises as it warms: a capacitor of negative coefficient would make it worse",
    );
  const parts = { fixedF: x.fixedCapacitance, coilPerK: x.coilCoefficient, gangPerK: x.gangCoefficient };
  const circuit = { ...parts, fixedPerK: fixedFor(perKelvin, parts, x.gangNow) };
  // the compensator takes the place of the replaced one, whatever the rest of the fixed capacitors is
  const otherEnd =
    circuitTcf(circuit, x.gangEnd) + (0.5 * needed * (x.compensator + x.replacedCoefficient)) / (x.fixedCapacitance + x.gangEnd);
  return { needed, otherEnd };
}

/** Log and middle warm-up over the log, less the last reading. */
function drawnLog(x: DriftInputs, d: DriftTold, points: number) {
  const { timeS, hz } = logOf(x);
  const count = Math.min(points, 121);
  const axis = Float64Array.from({ length: count }, (_, i) => d.fromS + ((d.fit.untilS - d.fromS) * i) / (count - 1));
  const last = hz[hz.length - 1];
  const readings = axis.map((t) => {
    let k = 0;
    while (k < timeS.length - 1 && timeS[k + 1] <= t) k++;
    const part = k < timeS.length - 1 ? Math.min(1, Math.max(0, (t - timeS[k]) / (timeS[k + 1] - timeS[k]))) : 0;
    return hz[k] * (1 - part) + (hz[k + 1] ?? hz[k]) * part - last;
  });
  return { axis, readings, fitted: axis.map((t) => d.told.middle.endHz + toComeHz(d.told.middle, t) - last), moved: last - hz[0] };
}

/** Everything about one log that its draws share, and what one draw comes to. */
export function preparedDrift(best: DriftInputs, d: DriftTold, points: number, chance: Chance) {
  const { axis, readings, fitted, moved } = drawnLog(best, d, points);
  const constantsOf = constants(d, chance);
  const meanV = best.driftLog.reduce((s, r) => s + r.line, 0) / best.driftLog.length;
  const { possible, middle } = d.told;
  const warmUpOf = (draw: number): WarmUp => (draw < 0 ? middle : possible[draw % possible.length]);
  return {
    axes: { log: axis, fit: axis },
    varies: true,
    solve: (plain: unknown, into: { readonly log: Float64Array; readonly fit: Float64Array }, draw: number) => {
      const x = plain as DriftInputs;
      into.log.set(readings);
      into.fit.set(fitted);
      const { tauS, lineHzPerV } = constantsOf(draw);
      const common = {
        inLog: moved,
        miss: d.fit.rmsHz,
        byLine:
          lineHzPerV === undefined
            ? { none: "the line was not logged in every row, did not move, or moved along with the warm-up" }
            : (lineHzPerV * meanV) / 100,
        fast: tauS === undefined ? { none: noLaw } : tauS.length > 1 ? tauS[0] : { none: "one time constant explains the log" },
        slow: tauS === undefined ? { none: noLaw } : tauS[tauS.length - 1],
      };
      if (d.fit.steady)
        return {
          ...common,
          slow: { none: steadyWhy },
          ...{ atEnd: 0, whole: 0, left: 0, fitAfter: 0 },
          ...noneOf(["perKelvin", "needed", "otherEnd"] as const, steadyWhy),
        };
      const figures = warmUpFigures(x, warmUpOf(draw), d);
      return { ...common, ...figures, ...compensation(x, figures.perKelvin) };
    },
  };
}
