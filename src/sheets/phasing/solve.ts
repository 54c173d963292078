import type { NoValue } from "../../ask/results";
import { type CrystalFilter, CrystalResponse, notchHz, ringingS } from "../../physics/crystal-filter";
import { crossingHz, peakOf } from "../../physics/passband";
import type { Asked } from "./ask";

const filterOf = (x: Asked, phasingF: number): CrystalFilter => ({
  seriesHz: x.crystalSeries,
  motionalF: x.crystalMotional,
  crystalQ: x.crystalQ,
  holderF: x.crystalHolder,
  phasingF,
  aroundOhm: x.crystalAround,
});
const halfPowerDb = 10 * Math.log10(2);
const balanced: NoValue = { none: "balanced: there is no notch" };
const oneSided: NoValue = { none: "the phasing does not go past neutral to that side" };

/**
 * The filter with its phasing capacitor at one place.
 *
 * @param x plain inputs, SI
 * @param phasingF phasing capacitance, F
 * @returns response, peak, notch in Hz and its depth below the peak in dB; no notch where it is balanced
 * @source src/physics/crystal-filter.ts
 */
function standing(x: Asked, phasingF: number) {
  const filter = filterOf(x, phasingF);
  const response = new CrystalResponse(filter);
  const peak = peakOf(response, [x.crystalSeries]);
  const notch = notchHz(filter);
  return { response, peak, notch, depthDb: notch === undefined ? undefined : 10 * Math.log10(peak.power / response.at(notch)) };
}

interface Into {
  readonly asItStands: Float64Array;
  readonly balanced: Float64Array;
}
/**
 * Notch, peak and width as the phasing stands and neutral.
 *
 * @param x plain inputs, SI
 * @param axis frequencies, length n, Hz
 * @param into |H|^2 over the neutral peak, each of length n
 * @param wanted whether a curve is looked at, or need not be filled
 * @returns results, SI and dB
 * @source src/physics/crystal-filter.ts; definitions in src/physics/passband.ts
 */
export function solvePhasing(x: Asked, axis: Float64Array, into: Into, wanted: (curve: keyof Into) => boolean) {
  const now = standing(x, x.phasing);
  const even = standing(x, x.crystalHolder);
  for (const [curve, { response }] of [["asItStands", now] as const, ["balanced", even] as const])
    if (wanted(curve)) for (let i = 0; i < axis.length; i++) into[curve][i] = response.at(axis[i]) / even.peak.power;
  const width = crossingHz(even.response, even.peak, halfPowerDb, 1) - crossingHz(even.response, even.peak, halfPowerDb, -1);
  return {
    neutral: x.crystalHolder,
    notchAt: now.notch ?? balanced,
    notchOff: now.notch === undefined ? balanced : now.notch - x.crystalSeries,
    notchDepth: now.depthDb ?? balanced,
    peakAt: now.peak.hz,
    peakOff: now.peak.hz - x.intermediate,
    width,
    ringing: ringingS(width),
    reachBelow: reach(x, x.phasingHigh, -1),
    reachAbove: reach(x, x.phasingLow, 1),
  };
}
/** Notch off the crystal's own resonance with the phasing at an end of its travel, Hz, where it lies on that side. */
function reach(x: Asked, phasingF: number, side: 1 | -1): number | NoValue {
  const notch = notchHz(filterOf(x, phasingF));
  return notch !== undefined && Math.sign(notch - x.crystalSeries) === side ? notch - x.crystalSeries : oneSided;
}

/**
 * Notch and peak over the travel of the phasing capacitor.
 *
 * @param x plain inputs, SI
 * @returns nine rows of phasing in F, notch off the crystal in Hz, its depth in dB, peak off the crystal in Hz; NaN where there is no notch
 * @source src/physics/crystal-filter.ts
 */
export const overTravel = (x: Asked): readonly (readonly number[])[] =>
  Array.from({ length: 9 }, (_, i) => {
    const phasingF = x.phasingLow + ((x.phasingHigh - x.phasingLow) * i) / 8;
    const f = standing(x, phasingF);
    return [phasingF, f.notch === undefined ? Number.NaN : f.notch - x.crystalSeries, f.depthDb ?? Number.NaN, f.peak.hz - x.crystalSeries];
  });
