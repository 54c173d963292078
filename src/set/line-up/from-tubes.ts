import { rectifiers } from "../../standards/rectifiers";
import { bulbOf, namesOfType } from "../../standards/tube-bulbs";
import type { Duty, SaidTube } from "./duties";

/** What a line-up tells of a set beside its tubes. */
export interface FromTubes {
  /** fields of the outline */
  readonly fields: Readonly<Record<string, string>>;
  /** type of the table of rectifiers; undefined where the line-up names none that is in it */
  readonly rectifierType: string | undefined;
  readonly choices: Readonly<Record<string, string>>;
  /** by path: what it was taken for, from what, and the field that would have said it */
  readonly guessed: Readonly<Record<string, { readonly is: string; readonly from: string; readonly field: string }>>;
}
const withDuty = (tubes: readonly SaidTube[], ...duties: readonly Duty[]): readonly SaidTube[] =>
  tubes.filter((t) => t.duties.some((d) => duties.includes(d.duty)));
/** Heater volts by the figure that a type begins with, as American types have it; undefined where it tells none. */
const heaterV = (type: string): number | undefined => {
  const n = Number(/^\d+(?=[A-Z])/i.exec(type)?.[0] ?? Number.NaN);
  return n > 0 ? n : undefined;
};
/** Heater volts from which on a rectifier stands in a string across the line. Common practice, no source. */
const stringRectifierV = 25;
const highest = (tubes: readonly SaidTube[], duty: Duty): number =>
  Math.max(0, ...tubes.flatMap((t) => t.duties.flatMap((d) => (d.duty === duty ? [d.order ?? 0] : []))));

/**
 * What a line-up tells of its set: how many stages of a kind, the rectifier and how it is fed, the heaters.
 *
 * @param tubes the line-up
 * @returns nothing where there are no tubes
 * @source common practice, no source; the table of rectifiers
 */
export function fromTubes(tubes: readonly SaidTube[]): FromTubes {
  if (tubes.length === 0) return { fields: {}, rectifierType: undefined, choices: {}, guessed: {} };
  const count = (duty: Duty): number => Math.max(withDuty(tubes, duty).length, highest(tubes, duty));
  const ifTubes = count("if");
  const cans = String(Math.min(4, ifTubes + 1));
  const [rect] = withDuty(tubes, "rectifier");
  const units = rect ? (bulbOf(rect.type)?.units.filter((u) => u === "rectifier").length ?? 0) : 0;
  const names = rect ? rect.type.split(/[^A-Za-z0-9]+/).flatMap(namesOfType) : [];
  const rectifierType = rectifiers.find((r) => r.type.split(/ or /).some((n) => namesOfType(n).some((x) => names.includes(x))))?.type;
  const fromLine = rect !== undefined && units > 0 && (units === 1 || (heaterV(rect.type) ?? 0) >= stringRectifierV);
  const heaters = tubes.some((t) => (heaterV(t.type) ?? 0) >= stringRectifierV) ? "series" : "parallel";
  const why = rect ? `the rectifier, ${rect.type}` : "no rectifier tube in the list";
  return {
    fields: {
      cans,
      rfStages: String(Math.min(2, count("rf"))),
      conversions: withDuty(tubes, "mixer", "converter").length > 1 ? "2" : "1",
      bfo: withDuty(tubes, "bfo").length > 0 ? "yes" : "no",
      ...(fromLine ? { rectifier: "half-wave vacuum, from the line", chassis: "live" } : {}),
    },
    rectifierType,
    choices: { heaters },
    guessed: {
      "strip.cans": {
        is: `${cans} IF can${cans === "1" ? "" : "s"}`,
        from: ifTubes === 0 ? "no IF tube in the list" : "one more than the IF tubes",
        field: "cans",
      },
      "supplies.arrangement": { is: `${fromLine ? "half" : "full"}-wave rectifier`, from: why, field: "rectifier" },
      ...(rectifierType === undefined
        ? { "supplies.rectifierType": { is: "a rectifier that is usual in such a set", from: why, field: "rectifier" } }
        : {}),
      ...(fromLine ? { "chassis.state": { is: "live chassis", from: `${why}, is fed from the line`, field: "chassis" } } : {}),
      "supplies.heaters": { is: `heaters in ${heaters}`, from: "the heater volts in the types", field: "heaters" },
    },
  };
}
