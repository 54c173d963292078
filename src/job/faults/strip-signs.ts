import { StripResponse } from "../../physics/if-strip";
import { peakOf, widthHz } from "../../physics/passband";
import { quantityAt } from "../../set/paths";
import { plainStrip } from "../../set/strip";
import { printValue } from "../../units/print";
import type { Reading } from "../document";
import { entryOfReading, lastRead } from "../readings-in";
import type { JobView } from "../view";
import type { Sign } from "./sign";

/** How much less may pass at the peak's mirror place, dB: two equal humps lie even about the centre, one that sits beside it does not. Common practice, no source. */
const mostLopsidedDb = 1.5;
/** How much wider at -6 dB than its cans as described: their Q and coupling are known to a tenth or so, which moves the width by less. Common practice, no source. */
const mostWiderRatio = 1.3;

const hz = (v: number): string => printValue(v, "frequency", Math.max(1, Math.abs(v) / 20));
const figureOf = (sweep: Reading, name: string): number | undefined => sweep.figures.find((f) => f.name === name)?.quantity?.value;

/** Level of a sweep at a frequency, between its points; undefined where it does not reach. */
function levelAt(frequencyHz: readonly number[], levelDb: readonly number[], atHz: number): number | undefined {
  const k = frequencyHz.findIndex((f) => f >= atHz);
  if (k < 0 || (k === 0 && frequencyHz[0] > atHz)) return undefined;
  if (k === 0) return levelDb[0];
  const part = (atHz - frequencyHz[k - 1]) / (frequencyHz[k] - frequencyHz[k - 1]);
  return levelDb[k - 1] + part * (levelDb[k] - levelDb[k - 1]);
}
/** A pass band that peaks beside its centre. */
function besideCentre(sweep: Reading, nominal: number): string | undefined {
  const peak = figureOf(sweep, "peak frequency");
  const { frequencyHz, levelDb } = sweep.columns;
  if (peak === undefined || !frequencyHz || !levelDb) return undefined;
  const [top, mirror] = [levelAt(frequencyHz, levelDb, peak), levelAt(frequencyHz, levelDb, 2 * nominal - peak)];
  if (top === undefined || mirror === undefined || top - mirror <= mostLopsidedDb) return undefined;
  return `the pass band peaks ${hz(Math.abs(peak - nominal))} ${peak > nominal ? "above" : "below"} ${printValue(nominal, "frequency", 500)}, and ${printValue(top - mirror, "decibel", 0.5)} less gets through as far out on the other side: slugs turned, or a can damaged`;
}
/** A pass band that is even about its centre, and far wider than its cans make it when each is in tune: they are tuned apart, or one is damped. */
function tooWide(view: JobView, sweep: Reading): string | undefined {
  const width = figureOf(sweep, "width at -6 dB");
  // as described, before any sweep told what it is
  const { strip } = view.document.set;
  if (
    width === undefined ||
    view.set.fittings.some((f) => f.kind === "q-multiplier" && f.state === "set" && sweep.stage === `fittings.${f.id}`)
  )
    return undefined;
  const r = new StripResponse(plainStrip(strip));
  const inTune = widthHz(r, peakOf(r, [strip.intermediateFrequency.value]), 6);
  return width > mostWiderRatio * inTune
    ? `the pass band is ${hz(width)} wide at -6 dB, where these cans in tune give ${hz(inTune)}: slugs turned apart, or a can damped`
    : undefined;
}

/**
 * A strip whose last sweep lies beside its centre, or is far wider than its cans in tune.
 *
 * @param view the job as it stands
 * @returns one sign at most
 * @source physics/if-strip.ts; limits of this file
 */
export function stripSigns(view: JobView): readonly Sign[] {
  const sweep = lastRead(view.inForce).findLast(({ reading }) => reading.as === "if-sweep")?.reading;
  const nominal = quantityAt(view.set, "strip.intermediateFrequency")?.value;
  if (!sweep || nominal === undefined) return [];
  const says = besideCentre(sweep, nominal) ?? tooWide(view, sweep);
  const entry = entryOfReading(view.inForce).get(sweep.id) ?? "";
  return says === undefined ? [] : [{ place: "strip", point: "its pass band", says, entry }];
}
