import type { Plain } from "../../ask/inputs";
import { stored } from "../../ask/stored";
import { line, supplies } from "../../set/addresses/power";
import type { Bench } from "../../set/bench";
import { rectifierByType, siliconDropV } from "../../standards/rectifiers";
import { exact, type Quantity, tolerance } from "../../units/quantity";
import { onChartCard } from "./chart-line";
import { lineAsRated, lineToday } from "./line-now";
import { supplyChartInputs } from "./supply-chart";

/** Today's line: as it was read at the outlet, or beside the chart's volts. */
export const lineVoltageInput = {
  ...stored(line.today),
  from: (b: Bench) => lineToday(b) ?? onChartCard(b, "Line volts") ?? lineAsRated(b),
};

/** The rectifier that the set is described with, in its owner's words. */
const rectifierSaid = (b: Bench): string => b.choice("supplies.rectifier") ?? "";
/**
 * Whether a set takes its B+ straight from the line.
 *
 * @param b the set
 * @returns true where it is described so
 * @source house rule
 */
export const isFromLine = (b: Bench): boolean => /from the line/.test(rectifierSaid(b));
/**
 * What is usual in a set without a power transformer, where nothing is known.
 *
 * @param value SI
 * @returns where the quantity comes from; undefined for a set that has a transformer
 * @source common practice, no source
 */
export const withoutTransformer =
  (value: number) =>
  (b: Bench): Quantity | undefined =>
    isFromLine(b)
      ? { value, spread: exact, origin: "assumed", source: "usual in a transformerless set, common practice, no source" }
      : undefined;

function arrangementSaid(b: Bench): "half-wave" | "bridge" | "full-wave" | undefined {
  const said = rectifierSaid(b);
  return /half/.test(said) ? "half-wave" : /bridge/.test(said) ? "bridge" : said ? "full-wave" : undefined;
}
/** What rectifies now, where that is a vacuum type. */
function vacuumNow(b: Bench): string | undefined {
  const now = b.choice(supplies.rectifierType.address);
  return now && rectifierByType(now) ? now : undefined;
}
/** Currents that were measured are those of the set as it stands. */
const measuredNow = (b: Bench): "as-it-stands" | undefined =>
  [supplies.plateCurrent, supplies.restCurrent].some((s) => b.quantity(s.address)?.origin === "measured") ? "as-it-stands" : undefined;

/** A figure of the type of rectifier that was chosen, before what is stored of another. */
const byType =
  (of: (type: string) => Omit<Quantity, "origin"> | undefined) =>
  (_: Bench, chosen: Readonly<Record<string, string>>): Quantity | undefined => {
    const row = of(chosen.rectifierType ?? "");
    return row && { ...row, origin: "stated" };
  };
const dropByType = byType((t) => {
  if (t === "silicon") return { value: siliconDropV, spread: tolerance(0.1), source: "silicon, at any current of a receiver" };
  const r = rectifierByType(t);
  return r && { value: r.dropV, spread: tolerance(0.1 * r.dropV), source: `${r.type}: ${r.source} (${r.seen})` };
});
const currentByType = byType((t) => {
  const r = rectifierByType(t);
  return r && { value: r.atA, spread: exact, source: `${r.type}: ${r.source} (${r.seen})` };
});

/** Everything that B+ follows from, asked for by each sheet that gives it. */
export const supplyInputs = {
  arrangement: stored(supplies.arrangement, { from: arrangementSaid }),
  rectifierType: stored(supplies.rectifierType),
  originalRectifier: stored(supplies.originalRectifier, { from: vacuumNow }),
  rectifierDrop: stored(supplies.rectifierDrop, { over: dropByType }),
  rectifierCurrent: stored(supplies.rectifierCurrent, { over: currentByType }),
  lineVoltage: lineVoltageInput,
  ratedLine: stored(line.voltage),
  lineFrequency: stored(line.frequency),
  highLine: stored(line.highRatio),
  secondaryVoltage: stored(supplies.secondaryVoltage),
  secondaryResistance: stored(supplies.secondaryResistance, { from: withoutTransformer(30) }),
  primaryResistance: stored(supplies.primaryResistance, { from: withoutTransformer(0) }),
  addedResistance: stored(supplies.addedResistance),
  filterInput: stored(supplies.filterInput),
  firstCapacitance: stored(supplies.firstCapacitance, { from: withoutTransformer(4e-5) }),
  firstChoke: stored(supplies.firstChoke, { from: withoutTransformer(0) }),
  firstResistance: stored(supplies.firstResistance, { from: withoutTransformer(200) }),
  secondCapacitance: stored(supplies.secondCapacitance, { from: withoutTransformer(4e-5) }),
  secondChoke: stored(supplies.secondChoke),
  secondResistance: stored(supplies.secondResistance, { from: withoutTransformer(1000) }),
  thirdCapacitance: stored(supplies.thirdCapacitance),
  plateCurrent: stored(supplies.plateCurrent, { from: withoutTransformer(0.04) }),
  restCurrent: stored(supplies.restCurrent, { from: withoutTransformer(0.014) }),
  currentsAre: stored(supplies.currentsAre, { from: measuredNow }),
  loadExponent: stored(supplies.loadExponent),
  bleeder: stored(supplies.bleeder),
  lossRatio: stored(supplies.lossRatio),
  ...supplyChartInputs,
} as const;
export type SupplyInputs = Plain<typeof supplyInputs>;

/**
 * The crest of the winding at the highest line, where both are known.
 *
 * @param bench the set
 * @returns V, exact; undefined where either is not known
 * @source crest of a sine, sqrt 2 Vs
 */
export function crestHere(bench: Bench): Quantity | undefined {
  const winding = bench.quantity(supplies.secondaryVoltage.address);
  const high = bench.quantity(line.highRatio.address);
  if (!winding || !high) return undefined;
  return {
    value: Math.SQRT2 * winding.value * high.value,
    spread: exact,
    origin: "assumed",
    source: "crest of the winding at the highest line",
  };
}
