import { spreadOf, type Usual } from "../set/addresses/declare";
import { line, supplies } from "../set/addresses/power";
import type { Bench } from "../set/bench";
import { nextPartV } from "../standards/preferred";
import { printValue } from "../units/print";
import type { Quantity } from "../units/quantity";
import type { Part, PartRating } from "./findings";

const most = (q: Pick<Quantity, "value" | "spread">): number =>
  q.value + (q.spread.shape === "exact" ? 0 : q.spread.shape === "normal" ? 2 * q.spread.u : q.spread.half);

/**
 * Rated volts of a part that can see a crest.
 *
 * @param crest no-load B+, V
 * @returns the next rated voltage at or above it, V
 * @source IEC 60384 family and usual parts; see nextPartV
 */
export const ratedFor = (crest: number): number => nextPartV(crest) ?? Number.POSITIVE_INFINITY;

const usually = ({ usual }: { readonly usual?: Usual }): Pick<Quantity, "value" | "spread"> => {
  if (!usual) throw new Error("a rating rests on what is usual, and nothing is");
  return { value: usual[0], spread: spreadOf(usual) };
};

/**
 * The most that B+ can stand at before the tubes are warm, or with one pulled: by the upper ends of the winding's volts and of the highest line.
 *
 * @param bench the set
 * @returns V, and whether the winding is the set's own; by the winding assumed where it is not known
 * @source no-load crest of a capacitor-input filter, sqrt 2 Vs, at the highest line
 */
export function highestBPlus(bench: Pick<Bench, "quantity">): {
  readonly crestV: number;
  readonly secondary: Pick<Quantity, "value">;
  readonly known: boolean;
} {
  const own = bench.quantity(supplies.secondaryVoltage.address);
  const high = bench.quantity(line.highRatio.address) ?? usually(line.highRatio);
  const secondary = own ?? usually(supplies.secondaryVoltage);
  return { crestV: Math.SQRT2 * most(secondary) * most(high), secondary, known: own !== undefined };
}

/**
 * What any part must be rated that can see B+ in this set: before the tubes are warm, or with one pulled, B+ stands at the crest.
 *
 * @param bench the set
 * @returns rating; where the winding is not known it is that of the winding assumed, and says so
 * @source no-load crest of a capacitor-input filter, sqrt 2 Vs, at the highest line
 */
export function ratingForHere(bench: Bench): PartRating {
  const { crestV, secondary, known } = highestBPlus(bench);
  const ratedV = ratedFor(crestV);
  const volts = printValue(Math.round(crestV), "voltage");
  const says = known
    ? `${ratedV} V or more (with nothing drawn B+ can reach ${volts} here)`
    : `${ratedV} V or more (for a winding of ${printValue(secondary.value, "voltage")} that is only assumed: record what this set has)`;
  return { crestV, ratedV, known, says };
}

/**
 * A part that can see B+ at no less than the rating of this set; others as they are.
 *
 * @param part as the sheet asks for it
 * @param here least rating of what sees B+ in this set, V
 * @returns the part, its rating in words with it
 * @source house rule: a part is rated for the highest voltage that it can meet
 */
export function ratedPart(part: Part, here: PartRating): Part {
  const own = part.seesBPlusRatedV;
  if (own === undefined) return part;
  const ratedV = Math.max(ratedFor(own), here.ratedV);
  const assumed = here.known ? "" : ", for a winding that is only assumed";
  return { ...part, seesBPlusRatedV: ratedV, rating: `${printValue(ratedV, "voltage")}${assumed}` };
}
