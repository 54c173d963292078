import { own } from "../../units/own";
import { accessoryField, readAccessories } from "./read-accessories";

/** What some words say of a set: fields of its outline, by their ids. */
export type SaidFields = Readonly<Record<string, string>>;

const numbers: Readonly<Record<string, string>> = {
  one: "1",
  single: "1",
  two: "2",
  three: "3",
  four: "4",
  no: "0",
  none: "0",
  double: "2",
  dual: "2",
};
const count = (said: string): string => own(numbers, said.toLowerCase()) ?? said;
const figure = String.raw`([\d.,]+(?:\s*±\s*[\d.,]+)?)`;
const frequency = String.raw`${figure}\s*(k|m)(?:c|hz|cs|c\/s|ilocycles|egacycles|cycles)(?:\/s|ps|s)?`;
const one =
  (id: string, unit: string) =>
  (m: RegExpExecArray): SaidFields => ({ [id]: `${m[1]} ${unit}` });
const set = (fields: SaidFields) => (): SaidFields => fields;
const kilo = (m: RegExpExecArray): SaidFields => ({ intermediateFrequency: `${m[1]} ${m[2].toLowerCase() === "m" ? "MHz" : "kHz"}` });
type Phrase = readonly [pattern: RegExp, says: (m: RegExpExecArray) => SaidFields];

/** Words of the trade about a whole set. The first that fits a phrase has it. */
const phrases: readonly Phrase[] = [
  [/^(?:title|called|name|set|receiver)\s*[:=]\s*(.+)$/i, (m) => ({ title: m[1].trim() })],
  [new RegExp(String.raw`^(?:the )?i\.?f\.?(?: (?:is|at|of|frequency))?\s*[:=]?\s*${frequency}\.?$`, "i"), kilo],
  [new RegExp(String.raw`^${frequency}\.?\s*i\.?f\.?$`, "i"), kilo],
  [
    new RegExp(String.raw`^(?:line|mains|ac|plate)?\s*[:=]?\s*${figure}\s*(?:v|volts?)(?:\s*(?:ac|line|mains))?$`, "i"),
    one("lineVoltage", "V"),
  ],
  [
    new RegExp(
      String.raw`^(?:line|mains|ac)?\s*[:=]?\s*${figure}\s*(?:v|volts?)(?:\s*ac)?\s*(?:at|,|\/)?\s*${figure}\s*(?:hz|cycles?|c\/s|cps|~)$`,
      "i",
    ),
    (m) => ({ lineVoltage: `${m[1]} V`, lineFrequency: `${m[2]} Hz` }),
  ],
  [new RegExp(String.raw`^${figure}\s*(?:hz|cycles?|c\/s|cps|~)$`, "i"), one("lineFrequency", "Hz")],
  [new RegExp(String.raw`^(?:power|draws|takes)?\s*[:=]?\s*${figure}\s*(?:w|watts?|va)$`, "i"), one("watts", "W")],
  [
    new RegExp(String.raw`^(?:b\s?\+|h\.?t\.?\+?|b plus|mixer plate)(?: (?:is|of|at))?\s*[:=]?\s*${figure}\s*(?:v|volts?)?$`, "i"),
    one("mixerPlate", "V"),
  ],
  [new RegExp(String.raw`^(?:secondary|winding)(?: (?:is|of))?\s*[:=]?\s*${figure}\s*(?:v|volts?)?$`, "i"), one("secondaryVoltage", "V")],
  [/^(\d|one|two|three|four)\s*(?:i\.?f\.?)\s*(?:cans?|transformers?|i\.?f\.?t\.?s?)$/i, (m) => ({ cans: count(m[1]) })],
  [/^(\d|one|two|three|four)\s*cans?$/i, (m) => ({ cans: count(m[1]) })],
  [/^(?:ceramic|ladder|mechanical)(?: (?:ladder|i\.?f\.?))* filter$/i, set({ filter: "yes" })],
  [/^(?:a |with )?(?:crystal|x'?tal) (?:i\.?f\.? )?filter(?: and phasing)?$/i, set({ filter: "crystal" })],
  [/^(?:no|without)(?: an?y?| a)? filter$/i, set({ filter: "no" })],
  [/^(single|double|dual|one|two) conversions?$/i, (m) => ({ conversions: count(m[1]) })],
  [/^(?:no|without)(?: a)? b\.?f\.?o\.?$/i, set({ bfo: "no" })],
  [/^(?:a |with )?b\.?f\.?o\.?$/i, set({ bfo: "yes" })],
  [/^(?:no|without)(?: an?)? r\.?f\.? (?:stage|amp(?:lifier)?|tube)$/i, set({ rfStages: "0" })],
  [
    /^(?:no power transformer|transformerless|without (?:a )?(?:power )?transformer|ac ?[/-] ?dc|live chassis|hot chassis)$/i,
    set({ chassis: "live" }),
  ],
  [/^(?:full[- ]wave )?(?:silicon|solid[- ]state) rectifiers?$/i, set({ rectifier: "full-wave silicon, as altered" })],
  [/^half[- ]wave(?: (?:silicon|selenium))? rectifiers?$/i, set({ rectifier: "half-wave silicon or selenium, from the line" })],
];
/** What a phrase may say, for an error. */
export const expectedWords =
  "a tube (V2 6BE6 mixer), a band (1.5 - 4.3 MHz), a row of the chart (V2 plate 220 V 2.2 kΩ), or words of the set such as IF 455 kHz, 117 V 60 Hz, 75 W, B+ 250 V, 3 IF cans, crystal filter, with a Q multiplier, transformerless, title: what it is said to be";

/** One phrase about the set; undefined where it is none. A chassis is never taken as isolated on anybody's word. */
function phrase(said: string): SaidFields | undefined {
  for (const [pattern, says] of phrases) {
    const m = pattern.exec(said);
    if (m) return says(m);
  }
  const accessories = readAccessories(said);
  if (accessories) return Object.fromEntries(accessories.map((a) => [accessoryField(a.id), `${a.state}: ${a.words}`]));
  return /^(?:own |with (?:a )?)?power transformer$/i.test(said) ? {} : undefined;
}
interface Words {
  readonly fields: SaidFields;
  /** phrases that may be tubes */
  readonly rest: readonly string[];
}
/**
 * Words about the whole set: several phrases with commas or semicolons between.
 *
 * @param said one line
 * @returns fields of the outline, and what of the line is no such phrase; undefined where its first is none, so that it may be something else
 * @source words of the trade
 */
export function readWords(said: string): Words | undefined {
  const whole = phrase(said);
  if (whole) return { fields: whole, rest: [] };
  const parts = said
    .split(/[,;]/)
    .map((p) => p.trim())
    .filter((p) => p !== "")
    .flatMap(figuresIn);
  const read = parts.map((p) => [p, phrase(p)] as const);
  if (read[0]?.[1] === undefined) return undefined;
  return { fields: Object.assign({}, ...read.map(([, fields]) => fields)), rest: read.flatMap(([p, fields]) => (fields ? [] : [p])) };
}
const figuresOfPlate = /[\d.]+\s*(?:v(?:olts?)?(?:\s*ac)?|hz|cycles?|c\/s|cps|~|w(?:atts?)?|va)(?![a-z])/gi;
/** Figures of a type plate one after the other, such as `117 V 60 Hz 90 W`, each by itself; anything else as it is. */
function figuresIn(part: string): readonly string[] {
  const each = part.match(figuresOfPlate) ?? [];
  return each.length > 1 && each.join("").replace(/\s/g, "") === part.replace(/\s/g, "") ? each : [part];
}

const range = String.raw`[\d.]+\s*(?:[a-z/]+)?\s*(?:-|–|to)\s*[\d.]+`;
/** A letter or a number may name the band; the point of `1.5` is a decimal one. */
const oneBand = new RegExp(
  String.raw`^(?:(?:band\s*)?[a-h1-9]\s*(?:[:)=]|\.(?!\d))\s*)?(${range}\s*[km](?:c|hz|cs|cycles)?\/?s?\b.*)$`,
  "i",
);
/**
 * Bands in a line, as the outline has them: one a line, or several after the word.
 *
 * @param said such as `1.5 - 4.3 Mc`, `bands 0.55-1.6, 1.6-5, 5-16 Mc`
 * @returns one text a band, each with its unit; undefined where the line tells of no band
 * @source words of the trade
 */
export function readBandLine(said: string): readonly string[] | undefined {
  const one = /[,;]/.test(said) ? undefined : oneBand.exec(said)?.[1];
  if (one !== undefined) return [one];
  const listed = /^bands?\s*[:=]?\s*(?=[\d.])/i.exec(said);
  if (!listed) return splitBands(said);
  return splitBands(said.slice(listed[0].length)) ?? [said.slice(listed[0].length)];
}
function splitBands(said: string): readonly string[] | undefined {
  const parts = said
    .split(/[,;]/)
    .map((p) => p.trim())
    .filter((p) => p !== "");
  if (!parts.every((p) => new RegExp(`^${range}`, "i").test(p))) return undefined;
  const unit = /[km](?:c|hz|cs|cycles)\b/i.exec(parts[parts.length - 1])?.[0];
  if (unit === undefined) return undefined;
  return parts.map((p) => (/[km](?:c|hz|cs|cycles)\b/i.test(p) ? p : p.replace(new RegExp(`^(${range})`, "i"), `$1 ${unit}`)));
}
