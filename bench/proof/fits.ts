/** How often what a fit tells holds, on the invented worlds in samples/worlds: warm-ups, strips, resonators, noisy tops. */
import { readFileSync } from "node:fs";
import { tellWarmUp } from "../../src/infer/drift/tell-warm-up";
import { toComeHz } from "../../src/infer/drift/warm-up";
import { fitResonance } from "../../src/infer/resonance/fit";
import { type DialWorld, heldDial } from "../../src/invented/dials";
import { heldStrip, type StripWorld } from "../../src/invented/strips";
import type { Sweep } from "../../src/readings/sweep";
import { sweepFigures } from "../../src/readings/sweep-figures";
import { standardUncertainty } from "../../src/units/quantity";

const world = <T>(file: string, list: string): readonly T[] =>
  (JSON.parse(readFileSync(`samples/worlds/${file}.json`, "utf8")) as Record<string, T[]>)[list];
const kindsOf = <T>(all: readonly T[], of: (x: T) => string): readonly (readonly [string, readonly T[]])[] =>
  [...new Set(all.map(of))].map((k) => [k, all.filter((x) => of(x) === k)]);
const held = (yes: readonly boolean[]): string => (yes.length === 0 ? "" : `${yes.filter(Boolean).length} of ${yes.length}`);
const median = (v: readonly number[]): number => [...v].sort((a, b) => a - b)[v.length >> 1];
const row = (...cells: readonly string[]): string => `| ${cells.join(" | ")} |`;
const head = (...cells: readonly string[]): string[] => [row(...cells), row(...cells.map(() => "---"))];

interface Log {
  readonly law: string;
  readonly timeMin: readonly number[];
  readonly frequencyHz: readonly number[];
  readonly roomC?: readonly number[];
  readonly lineV?: readonly number[];
  readonly truth: { readonly stillToComeHz: number };
}
function driftOf(log: Log): { readonly told: boolean; readonly holds: boolean } {
  const timeS = Float64Array.from(log.timeMin, (m) => 60 * m);
  const told = tellWarmUp({
    timeS,
    hz: Float64Array.from(log.frequencyHz),
    ...(log.lineV ? { lineV: Float64Array.from(log.lineV) } : {}),
    ...(log.roomC ? { roomK: Float64Array.from(log.roomC) } : {}),
  });
  const left = told.possible.map((w) => -toComeHz(w, timeS[timeS.length - 1])).sort((a, b) => a - b);
  const at = (p: number): number => left[Math.floor(p * left.length)];
  return { told: told.noEnd === undefined, holds: at(0.025) <= log.truth.stillToComeHz && log.truth.stillToComeHz <= at(0.975) };
}
const driftTable = (): string[] => [
  ...head("warm-up", "logs", "end told", "told and held", "held of all, told or not"),
  ...kindsOf(world<Log>("drift", "logs"), (l) => l.law).map(([law, logs]) => {
    const all = logs.map(driftOf);
    const told = all.filter((a) => a.told);
    return row(law, String(logs.length), String(told.length), held(told.map((a) => a.holds)), held(all.map((a) => a.holds)));
  }),
];

const stripTable = (): string[] => [
  ...head("strip", "sweeps", "fitted", "width at -6 dB held", "half interval, median", "k Q of each can held"),
  ...kindsOf(world<StripWorld>("strips", "strips"), (s) => s.family).map(([family, strips]) => {
    const all = strips.flatMap((s) => heldStrip(s, "perhaps") ?? []);
    return row(
      family,
      String(strips.length),
      String(all.length),
      held(all.map((h) => h.width)),
      `${(100 * median(all.map((h) => h.partWidth))).toFixed(1)} %`,
      held(all.flatMap((h) => h.kQ)),
    );
  }),
];

const dialTable = (): string[] => [
  ...head("readings", "dials", "law given", "places of those held", "told as slipped or miscounted", "refused otherwise"),
  ...kindsOf(world<DialWorld>("dials", "dials"), (d) => d.family).map(([family, dials]) => {
    const all = dials.map(heldDial);
    const told = all.flatMap((h) => ("held" in h ? [h] : []));
    const [holds, asked] = [told.reduce((s, h) => s + h.held, 0), told.reduce((s, h) => s + h.asked, 0)];
    const called = all.filter((h) => "refused" in h && /^(slipped|miscounted|slipped-or-miscounted)$/.test(h.refused)).length;
    const others = all.length - told.length - called;
    return row(
      family,
      String(all.length),
      String(told.length),
      told.length ? `${((100 * holds) / asked).toFixed(0)} %` : "",
      String(called),
      String(others),
    );
  }),
];

interface Item {
  readonly id: string;
  readonly kind: string;
  readonly ports: number;
  readonly fHz: readonly number[];
  readonly s11Re?: readonly number[];
  readonly s11Im?: readonly number[];
  readonly s21Re?: readonly number[];
  readonly s21Im?: readonly number[];
  readonly truth: { readonly loadedQ: number; readonly unloadedQ: number };
}
function resonanceOf(x: Item) {
  const re = Float64Array.from(x.s11Re ?? x.s21Re ?? []);
  const im = Float64Array.from(x.s11Im ?? x.s21Im ?? []);
  const sweep: Sweep = {
    frequencyHz: Float64Array.from(x.fHz),
    levelDb: re.map((v, i) => 20 * Math.log10(Math.hypot(v, im[i]))),
    complex: { re, im },
    resolutionHz: 0,
    quantity: x.ports === 1 ? "S11" : "S21",
    ...(x.ports === 1 ? { reflection: true } : {}),
    warnings: [],
  };
  const r = fitResonance(sweep, x.id);
  return r.ok ? [{ fit: r.value, truth: x.truth }] : [];
}
const resonanceTable = (): string[] => [
  ...head("resonator", "sweeps", "fitted", "loaded Q held", "unloaded Q held"),
  ...kindsOf(world<Item>("resonance", "items"), (x) => x.kind).map(([kind, items]) => {
    const all = items.flatMap(resonanceOf);
    return row(
      kind,
      String(items.length),
      String(all.length),
      held(all.map(({ fit, truth }) => Math.abs(fit.loadedQ - truth.loadedQ) < 1.96 * fit.loadedQU)),
      held(all.flatMap(({ fit, truth }) => (fit.unloaded ? [Math.abs(fit.unloaded.q - truth.unloadedQ) < 1.96 * fit.unloaded.qU] : []))),
    );
  }),
];

interface Top {
  readonly law: string;
  readonly frequencyHz: readonly number[];
  readonly outputDb: readonly number[];
  readonly truth: { readonly width3Hz: number; readonly width6Hz: number };
}
function topOf(s: Top): { readonly three: boolean; readonly six: boolean } {
  const sweep: Sweep = {
    frequencyHz: Float64Array.from(s.frequencyHz),
    levelDb: Float64Array.from(s.outputDb),
    resolutionHz: 0,
    quantity: "level",
    warnings: [],
  };
  const figures = new Map(sweepFigures(sweep, "").map((f) => [f.name, f.quantity]));
  const holds = (name: string, truth: number): boolean => {
    const q = figures.get(name);
    return q !== undefined && Math.abs(q.value - truth) < 1.96 * standardUncertainty(q.spread);
  };
  return { three: holds("width at -3 dB", s.truth.width3Hz), six: holds("width at -6 dB", s.truth.width6Hz) };
}
const topTable = (): string[] => [
  ...head("top", "sweeps", "width at -3 dB held", "width at -6 dB held"),
  ...kindsOf(world<Top>("noisy-tops", "sweeps"), (s) => s.law).map(([law, sweeps]) => {
    const all = sweeps.map(topOf);
    return row(law, String(sweeps.length), held(all.map((a) => a.three)), held(all.map((a) => a.six)));
  }),
];

/** The page of figures. */
export const fitsPage = (): string =>
  [
    "# Study of the fits",
    "",
    "Made by `npm run proof:fits -- --write`: readings with noise from simulations in another language (`samples/worlds`), whose laws are on purpose more general than what is fitted. Held: the truth lies within the 95 % interval. Invented, so it proves the method and not any set.",
    "",
    "## Warm-ups: what is still to come after the last reading",
    "",
    ...driftTable(),
    "",
    "## Dials: zero beats, a reading noise of 0.1 division stated",
    "",
    ...dialTable(),
    "",
    "Refused otherwise: the readings scatter by far more than was stated, or a slip, and they are too few to tell.",
    "",
    "## IF strips: fitted with nothing said about the slugs",
    "",
    ...stripTable(),
    "",
    "Loaded Q and coupling of these strips are known beforehand as nominal values; k Q is the loaded one. A damped winding of a wild strip lowers its loaded Q far below what the description has. Where a fit leaves slugs, Q and coupling all open, k Q is told as more in doubt by 0.7 of its logarithm and by what it would be with each winding damped, and the width with it.",
    "",
    "## Resonators",
    "",
    ...resonanceTable(),
    "",
    "Quartz that is not fitted has fewer than three points within its width: refused.",
    "",
    "## Noisy tops: widths cut from the sweep itself",
    "",
    ...topTable(),
    "",
  ].join("\n");
