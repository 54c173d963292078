import { normalStream } from "../numerics/random";
import type { Sampling } from "../units/draws";
import type { Issue } from "../units/issue";
import type { Ask } from "./answered";
import type { AnySheet, Chance } from "./contract";
import type { Drawn } from "./draw";
import type { PlainInputs } from "./inputs";
import type { NoValue } from "./results";

/** A sheet that doesn't keep to its own declaration: a defect, never the fault of what was typed. */
export class SheetMistake extends Error {}

/** What a sheet gave over all draws. */
export interface Worked {
  /** results and curves at the best values */
  readonly best: Readonly<Record<string, number | NoValue>>;
  readonly nominal: Readonly<Record<string, Float64Array>>;
  readonly axes: Readonly<Record<string, Float64Array>>;
  /** each result by draw, NaN where there is none; and the reason of the last such draw */
  readonly byDraw: Readonly<Record<string, Float64Array>>;
  readonly whyNot: Readonly<Record<string, string>>;
  /** each curve whose band is wanted: all draws of its first point, then of its second, and so on */
  readonly points: Readonly<Record<string, Float64Array>>;
  /** names of those curves */
  readonly bands: ReadonlySet<string>;
  /** draws that were made: 1 where nothing varies */
  readonly draws: number;
  readonly moving: boolean;
}
interface How {
  readonly plain: PlainInputs;
  readonly drawn: Drawn;
  readonly sampling: Sampling;
  readonly points: number;
  readonly bands: Ask["bands"];
  readonly progress?: ((said: string) => void) | undefined;
}

/** Draws of a curve that are turned from curve after curve into point after point at once, and points: as many as stay in the nearest cache. */
const block = 32;
const tile = 8;

/**
 * Works a sheet out at its best values and over all draws.
 *
 * @param sheet the sheet
 * @param how its plain inputs with their draws, seed, points of a curve
 * @returns everything that it gave; or what it can't answer, located
 * @throws {SheetMistake} where its results are not those that it declares
 * @source JCGM 101:2008 clause 7
 */
export function runSheet(sheet: AnySheet, how: How): Worked | { readonly issues: readonly Issue[] } {
  const { plain, drawn, sampling } = how;
  const bands = bandsOf(sheet, how.bands);
  const plan = sheet.prepare(plain, how.points, chanceOf(sheet, sampling, bands, how.progress));
  if (plan.issues && plan.issues.length > 0) return { issues: plan.issues };
  const axes: Readonly<Record<string, Float64Array>> = plan.axes;
  const into = Object.fromEntries(Object.entries(axes).map(([k, a]) => [k, new Float64Array(a.length)]));
  const names = Object.keys(sheet.results);
  const best = plan.solve(plain, into, -1);
  checkNames(sheet, names, best);
  const nominal = Object.fromEntries(Object.entries(into).map(([k, a]) => [k, a.slice()]));
  const moving = drawn.varies || (plan.varies ?? false);
  const draws = moving ? sampling.draws : 1;
  const byDraw = Object.fromEntries(names.map((n) => [n, new Float64Array(sampling.draws)]));
  const kept = names.map((n) => byDraw[n]);
  const whyNot: Record<string, string> = {};
  const curves = Object.entries(into).flatMap(([name, values]) =>
    moving && bands.has(name) ? [{ name, values, kept: curveByPoint(values.length, draws) }] : [],
  );
  for (let i = 0; i < draws; i++) {
    drawn.put(i);
    const y = plan.solve(plain, into, moving ? i : -1);
    for (let k = 0; k < names.length; k++) {
      const v = y[names[k]];
      kept[k][i] = typeof v === "number" ? v : Number.NaN;
      if (typeof v !== "number") whyNot[names[k]] = v.none;
    }
    for (const c of curves) c.kept.take(c.values, i);
  }
  if (!moving) for (const n of names) byDraw[n].fill(byDraw[n][0]);
  drawn.put(-1);
  const points = Object.fromEntries(curves.map((c) => [c.name, c.kept.all]));
  return { best: Object.fromEntries(names.map((n) => [n, best[n]])), nominal, axes, byDraw, whyNot, points, bands, draws, moving };
}

/** Curves whose band is wanted: those that a figure draws with one, or all. */
const bandsOf = (sheet: AnySheet, bands: Ask["bands"]): ReadonlySet<string> =>
  new Set(bands === "all" ? Object.keys(sheet.curves) : sheet.figures.flatMap((f) => f.traces.flatMap((t) => (t.band ? [t.curve] : []))));

/** What a sheet may draw itself, standard normals by name, and which curves are worth filling. */
function chanceOf(sheet: AnySheet, { seed, draws }: Sampling, bands: ReadonlySet<string>, progress: How["progress"]): Chance {
  const streams = new Map<string, Float64Array>();
  const stream = (name: string): Float64Array => {
    const known = streams.get(name) ?? normalStream(seed, `${sheet.id} ${name}`, draws);
    streams.set(name, known);
    return known;
  };
  const wanted = (curve: string, draw: number): boolean => draw < 0 || bands.has(curve);
  return { draws, stream, wanted, ...(progress ? { progress } : {}) };
}

/** Keeps draws of a curve by its points, writing along memory: a few curves are held, then turned at once. */
function curveByPoint(length: number, draws: number) {
  const all = new Float64Array(length * draws);
  const held = new Float64Array(length * block);
  return {
    all,
    take: (values: Float64Array, i: number): void => {
      const at = i % block;
      held.set(values, at * length);
      if (at < block - 1 && i < draws - 1) return;
      for (let from = 0; from < length; from += tile) {
        const end = Math.min(length, from + tile);
        for (let b = 0; b <= at; b++) {
          let to = from * draws + i - at + b;
          for (let p = from; p < end; p++, to += draws) all[to] = held[b * length + p];
        }
      }
    },
  };
}

function checkNames(sheet: AnySheet, names: readonly string[], solved: object): void {
  const got = Object.keys(solved);
  const extra = got.find((n) => !names.includes(n)) ?? names.find((n) => !got.includes(n));
  if (extra) throw new SheetMistake(`sheet ${sheet.id}: solve and declared results differ in "${extra}"`);
}
