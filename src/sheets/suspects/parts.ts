import type { Part } from "../../ask/findings";
import type { Ranking } from "../../infer/stage/rank-causes";
import { nearestPreferred, nextRatedV } from "../../standards/preferred";
import { printValue } from "../../units/print";
import type { Asked } from "./ask";
import { fewReadings, worthIt } from "./findings";

/** Kind of part that is changed for each fault. */
const kindOf: Readonly<Record<string, string>> = {
  "screen-resistor-drifted": "screen-resistor",
  "screen-resistor-open": "screen-resistor",
  "cathode-resistor-drifted": "cathode-resistor",
  "cathode-open": "cathode-resistor",
  "plate-feed-drifted": "plate-resistor",
  "screen-bypass-leaky": "bypass-capacitor",
  "decoupling-leaky": "bypass-capacitor",
  "coupling-leaky": "coupling-capacitor",
  "weak-tube": "tube",
  "dead-tube": "tube",
  "tube-gassy": "tube",
};
/** Chance from which on a part is asked for. */
const sure = 0.9;

/**
 * What the one cause that is left takes to buy: nothing while there is a tie, a test to make, or readings that it does not explain.
 *
 * @param x inputs
 * @param r their ranking
 * @returns one part, or none
 * @source common practice, no source; preferred values and rated volts by standards/preferred.ts
 */
export function partsOf(x: Asked, r: Ranking): readonly Part[] {
  const [top] = r.causes;
  if (fewReadings(x) || top.probability < sure || r.ties.length > 1 || !r.explained || worthIt(r)) return [];
  const why = top.fault.says;
  const resistor = (name: string, ohm: number, watts: number): Part => ({
    part: `${name} resistor`,
    was: printValue(ohm, "resistance"),
    value: printValue(nearestPreferred(ohm, 24), "resistance"),
    rating: `${[0.5, 1, 2, 3, 5].find((w) => w >= 2 * watts) ?? 10} W`,
    kind: "metal film or metal oxide",
    quantity: 1,
    why,
  });
  const capacitor = (name: string, farad: string): Part => ({
    part: `capacitor, ${name}`,
    was: "",
    value: farad,
    // cold tubes draw nothing: every capacitor at B+ meets the crest
    rating: printValue(nextRatedV(Math.max(1.5 * x.supply, x.highestVolts)) ?? 630, "voltage"),
    kind: "film",
    quantity: 1,
    why: `${why}; take the value of the service sheet where it differs`,
  });
  const tube: Part = { part: `tube, ${x.tubeType}`, was: "", value: x.tubeType, rating: "tested", kind: "tube", quantity: 1, why };
  const current = x.pointPlateCurrent + x.pointScreenCurrent;
  const screen = resistor("screen", x.screenFeed, x.pointScreenCurrent ** 2 * x.screenFeed);
  const cathode = resistor("cathode", x.cathodeResistor, current ** 2 * x.cathodeResistor);
  const plate = resistor("plate feed", x.plateFeed, x.pointPlateCurrent ** 2 * x.plateFeed);
  const byFault: Readonly<Record<string, Part>> = {
    "screen-resistor-drifted": screen,
    "screen-resistor-open": screen,
    "cathode-resistor-drifted": cathode,
    "cathode-open": cathode,
    "plate-feed-drifted": plate,
    "screen-bypass-leaky": capacitor("screen bypass", "47 nF"),
    "decoupling-leaky": capacitor("decoupling", x.decouplingFeed > 10e3 ? "10 µF" : "0.1 µF"),
    "coupling-leaky": capacitor("coupling to the grid", "22 nF"),
    "weak-tube": tube,
    "dead-tube": tube,
    "tube-gassy": tube,
  };
  const part = byFault[top.fault.id];
  return part ? [{ ...part, fills: { kind: kindOf[top.fault.id] } }] : [];
}
