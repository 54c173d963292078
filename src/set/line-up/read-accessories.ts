import { bandsOf, regions } from "../../standards/bands";
import type { Fitting } from "../describe";

/** An accessory that a few words name: its id among the fittings, what it is, and how far it is. */
export interface SaidAccessory {
  readonly id: string;
  readonly state: Fitting["state"];
  /** the words, as they were typed */
  readonly words: string;
}
/** The band that a converter was said to be for: where it ends, and how that is known. */
export interface SaidBand {
  readonly lowHz: number;
  readonly highHz: number;
  readonly says: string;
}
const before = String.raw`^(?:(?:with|has|plus|and|also)\s+)?(?:an?\s+|the\s+|its\s+)?(?:own\s+|outboard\s+|external\s+|added\s+|built-in\s+)?`;
const behind = String.raw`(?:\s*,?\s*\(?(?<how>planned|wanted|to be fitted|to come|to be built|fitted|there|on it|plugged in)\)?)?\.?$`;
const kinds: readonly (readonly [id: string, name: string])[] = [
  ["qm", "q[- ]?mult(?:iplier)?"],
  [
    "markers",
    String.raw`(?:(?:\d+\s*k(?:c|hz)\s+)?(?:crystal|x'?tal)\s+(?:calibrator|marker)|calibrator|(?:\d+\s*k(?:c|hz)\s+)?marker (?:generator|oscillator))`,
  ],
  // the bare word is a tube's duty as well
  ["converter", String.raw`(?:(?:crystal|x'?tal)(?:[- ]controlled)?\s+converter(?:\s+for\s+[\w .,/–-]+?)?|converter\s+for\s+[\w .,/–-]+?)`],
];
const patterns = kinds.map(([id, name]) => [id, new RegExp(`${before}${name}${behind}`, "i")] as const);
const none = new RegExp(String.raw`^(?:no|without)(?:\s+(?:an?|any))?\s+(?:${kinds.map(([, name]) => name).join("|")})\.?$`, "i");
const notYet = /^(?:planned|wanted|to )/i;

/**
 * Accessories that some words name.
 *
 * @param said such as `with a Q multiplier`, `crystal calibrator and converter for 20 m`, `no Q multiplier`
 * @returns each once, none where the words say that there is none; undefined where they name none
 * @source words of the trade
 */
export function readAccessories(said: string): readonly SaidAccessory[] | undefined {
  const words = said.trim();
  if (none.test(words)) return [];
  for (const [id, pattern] of patterns) {
    const m = pattern.exec(words);
    if (m) return [{ id, state: notYet.test(m.groups?.how ?? "") ? "planned" : "fitted", words }];
  }
  // the first of them, and what stands behind it: an `and` may be of the bands of one
  const [, first, others] = /^(.+?)\s+and\s+(.+)$/i.exec(words) ?? [];
  const [one, more] = first === undefined ? [] : [readAccessories(first), readAccessories(others)];
  return one && more && [...one, ...more];
}
const span = /([\d.]+)\s*(?:[km](?:c|hz)s?(?:\/s)?)?\s*(?:-|–|to)\s*([\d.]+)\s*([km])(?:c|hz)/i;
/**
 * The band that the words of a converter name: by its frequencies, or by its length of wave, whose widest edges of any Region are taken.
 *
 * @param words such as `converter for 20 m`, `crystal converter for 28 - 30 Mc`
 * @returns its edges; of several bands the first; undefined where none is named that is known
 * @source standards/bands.ts
 */
export function bandInWords(words: string): SaidBand | undefined {
  const said = /\bfor\s+(.+)$/i.exec(words)?.[1] ?? "";
  const [, low, high, prefix] = span.exec(said) ?? [];
  if (low !== undefined) {
    const unit = prefix.toLowerCase() === "k" ? 1e3 : 1e6;
    const [lowHz, highHz] = [Number(low) * unit, Number(high) * unit];
    return lowHz > 0 && highHz > lowHz ? { lowHz, highHz, says: "as it was said" } : undefined;
  }
  const metres = /\b(\d+)\b(?=.*\bm(?:et(?:er|re)s?)?\b)/i.exec(said)?.[1];
  const own = regions.flatMap((r) => bandsOf(r)).filter((b) => b.band.split(", ").includes(`${metres} m`));
  if (own.length === 0) return undefined;
  const more = /\band\b|,/.test(said) ? ", the first of those named" : "";
  return {
    lowHz: Math.min(...own.map((b) => b.lowHz)),
    highHz: Math.max(...own.map((b) => b.highHz)),
    says: `the ${metres} m band at its widest${more}`,
  };
}
/** Field of the outline under which an accessory stands that was named. */
export const accessoryField = (id: string): string => `fittings.${id}`;
