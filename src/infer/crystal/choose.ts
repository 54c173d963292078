import {
  type Birdie,
  birdiesOf,
  type ConverterPlan,
  dialHz,
  imageOf,
  type ReceiverBehind,
  type Response,
  responsesOf,
  tunedOver,
  usualOvertone,
} from "../../physics/converter";
import { circuitsRejectionDb } from "../../physics/images";
import { bandsOf } from "../../standards/bands";
import { broadcastBands, type Crowded } from "../../standards/broadcast";

/** A range that the receiver tunes, Hz. */
export interface TuningRange {
  readonly lowHz: number;
  readonly highHz: number;
}
export interface CrystalWish {
  readonly lowHz: number;
  readonly highHz: number;
  readonly ranges: readonly TuningRange[];
  readonly receiver: ReceiverBehind;
  /** tuned circuits at the converter's input, on the wanted band: number, and loaded Q of each */
  readonly circuits: number;
  readonly qRatio: number;
  /** largest sum of harmonics that is looked at */
  readonly order: number;
  /** crystals to choose from; where there are none, every multiple of `gridHz` that would do */
  readonly stock: readonly number[];
  readonly gridHz: number;
}
export interface Trap {
  readonly says: string;
  readonly points: number;
}
export interface CrystalChoice {
  readonly plan: ConverterPlan;
  /** place of the tuning range in the wish */
  readonly range: number;
  readonly overtone: 1 | 3 | 5;
  /** worst over the band, by the input circuits alone, dB */
  readonly imageDb: number;
  readonly feedThroughDb: number;
  readonly responses: readonly Response[];
  readonly birdies: readonly Birdie[];
  readonly traps: readonly Trap[];
  readonly points: number;
}
const crowded: readonly Crowded[] = [
  ...broadcastBands,
  ...bandsOf("ITU Region 2").map((b) => ({ name: `the ${b.band} amateur band`, lowHz: b.lowHz, highHz: b.highHz })),
];
/** Names of what stands in a range. */
export const crowdIn = (lowHz: number, highHz: number): readonly string[] =>
  crowded.filter((c) => c.lowHz < highHz && c.highHz > lowHz).map((c) => c.name);

/** Signal circuits of a usual receiver, for its own image: common practice, no source. */
const usualCircuits = 2;
const usualQ = 60;
/** Broadcast carriers come through where others do not. */
const isStrong = (names: readonly string[]): boolean => names.some((n) => n.includes("broadcasting"));
const middle = (r: { readonly lowHz: number; readonly highHz: number }): number => (r.lowHz + r.highHz) / 2;
/** Rejection by the input circuits, at the end where it is worst: both ends of the band against where the other signal then is. */
const worstDb = (w: CrystalWish, p: ConverterPlan, other: (dial: number) => number): number =>
  Math.min(...[p.lowHz, p.highHz].map((f) => circuitsRejectionDb(w.circuits, w.qRatio, f, Math.max(1, other(dialHz(p, f))))));
const mhz = (hz: number): string => String(Number((hz / 1e6).toFixed(4)));

/** What speaks against a plan, in words, each with points: common practice, no source. */
function trapsOf(w: CrystalWish, c: Omit<CrystalChoice, "traps" | "points">): Trap[] {
  const { plan: p } = c;
  const out: Trap[] = [];
  const put = (points: number, says: string): void => {
    out.push({ points, says });
  };
  if (p.side === "above") put(2, "the dial runs backward, and sidebands are swapped");
  const image = imageOf(p);
  const onImage = crowdIn(image.lowHz, image.highHz);
  if (onImage.length > 0) put((c.imageDb < 50 ? 4 : 2) * (isStrong(onImage) ? 2 : 1), `the image lies on ${onImage.join(" and ")}`);
  if (c.imageDb < 50) put((50 - c.imageDb) / 3, `the image is only ${c.imageDb.toFixed(0)} dB down`);
  const [low, high] = tunedOver(p);
  const onDial = crowdIn(low, high);
  if (onDial.length > 0) put(isStrong(onDial) ? 6 : 1, `around the converter, the receiver itself hears ${onDial.join(" and ")}`);
  for (const r of c.responses) {
    if (r.crossHz === undefined) continue;
    const order = r.m + r.n;
    put(order <= 5 ? 8 : order <= 9 ? 3 : 1, `a signal near ${mhz(r.crossHz)} MHz whistles with itself (order ${order})`);
  }
  for (const b of c.birdies)
    put(
      b.kind.startsWith("crystal") ? 4 : b.kind === "IF harmonic" ? 1 : b.p <= 5 ? 2 : b.p <= 9 ? 1 : 0.25,
      `a steady note at ${mhz(b.dialHz)} MHz on the dial: ${sayBirdie(b)}`,
    );
  const round = Math.round(p.crystalHz);
  if (round % 100e3 !== 0) put(3, "not a multiple of 100 kHz: the dial needs a sum, and markers can't measure the crystal");
  else if (round % 500e3 !== 0) put(1, "not a multiple of 500 kHz: the dial needs a sum");
  const range = w.ranges[c.range];
  const part = (p.highHz - p.lowHz) / (range.highHz - range.lowHz);
  if (part < 0.7) put(8 * (1 - part), `the band takes only ${Math.max(1, Math.round(part * 100))} % of that scale`);
  const dial = (low + high) / 2;
  const own = circuitsRejectionDb(usualCircuits, usualQ, dial, dial + 2 * w.receiver.ifHz);
  if (own < 50) put((50 - own) / 5, `on this range the receiver's own image is only about ${own.toFixed(0)} dB down`);
  put(dial / 4e6, `up at ${mhz(dial)} MHz the receiver drifts more in proportion`);
  if (c.overtone === 5) put(1, "a fifth-overtone crystal is harder to start");
  return out;
}
/** What makes a birdie, in words. */
export const sayBirdie = (b: Birdie): string =>
  b.kind === "IF harmonic"
    ? `harmonic ${b.p} of the IF`
    : b.kind === "receiver's oscillator"
      ? `harmonic ${b.p} of the receiver's oscillator${b.q > 0 ? ` with ${b.q === 1 ? "the crystal" : `harmonic ${b.q} of the crystal`}` : ""}`
      : `harmonic ${b.p} of the crystal's fundamental, ${b.kind === "crystal on the dial" ? "on the dial itself" : "in the wanted band"}`;

/**
 * A plan looked into, or nothing where the crystal itself lies in the band or on the dial.
 *
 * @param w what is wanted
 * @param plan crystal, band and side, Hz
 * @param range place of the tuning range of the receiver
 * @returns rejections in dB and what the crystal costs; undefined where the crystal lies where it would be heard
 * @source mixing: dial = |signal - crystal|, image at crystal + or - dial; physics/converter.ts
 */
export function lookInto(w: CrystalWish, plan: ConverterPlan, range: number): CrystalChoice | undefined {
  const [low, high] = tunedOver(plan);
  if (low <= 0 || (plan.crystalHz >= low && plan.crystalHz <= high)) return undefined;
  if (plan.crystalHz >= plan.lowHz && plan.crystalHz <= plan.highHz) return undefined;
  const overtone = usualOvertone(plan.crystalHz);
  const image = imageOf(plan);
  const sign = plan.side === "below" ? -1 : 1;
  const c = {
    plan,
    range,
    overtone,
    imageDb: worstDb(w, plan, (d) => Math.abs(plan.crystalHz + sign * d)),
    feedThroughDb: worstDb(w, plan, (d) => d),
    // what the input circuits let through: the band and half its width to each side, but the image
    responses: responsesOf(plan, w.order, plan.lowHz, plan.highHz).filter(
      (r) => !(r.m === image.m && r.n === image.n && r.way === image.way),
    ),
    birdies: birdiesOf(plan, w.receiver, overtone, w.order),
  };
  const traps = trapsOf(w, c);
  return { ...c, traps, points: traps.reduce((s, t) => s + t.points, 0) };
}

/**
 * Plans that a wish allows, before they are looked into.
 *
 * @param w what is wanted
 * @returns every crystal of the stock, or of the grid, that puts the whole band inside a range, from either side
 * @source mixing: dial = |signal - crystal|
 */
export function plansFor(w: CrystalWish): { readonly plan: ConverterPlan; readonly range: number }[] {
  const out: { plan: ConverterPlan; range: number }[] = [];
  const width = w.highHz - w.lowHz;
  for (const [range, r] of w.ranges.entries()) {
    if (r.highHz - r.lowHz < width * (1 - 1e-9)) continue;
    for (const side of ["below", "above"] as const) {
      const [from, to] = side === "below" ? [w.highHz - r.highHz, w.lowHz - r.lowHz] : [w.highHz + r.lowHz, w.lowHz + r.highHz];
      const fits = (x: number): boolean => x >= from - 1 && x <= to + 1 && x > 0;
      const all =
        w.stock.length > 0
          ? w.stock
          : Array.from({ length: Math.max(0, Math.floor(to / w.gridHz + 1e-9) - Math.ceil(from / w.gridHz - 1e-9) + 1) }, (_, i) =>
              Math.round((Math.ceil(from / w.gridHz - 1e-9) + i) * w.gridHz),
            );
      for (const crystalHz of all) if (fits(crystalHz)) out.push({ range, plan: { crystalHz, side, lowHz: w.lowHz, highHz: w.highHz } });
    }
  }
  return out;
}

/**
 * Ranks crystals for a band: every plan is looked into up to the order, and the one with the fewest points against it comes first.
 *
 * @param w the wish
 * @param progress told how many of how many are done, every hundred
 * @returns choices, best first; empty where no range is wide enough or no crystal fits
 * @source sums of frequencies; the points are common practice, no source
 */
export function chooseCrystals(w: CrystalWish, progress: (done: number, of: number) => void = () => undefined): CrystalChoice[] {
  const plans = plansFor(w);
  const out: CrystalChoice[] = [];
  for (const [i, { plan, range }] of plans.entries()) {
    if (i % 100 === 0) progress(i, plans.length);
    const c = lookInto(w, plan, range);
    if (c) out.push(c);
  }
  progress(plans.length, plans.length);
  return out.sort(
    (a, b) => a.points - b.points || middle(w.ranges[a.range]) - middle(w.ranges[b.range]) || a.plan.crystalHz - b.plan.crystalHz,
  );
}
