import type { SupplyAtRest } from "../../physics/supply";
import {
  type Change,
  crestV,
  type Described,
  described,
  drawnAt,
  firstNode,
  inverseV,
  lossTimes,
  solveAsMade,
  solveChanged,
  supplyOf,
} from "../inputs/supply-law";
import type { Asked } from "./ask";

/**
 * Value of a change at which a solved figure meets a target, by bisection in the logarithm; undefined where neither end brackets it.
 *
 * @param figure of the change's size; it must run one way
 * @param from smallest size, above 0
 * @param to largest size
 * @source bisection in the logarithm
 */
export function sizeThatGives(figure: (size: number) => number, target: number, from: number, to: number): number | undefined {
  // the ends may have no solution: the first pair of neighbours that bracket the target is taken
  const count = 12;
  const at = Array.from({ length: count + 1 }, (_, i) => Math.log(from) + ((Math.log(to) - Math.log(from)) * i) / count);
  const off = (l: number): number => figure(Math.exp(l)) - target;
  let before = off(at[0]);
  const k = at.findIndex((l, i) => {
    if (i === 0) return false;
    const here = off(l);
    const met = before * here <= 0;
    if (!met) before = here;
    return met;
  });
  if (k < 0) return undefined;
  let [a, b] = [at[k - 1], at[k]];
  const fa = before;
  for (let i = 0; i < 40 && b - a > 1e-4; i++) {
    const m = (a + b) / 2;
    if (off(m) * fa > 0) a = m;
    else b = m;
  }
  return Math.exp((a + b) / 2);
}

/**
 * Resistance for each plate that brings silicon back to what the tube gives, ohm; 0 where it gives no more.
 *
 * @source bisection on the solved supply
 */
export function restoringOhm(d: Described, tube = solveAsMade(d), silicon = solveChanged(d, { silicon: true })): number {
  const node = firstNode(d.x);
  if (!tube || !silicon || silicon.volts[node] <= tube.volts[node]) return 0;
  const volts = (ohm: number): number => solveChanged(d, { silicon: true, addedOhm: ohm }, silicon)?.volts[node] ?? 0;
  return sizeThatGives(volts, tube.volts[node], 0.5, 20_000) ?? 0;
}

const none = { none: "the supply can't give this load" };
const meanA = (x: Asked, s: SupplyAtRest): number => s.plateMeanA * (x.arrangement === "half-wave" ? 1 : 2);

/** What is solved once, at the best values: the draws begin from it. */
export interface Base {
  readonly solved: SupplyAtRest;
  readonly silicon: SupplyAtRest | undefined;
  readonly tube: SupplyAtRest | undefined;
  readonly described: Described;
  readonly ohm: number;
  readonly restored: SupplyAtRest | undefined;
  /** how the restored volts fall with the resistance, V/ohm: to follow it in each draw without another search */
  readonly slope: number;
  /** how far silicon's volts on the first capacitor rise for each ampere that is drawn less, V/A */
  readonly keptSlope: number;
}
/**
 * The supply at its best values: as it is, with silicon, with its tube, and with what restores its volts.
 *
 * @param x plain inputs, SI
 * @returns undefined where it can't give this load
 * @source solveChanged
 */
export function baseOf(x: Asked): Base | undefined {
  const d = described(x);
  const solved = d && solveChanged(d);
  if (!d || !solved) return undefined;
  const node = firstNode(x);
  const silicon = solveChanged(d, { silicon: true });
  const tube = solveAsMade(d);
  const ohm = restoringOhm(d, tube, silicon);
  const with_ = (c: Change): SupplyAtRest | undefined => solveChanged(d, { silicon: true, ...c }, silicon);
  const restored = with_({ addedOhm: ohm });
  const more = with_({ addedOhm: ohm + 20 });
  const slope = restored && more ? (more.volts[node] - restored.volts[node]) / 20 : -1;
  // a resistor after the first capacitor leaves the tubes the volts, and so the currents, that the rectifier tube gave
  const kept = tube && with_({ held: drawnAt(d, tube.volts) });
  const less = tube && silicon ? meanA(x, silicon) - meanA(x, tube) : 0;
  const keptSlope = silicon && kept && less > 1e-6 ? (kept.volts[node] - silicon.volts[node]) / less : 0;
  return { solved, silicon, tube, described: d, ohm, restored, slope, keptSlope };
}

/**
 * Results of one draw; with `volts`, what the three nodes stand at, for the curves.
 *
 * @param x plain inputs, SI
 * @param base the supply at its best values
 * @returns results, SI; volts undefined where the supply can't give this load
 * @source solveChanged, lossTimes
 */
export function solveDraw(x: Asked, base: Base | undefined) {
  const d = base && described(x, base.described.typed);
  const now = d && solveChanged(d, {}, base.solved);
  const fitted = x.rectifierType === "silicon";
  const other = d && (fitted ? solveAsMade(d, base.tube) : solveChanged(d, { silicon: true }, base.silicon));
  const crest = { inverse: inverseV(x, x.highLine), noLoad: crestV(x, x.highLine) };
  if (!base || !d || !now || !other) return { volts: undefined, results: { ...noneAtAll, ...crest } };
  const node = firstNode(x);
  const [withSilicon, withTube] = fitted ? [now, other] : [other, now];
  const real = (s: SupplyAtRest): number => s.volts[node] * lossTimes(x, s.volts[node], x.lineVoltage);
  const times = lossTimes(x, now.volts[node], x.lineVoltage);
  const volts = { first: now.volts[node] * times, second: now.volts[1] * times, third: now.volts[2] * times };
  const rise = real(withSilicon) - real(withTube);
  const bestRise = (base.silicon?.volts[node] ?? 0) - (base.tube?.volts[node] ?? 0);
  const perPlate = Math.max(0, base.ohm - (rise - bestRise) / base.slope);
  const drawA = meanA(x, withTube);
  const kept = real(withSilicon) + base.keptSlope * (meanA(x, withSilicon) - drawA);
  const paths = x.arrangement === "half-wave" ? 1 : 2;
  const { sourceOhm, plateV } = supplyOf(x);
  return {
    volts,
    results: {
      bPlusFirst: volts.first,
      bPlusSecond: volts.second,
      bPlusThird: volts.third,
      rippleFirst: now.ripplePp[node],
      rippleLast: now.rippleRms[2],
      rectifierPeak: now.peakA,
      rectifierRms: now.plateRmsA,
      windingHeat: paths * now.plateRmsA ** 2 * (sourceOhm - x.addedResistance),
      ...crest,
      inrush: crest.noLoad / sourceOhm,
      siliconFirst: real(withSilicon),
      siliconRise: rise,
      siliconKept: kept,
      restoringPerPlate: perPlate,
      restoringDc: drawA > 1e-4 ? (kept - real(withTube)) / drawA : { none: "nothing is drawn" },
      restoringPower: (x.arrangement === "bridge" ? 2 : 1) * (base.restored?.plateRmsA ?? 0) ** 2 * perPlate,
      criticalChoke:
        x.filterInput === "choke"
          ? (0.9 * plateV) / Math.max(1e-4, meanA(x, now)) / (6 * Math.PI * x.lineFrequency)
          : { none: "the filter begins with a capacitor" },
    },
  };
}
const noneAtAll = {
  bPlusFirst: none,
  bPlusSecond: none,
  bPlusThird: none,
  rippleFirst: none,
  rippleLast: none,
  rectifierPeak: none,
  rectifierRms: none,
  windingHeat: none,
  inrush: none,
  siliconFirst: none,
  siliconRise: none,
  siliconKept: none,
  restoringPerPlate: none,
  restoringDc: none,
  restoringPower: none,
  criticalChoke: none,
};
