import type { Figure } from "../../ask/results";
import { printInterval, printValue } from "../../units/print";
import { upperFirst } from "../../units/sentence";
import type { G, Names } from "./ask";
import { type Alone, aloneOf, blame, gangAlone, isNothingOff, otherSideAt, type PartName, type Trade, tradesOf } from "./blame";
import { type Tracked, tracked } from "./circuit";

/** What may be off, by the result that tells it; of the trimmer it is all that is across the gang, since that is what turning it sets. */
export const told = { coil: "coilOff", trimmer: "acrossOff", padder: "padderOff" } as const satisfies Record<PartName, Names>;
const partNames = Object.keys(told) as PartName[];

/**
 * Known to be off.
 *
 * @param f a figure of what is off
 * @returns true where nothing lies outside its interval
 * @source house rule
 */
export const isSure = (f: Figure): boolean => f.low !== null && f.high !== null && (f.low > 0 || f.high < 0);
/** A figure that is known to a factor of two or so is no certainty yet. */
const maybe = (f: Figure): string => (Math.abs(f.value ?? 0) > (f.high ?? 0) - (f.low ?? 0) ? "" : "perhaps ");
const isMore = (f: Figure): boolean => (f.value ?? f.low ?? 0) > 0;
/** Its size without its sign. */
const sizeOf = (f: Figure): string => {
  const [low, high] = isMore(f) ? [f.low ?? 0, f.high ?? 0] : [-(f.high ?? 0), -(f.low ?? 0)];
  return printInterval(f.value === null ? null : Math.abs(f.value), low, high, f.dimension);
};
/**
 * What is off with its interval.
 *
 * @param name the part
 * @param f by how much
 * @returns a sentence without its end
 * @source house rule
 */
export const sayOff = (name: string, f: Figure): string =>
  f.dimension === "capacitance"
    ? `Across the gang there is ${sizeOf(f)} too ${isMore(f) ? "much" : "little"} (trimmer, strays, or the gang's own)`
    : `The ${name} is ${sizeOf(f)} too ${isMore(f) ? "large" : "small"}`;
const shortOff = (g: G, name: string, result: Names, open = false): string => {
  const f = g.figures[result];
  const perhaps = open ? "perhaps " : maybe(f);
  const size = g.about(result).replace(/^-/, "");
  return f.dimension === "capacitance"
    ? `there is ${perhaps}${size} too ${isMore(f) ? "much" : "little"} across the gang (trimmer or strays)`
    : `the ${name} is ${perhaps}${size} too ${isMore(f) ? "large" : "small"}`;
};

/** The other side of a tie, in words. */
const bentGang = "the gang itself is bent";
/**
 * The tie of a part with the gang.
 *
 * @param g inputs and results
 * @param orGang whether there is one
 * @returns a sentence; empty where there is none
 * @source house rule
 */
export const orGangSaid = (g: G, orGang: boolean): string =>
  orGang
    ? ` Or ${bentGang}: within its uncertainty of ${printValue(g.best.gangDoubt, "capacitance")} it explains these readings as well, every part right.`
    : "";

/** What the readings come to. */
export type Verdict =
  | { readonly kind: "wrong-side"; readonly where: string }
  | { readonly kind: "unexplained" }
  | { readonly kind: "nothing-off" }
  | { readonly kind: "none-sure"; readonly trades: readonly Trade[]; readonly alone: readonly Alone[] }
  | {
      readonly kind: "parts";
      readonly parts: readonly PartName[];
      readonly trades: readonly Trade[];
      /** a tie: a bent gang explains the readings as well */
      readonly orGang: boolean;
    };
/**
 * The verdict of the readings.
 *
 * @param g inputs and results
 * @returns undefined without any, or without parts to blame
 * @source house rule, on blame.ts
 */
export function verdictOf(g: G): Verdict | undefined {
  const x = g.best;
  const t: Tracked | undefined = tracked(x);
  const found = t && blame(x, t);
  if (!found || !t) return undefined;
  const where = otherSideAt(x, t);
  if (where) return { kind: "wrong-side", where };
  if (!found.explained) return { kind: "unexplained" };
  if (isNothingOff(found)) return { kind: "nothing-off" };
  const parts = partNames.filter((n) => isSure(g.figures[told[n]]));
  const trades = tradesOf(found);
  return parts.length === 0
    ? { kind: "none-sure", trades, alone: aloneOf(x, t) }
    : { kind: "parts", parts, trades, orGang: gangAlone(x, t) };
}

/**
 * The verdict in a sentence.
 *
 * @param g inputs and results
 * @returns undefined without readings
 * @source house rule
 */
export function blamedIn(g: G): string | undefined {
  const v = verdictOf(g);
  const signal = (["signalCoilOff", "signalTrimmerOff"] as const).filter((n) => isSure(g.figures[n]));
  const said = [
    ...(v ? [saidOf(g, v)] : []),
    ...(g.figures.signalCoilOff.low === null
      ? []
      : [
          signal.length > 0
            ? `In the signal circuit ${signal.map((n) => shortOff(g, n === "signalCoilOff" ? "coil" : "trimmer", n)).join(", ")}.`
            : "The signal circuit peaks where it should.",
        ]),
  ];
  return said.length > 0 ? said.join(" ") : undefined;
}
function saidOf(g: G, v: Verdict): string {
  switch (v.kind) {
    case "wrong-side":
      return `The oscillator is on the wrong side on ${v.where}: no adjustment will settle until that is put right.`;
    case "unexplained":
      return "No setting of coil, trimmer and padder explains these readings.";
    case "nothing-off":
      return g.best.dialDrawnTo === "oscillator"
        ? "The dial is right as far as these readings tell: nothing to do."
        : "The dial is as right as this design allows, as far as these readings tell: nothing to do.";
    case "none-sure":
      return `The dial is off, and these readings can't tell which part is at fault.${aloneSaid(v.alone)}`;
    case "parts":
      return `${upperFirst(v.parts.map((n) => shortOff(g, n, told[n], v.orGang)).join(", "))}${v.orGang ? `, or ${bentGang}` : ""}.`;
  }
}
/**
 * Which parts could do it each by itself.
 *
 * @param alone the parts
 * @returns a sentence; empty where none could
 * @source house rule
 */
export const aloneSaid = (alone: readonly Alone[]): string => {
  if (alone.length === 0) return "";
  const one = ({ part, share, u }: Alone): string =>
    `the ${part}, ${printValue(Math.abs(share), "fraction", u)} too ${share > 0 ? "large" : "small"}`;
  return ` If one alone is off it ${alone.length === 1 ? "is" : "may be"} ${alone.map(one).join(", or ")}.`;
};
/**
 * What these readings can't tell apart.
 *
 * @param trades pairs of parts
 * @returns a sentence; empty where they tell all
 * @source house rule
 */
export const tradesSaid = (trades: readonly Trade[]): string =>
  trades.length === 0
    ? ""
    : `These readings can't tell ${trades.map((t) => `a larger ${t.one} from a ${t.together ? "smaller" : "larger"} ${t.other}`).join(", or ")}: either has nearly the same effect at these marks.`;
