import { hazardousAcV, hazardousDcV } from "../../standards/cautions";
import { printValue, printVolts, unitFor } from "../../units/print";
import type { PartRating } from "../findings";
import type { Volts } from "./circuit";

const sized = (v: number): number => Math.abs(v);
/** The highest volts, either way, that are said of a node. */
const highest = (v: Volts): number =>
  Math.max(0, ...[v.expected?.low, v.expected?.high, v.read, v.most].filter((x) => x !== undefined).map(sized));

/**
 * Whether the volts of a node can kill.
 *
 * @param v what is read, expected and possible there
 * @returns true above the limit of IEC 62368-1, DC or AC as the node has it
 * @source IEC 62368-1 energy source class 1, see cautions
 */
export const kills = (v: Volts): boolean => highest(v) > (v.ac ? hazardousAcV : hazardousDcV).value;

/** Volts as a meter shows them: no finer than a volt above ten, a tenth above one. */
const asRead = (v: number): string => printValue(v, "voltage", sized(v) >= 10 ? 3 : sized(v) >= 1 ? 0.3 : 0.03);

/** Both ends in the unit of the greater, without idle zeros. */
function between({ low, high }: NonNullable<Volts["expected"]>): string {
  const { unit, factor } = unitFor(Math.max(sized(low), sized(high)), "voltage");
  const each = (v: number): string => {
    const x = v / factor;
    return String(Number(x.toFixed(sized(x) >= 100 ? 0 : sized(x) >= 10 ? 1 : 2)));
  };
  const [from, to] = [each(low), each(high)];
  return `${from === to ? from : `${from} to ${to}`} ${unit}`;
}

/**
 * Volts of a node in a few words, a line each: what was read first, since it is what hands rely on.
 *
 * @param v what is read, expected and possible there
 * @returns lines such as `read 271 V`, `expect 260 V to 290 V`, `up to 420 V`
 * @source house frame
 */
export function voltsSaid(v: Volts): string[] {
  const ac = v.ac ? " AC" : "";
  const { expected } = v;
  const sure = v.assumed ? "?" : "";
  return [
    ...(v.read === undefined ? [] : [`read ${printVolts(v.read)}${ac}`]),
    ...(expected ? [`expect ${between(expected)}${ac}${sure}`] : []),
    ...(v.most === undefined ? [] : [`up to ${asRead(v.most)}${ac}${sure}`]),
  ];
}

/**
 * The same where there is room for one figure: what was read, else what is expected, else the most.
 *
 * @param v what is read, expected and possible there
 * @returns such as `271 V`
 * @source house frame
 */
export function voltsInShort(v: Volts): string {
  if (v.read !== undefined) return printVolts(v.read);
  return v.expected ? `≈ ${asRead((v.expected.low + v.expected.high) / 2)}` : v.most === undefined ? "" : `≤ ${asRead(v.most)}`;
}

/**
 * The most that B+ reaches in this set, with nothing drawn at the highest line.
 *
 * @param rating what a part must be rated that can see B+
 * @returns volts of a node of B+
 * @source ratingForHere
 */
export const bPlusMost = (rating: PartRating): Volts => ({ most: rating.crestV, ...(rating.known ? {} : { assumed: true }) });
