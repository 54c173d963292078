import { type Quantity, tolerance } from "../units/quantity";
import { spreadOf } from "./addresses/declare";
import type { HistoryName } from "./addresses/history";
import { supplies } from "./addresses/power";
import type { SetDescription } from "./describe";
import { putValue, quantityAt } from "./paths";
import type { DescribedStrip } from "./strip";

/** What is no longer known once others changed it: by path, half of what it may be off by against what the set was made with, and why. Common practice, no source. */
interface Loosened {
  readonly path: string;
  readonly part: number;
  readonly why: string;
}
const winding = "the transformer is not the maker's: nobody has measured its volts";
const cooked = "the transformer was overheated: turns may be shorted";
const loosens: Readonly<Partial<Record<HistoryName, readonly Loosened[]>>> = {
  transformerReplaced: [
    { path: "supplies.secondaryVoltage", part: 0.25, why: winding },
    { path: "supplies.secondaryResistance", part: 0.6, why: winding },
    { path: "supplies.primaryResistance", part: 0.6, why: winding },
  ],
  transformerOverheated: [
    { path: "supplies.secondaryVoltage", part: 0.1, why: cooked },
    { path: "supplies.secondaryResistance", part: 0.4, why: cooked },
    { path: "supplies.primaryResistance", part: 0.4, why: cooked },
  ],
  capacitorsReplaced: [
    { path: "supplies.firstCapacitance", part: 0.6, why: "capacitors were replaced: nobody has read what is there now" },
    { path: "supplies.secondCapacitance", part: 0.6, why: "capacitors were replaced: nobody has read what is there now" },
  ],
};
const usualAt: Readonly<Record<string, Quantity>> = Object.fromEntries(
  Object.values(supplies).flatMap((a) =>
    a.kind === "quantity" && a.usual
      ? [[a.address, { value: a.usual[0], spread: spreadOf(a.usual), origin: "assumed", source: a.usual[2] }] as const]
      : [],
  ),
);

/**
 * Widens what the set's record may no longer be trusted for once others changed something: what was measured stays as it is.
 *
 * @param set the set; changed
 * @param name what others did
 * @source common practice, no source
 */
export function loosen(set: SetDescription, name: HistoryName): void {
  for (const { path, part, why } of loosens[name] ?? []) {
    const q = quantityAt(set, path) ?? usualAt[path];
    if (q === undefined || q.origin === "measured" || q.origin === "fitted") continue;
    putValue(set, path, { value: q.value, spread: tolerance(part * Math.abs(q.value)), origin: "assumed", source: why });
  }
  if (name !== "rectifierChanged") return;
  const is = set.supplies.choices?.rectifierType ?? "";
  set.guessed = {
    ...set.guessed,
    "supplies.rectifierType": { is, from: "what the set was made for; somebody changed it, and silicon is the usual thing" },
  };
}

/** How far a slug that somebody turned may be off. Common practice, no source; the same as the fit of a sweep takes. */
const turnedHz = 3500;
/**
 * The strip as far as it is known where somebody turned its slugs: offsets that nobody measured are wide open.
 *
 * @param strip as described
 * @returns a copy
 * @source common practice, no source
 */
export function withTurnedSlugs(strip: DescribedStrip): DescribedStrip {
  const open = (q: Quantity): Quantity =>
    q.origin === "assumed" ? { ...q, spread: tolerance(turnedHz), source: "somebody turned the slugs: alignment not known" } : q;
  return {
    ...strip,
    cans: strip.cans.map((c) => ({ ...c, primaryOffset: open(c.primaryOffset), secondaryOffset: open(c.secondaryOffset) })),
  };
}
