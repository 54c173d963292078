import { insulationLeastOhm } from "../standards/touch-current";
import type { Dimension } from "../units/dimensions";
import type { Issue } from "../units/issue";
import { parseQuantity } from "../units/parse";
import type { Entry } from "./document";
import { isFromElsewhere } from "./format";
import { doneBeforeMs, laterMs } from "./held-back";
import { ofKind, onCard, placeIn } from "./place-in";
import { type Card, demandsOf, insulationDemand, type Recorded, recordCardOf, type Written } from "./safety-demands";

export { pageSigned, type Recorded } from "./safety-demands";

/**
 * What proves the steps that can kill: measured values on the safety cards, with meter and date, within their limits, and none older than work that
 * touched them. Nothing else proves them, on no face. Limits: touch-current.ts; the others are common practice, no source.
 */

/** Steps that are proved by their record and by nothing else. */
export const recordedSteps = ["02", "03", "04", "08", "35", "36"] as const;

/** What a card holds, field by field, with the place of the entry that wrote it last; a field emptied, or brought in from elsewhere, holds nothing. */
function cardOf(inForce: readonly Entry[], id: string): Card {
  const out = new Map<string, Written>();
  for (const e of onCard(inForce, id)) {
    if (isFromElsewhere(e)) continue;
    const place = placeIn(inForce, e.id);
    for (const [field, text] of Object.entries(e.fields)) out.set(field, { text: text.trim(), place });
  }
  return (field) => {
    const w = out.get(field);
    return w && w.text !== "" ? w : undefined;
  };
}
/** Tells whether a value is older than some work in force that made a step due: written before it, or held back and done before it. */
function olderThanWork(inForce: readonly Entry[], step: string): (written: Written) => boolean {
  let [last, lastMs] = [-1, Number.NEGATIVE_INFINITY];
  for (const e of ofKind(inForce, "work"))
    if (e.makes.some((d) => d.target === step)) [last, lastMs] = [placeIn(inForce, e.id), laterMs(lastMs, e)];
  return ({ place }) => place < last || doneBeforeMs(inForce[place], lastMs);
}

/**
 * Whether a safety card, coming in or going out, holds an insulation that fails: whatever was proved before, the line is on the chassis.
 *
 * @param inForce entries in force
 * @returns true where it fails
 * @source limit of touch-current.ts
 */
export function insulationFails(inForce: readonly Entry[]): boolean {
  return ["safety-in", "safety-out"].some((id) => {
    const written = cardOf(inForce, id)(insulationDemand.field);
    const ohm = written && readFigure(written.text, ["resistance", "megohm"], insulationDemand.field);
    return typeof ohm === "number" && ohm < insulationLeastOhm.value;
  });
}

/** Fields of the safety cards that hold a figure, with the dimension and unit of a bare one: judged as they are written. */
const figureFields: Readonly<Record<string, readonly [Dimension, string]>> = {
  "Insulation line to chassis, MΩ": ["resistance", "megohm"],
  "B+ to chassis once settled, kΩ": ["resistance", "kohm"],
  "Bond, Ω": ["resistance", "ohm"],
  "Touch current one way, mA": ["current", "mA"],
  "Touch current other way, mA": ["current", "mA"],
  "Volts left after 10 s, V": ["voltage", "V"],
  "Line, V": ["voltage", "V"],
  "Volts on the set behind the bulb, V": ["voltage", "V"],
  "B+ behind the bulb, V": ["voltage", "V"],
  "Current at full line, A": ["current", "A"],
};
/**
 * What is wrong with the figures of a safety card as they are written: none that can be read, or one below zero.
 *
 * @param fields of the card, as written
 * @returns an issue for each, at its field
 * @source house frame
 */
export const figureIssues = (fields: Readonly<Record<string, string>>): Issue[] =>
  Object.entries(fields).flatMap(([field, text]) => {
    const figure = Object.hasOwn(figureFields, field) ? figureFields[field] : undefined;
    if (!figure || text.trim() === "") return [];
    const value = readFigure(text.trim(), figure, field);
    if (typeof value === "string") return [{ path: field, code: "unreadable", read: text, expected: value }];
    return value < 0 ? [{ path: field, code: "negative", read: text, expected: "zero or more" }] : [];
  });

/** A figure of a card as SI; the unit of a bare one is the one printed in the field's name. */
function readFigure(text: string, [dimension, unit]: readonly [Dimension, string], field: string): number | string {
  const r = parseQuantity(/^[<>~]?\s*[\d.,]+$/.test(text) ? `${text.replace(/^[<>~]\s*/, "")} ${unit}` : text, dimension, field);
  return r.ok ? r.value.value : r.issues[0].expected;
}

/**
 * What a step's own record lacks, fails, or holds from before work that touched it. Nothing where it holds, and for steps without a record.
 *
 * @param job entries in force, the set, and the chassis as proved
 * @param step number of the step
 * @returns an issue for each field, at its place
 * @source limits of touch-current.ts and of this file
 */
export function recordIssues(job: Recorded, step: string): Issue[] {
  const id = recordCardOf(step);
  if (id === undefined) return [];
  const card = cardOf(job.inForce, id);
  const isOlder = olderThanWork(job.inForce, step);
  const out: Issue[] = [];
  const put = (field: string, code: string, read: string, expected: string): void => {
    out.push({ path: `${id} card, ${field}`, code, read, expected });
  };
  if (step === "03" || step === "35")
    if (job.chassis !== "isolated" && job.chassis !== "live-proved-dead")
      out.push({
        path: "chassis",
        code: "chassis-not-proved",
        needs: "chassis",
        read: job.chassis,
        expected: `to be proved isolated, or live and dead behind an isolation transformer, by what was measured${job.chassisFell ? `, anew: ${job.chassisFell}` : ""}`,
      });
  for (const d of demandsOf(job, step, card)) {
    const written = card(d.field);
    if (!written) {
      put(d.field, "not-measured", "", d.figure ? "a measured value" : "an entry");
      continue;
    }
    if (isOlder(written)) put(d.field, "older-than-work", written.text, "a value taken after the work that touched it");
    const value = d.figure ? readFigure(written.text, d.figure, d.field) : 0;
    if (typeof value === "string") {
      put(d.field, "unreadable", written.text, value);
      continue;
    }
    const fails = d.fails?.(value, written.text);
    if (fails) put(d.field, "fails", written.text, fails);
  }
  return out;
}

/** A figure of the line's side that is out of its limit. */
interface FailingOnLine {
  readonly field: string;
  readonly text: string;
  /** what it should be */
  readonly fails: string;
  readonly entry: string;
}
/**
 * Figures of the line's side that are out of their limits, each by its last writing on either safety card: what is read going out stands for what was read
 * coming in.
 *
 * @param job entries in force, the set, and the chassis as proved
 * @returns insulation and touch current, as far as they fail
 * @source demandsOf
 */
export function failingOnLine(job: Recorded): readonly FailingOnLine[] {
  const [coming, going] = ["safety-in", "safety-out"].map((id) => cardOf(job.inForce, id));
  const last: Card = (field) => [coming(field), going(field)].sort((a, b) => (b?.place ?? -1) - (a?.place ?? -1))[0];
  return demandsOf(job, "35", last).flatMap((d): FailingOnLine[] => {
    const written = d.figure && /^(?:Insulation|Touch current)/.test(d.field) ? last(d.field) : undefined;
    if (!written || !d.figure) return [];
    const value = readFigure(written.text, d.figure, d.field);
    const fails = typeof value === "number" ? d.fails?.(value, written.text) : undefined;
    return fails === undefined ? [] : [{ field: d.field, text: written.text, fails, entry: job.inForce[written.place].id }];
  });
}
