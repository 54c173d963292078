import { perveanceOf, type Section, type Supply, type SupplySolved, solveSupply, sourceOhmOf } from "../../physics/supply";
import { rectifierByType, siliconDropV } from "../../standards/rectifiers";

export interface BPlusInputs {
  readonly arrangement: "full-wave" | "bridge" | "half-wave";
  readonly rectifierType: string;
  readonly originalRectifier: string;
  readonly rectifierDrop: number;
  readonly rectifierCurrent: number;
  readonly lineVoltage: number;
  readonly ratedLine: number;
  readonly lineFrequency: number;
  readonly highLine: number;
  readonly secondaryVoltage: number;
  readonly secondaryResistance: number;
  readonly primaryResistance: number;
  readonly addedResistance: number;
  readonly filterInput: "capacitor" | "choke";
  readonly firstCapacitance: number;
  readonly firstChoke: number;
  readonly firstResistance: number;
  readonly secondCapacitance: number;
  readonly secondChoke: number;
  readonly secondResistance: number;
  readonly thirdCapacitance: number;
  readonly plateCurrent: number;
  readonly restCurrent: number;
  readonly bleeder: number;
  readonly capacitorRating: number;
  readonly measuredFirst: number;
  readonly measuredHeater: number;
  readonly heaterRated: number;
}
/** What may differ from the set as described: to try a fault or a change. */
export interface Change {
  readonly silicon?: boolean;
  /** the vacuum type that the set was made for */
  readonly original?: boolean;
  readonly perveanceTimes?: number;
  readonly loadTimes?: number;
  readonly firstTimes?: number;
  readonly oneHalf?: boolean;
  readonly addedOhm?: number;
  readonly lineV?: number;
  readonly noLoad?: boolean;
}

const diodeOf = (x: BPlusInputs, c: Change): Supply["diode"] => {
  const own = c.original ? rectifierByType(x.originalRectifier) : undefined;
  // two diodes of a bridge conduct in series
  const inSeries = x.arrangement === "bridge" ? 2 : 1;
  if (c.silicon || (x.rectifierType === "silicon" && !own)) return { drop: siliconDropV * inSeries };
  const k = own ? perveanceOf(own.dropV, own.atA) : perveanceOf(x.rectifierDrop, x.rectifierCurrent);
  return { perveance: (k * (c.perveanceTimes ?? 1)) / inSeries ** 1.5, drop: 0 };
};

/** The supply of these inputs, changed as said, for the solver. */
export function supplyOf(x: BPlusInputs, c: Change = {}): Supply {
  const line = c.lineV ?? x.lineVoltage;
  const plateV = (x.secondaryVoltage * line) / x.ratedLine;
  const load = c.noLoad ? 0 : (c.loadTimes ?? 1);
  const section = (ohm: number, henry: number, farad: number, ampere: number, siemens = 0): Section => ({
    ohm: Math.max(ohm, 0.01),
    henry,
    farad,
    ampere: ampere * load,
    siemens: siemens * (c.noLoad ? 0 : 1),
  });
  return {
    plateV,
    lineHz: x.lineFrequency,
    fullWave: x.arrangement !== "half-wave" && !c.oneHalf,
    sourceOhm: Math.max(
      0.1,
      sourceOhmOf(x.secondaryResistance, x.primaryResistance, x.secondaryVoltage / x.ratedLine) + x.addedResistance + (c.addedOhm ?? 0),
    ),
    diode: diodeOf(x, c),
    first: { farad: x.filterInput === "choke" ? 0 : x.firstCapacitance * (c.firstTimes ?? 1), ampere: 0, siemens: 0 },
    sections: [
      section(x.firstResistance, x.firstChoke, x.secondCapacitance, x.plateCurrent),
      section(x.secondResistance, x.secondChoke, x.thirdCapacitance, x.restCurrent, 1 / x.bleeder),
    ],
  };
}

export const steps = 96;
export const solveChanged = (x: BPlusInputs, c: Change = {}, like?: SupplySolved): SupplySolved | undefined =>
  solveSupply(supplyOf(x, c), { steps, ...(like ? { like } : {}) });

/** Volts that a capacitor-input filter reaches with nothing drawn: the crest; a choke input as well, once nothing is drawn. */
export const crestV = (x: BPlusInputs, times: number): number => Math.SQRT2 * x.secondaryVoltage * times;

/** Peak inverse of one diode: twice the crest but in a bridge. */
export const inverseV = (x: BPlusInputs, times: number): number => (x.arrangement === "bridge" ? 1 : 2) * crestV(x, times);

/**
 * Value of a change at which a solved figure meets a target, by bisection in the logarithm; undefined where neither end brackets it.
 *
 * @param figure of the change's size; it must run one way
 * @param from smallest size, above 0
 * @param to largest size
 */
export function sizeThatGives(figure: (size: number) => number, target: number, from: number, to: number): number | undefined {
  // the ends may have no solution: the first pair of neighbours that bracket the target is taken
  const count = 12;
  const at = Array.from({ length: count + 1 }, (_, i) => Math.log(from) + ((Math.log(to) - Math.log(from)) * i) / count);
  const off = at.map((l) => figure(Math.exp(l)) - target);
  const k = off.findIndex((f, i) => i < count && f * off[i + 1] <= 0);
  if (k < 0) return undefined;
  let [a, b] = [at[k], at[k + 1]];
  const fa = off[k];
  for (let i = 0; i < 40 && b - a > 1e-4; i++) {
    const m = (a + b) / 2;
    if ((figure(Math.exp(m)) - target) * fa > 0) a = m;
    else b = m;
  }
  return Math.exp((a + b) / 2);
}

/** The supply as it was made: with its tube, without a resistor that somebody added to silicon. */
export const asMade = (x: BPlusInputs): [BPlusInputs, Change] =>
  x.rectifierType === "silicon" ? [{ ...x, addedResistance: 0 }, { original: true }] : [x, {}];

/** The node of the first filter capacitor: with choke input it stands behind the choke. */
export const firstNode = (x: Pick<BPlusInputs, "filterInput">): 0 | 1 => (x.filterInput === "choke" ? 1 : 0);

/** Resistance for each plate that brings silicon back to what the tube gives, ohm; 0 where it gives no more. */
export function restoringOhm(x: BPlusInputs): number {
  const tube = solveChanged(...asMade(x));
  const silicon = solveChanged(x, { silicon: true });
  if (!tube || !silicon || silicon.volts[firstNode(x)] <= tube.volts[firstNode(x)]) return 0;
  const volts = (ohm: number): number => solveChanged(x, { silicon: true, addedOhm: ohm }, silicon)?.volts[firstNode(x)] ?? 0;
  return sizeThatGives(volts, tube.volts[firstNode(x)], 0.5, 20_000) ?? 0;
}
