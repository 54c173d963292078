import { withBareDoubt } from "../units/bare";
import { dimensionOf } from "../units/dimensions";
import { bad, good, type Issue, type Read } from "../units/issue";
import { idsOf, oneOf } from "../units/nearest";
import { parseQuantity } from "../units/parse";
import { printShort } from "../units/print";
import { exact, type Quantity } from "../units/quantity";
import type { SetDescription } from "./describe";
import type { SaidTube } from "./line-up/duties";
import { type FromTubes, fromTubes } from "./line-up/from-tubes";
import { type Placed, type PlacedTube, placeTubes, type Stages } from "./line-up/place";
import { accessoryField, bandInWords } from "./line-up/read-accessories";
import { numbered, readLineUp } from "./line-up/read-line-up";
import { readBands } from "./outline-bands";
import { type OutlineField, outlineFields } from "./outline-fields";
import { type Plan, stagesOf } from "./outline-stages";
import { stripOf } from "./outline-strip";
import { build, node } from "./patterns/build";

/** Longest text of a field: bands and tubes of the largest set, one a line, are well below. */
const longestText = 4000;
/** What was typed, by field. */
export type Outline = Readonly<Record<string, string>>;
const typed = { origin: "stated", source: "typed in when the set was described" } as const;
const usual = { origin: "assumed", source: "typical of the kind, invented" } as const;
const fieldOf = (id: string): OutlineField => outlineFields.find((f) => f.id === id)!;
const missing: Quantity = { value: 1, spread: { shape: "exact" }, origin: "assumed", source: "" };

/** What was typed, field by field; what was not is taken from the tubes, else assumed. */
class Said {
  readonly issues: Issue[] = [];
  constructor(
    private readonly outline: Outline,
    private readonly derived: FromTubes["fields"],
  ) {}
  has = (id: string): boolean => (this.outline[id]?.trim() ?? "") !== "";
  take = <T>(r: Read<T>): T | undefined => {
    if (!r.ok) this.issues.push(...r.issues);
    return r.ok ? r.value : undefined;
  };
  text = (id: string): string => {
    const field = fieldOf(id);
    const value = this.has(id) ? this.outline[id].trim() : (this.derived[id] ?? field.assumed);
    if (field.options && !field.options.some((o) => o.id === value))
      this.take(bad(id, "not-an-option", value, `one of ${field.options.map((o) => o.id).join(", ")}`));
    return value;
  };
  quantity = (id: string): Quantity => this.take(readQuantity(fieldOf(id), this.has(id) ? this.outline[id].trim() : "")) ?? missing;
}

function readQuantity(field: OutlineField, said: string): Read<Quantity> {
  const dimension = field.dimension!;
  const r = parseQuantity(said || field.assumed, dimension, field.id);
  if (!r.ok) return r;
  const { value, spread } = r.value;
  const { si, examples } = dimensionOf(dimension);
  if (value < (field.min ?? -Infinity) || value > (field.max ?? Infinity))
    return bad(field.id, "out-of-range", said, `${field.min} to ${field.max} ${si}, such as ${examples}`);
  return good(
    said === ""
      ? { value, spread: { shape: "rectangular", half: value * 0.1 }, ...usual }
      : withBareDoubt({ value, spread, ...typed }, { dimension, bare: field.bare }, { text: said }),
  );
}
function formIssues(outline: Outline): readonly Issue[] {
  const strange = Object.keys(outline).filter((name) => !outlineFields.some((f) => f.id === name));
  const long = Object.entries(outline).filter(([, said]) => said.length > longestText);
  return [
    ...strange.flatMap((name) => bad(name, "no-field", name, oneOf(name, idsOf(outlineFields))).issues),
    ...long.flatMap(([name, said]) => bad(name, "too-long", said, `at most ${longestText} characters`).issues),
  ];
}

/**
 * A set from what a person typed about it. Fields left empty are told by the tubes where those tell them, else assumed; cans, strays and tolerances are
 * typical of the kind, and marked so.
 *
 * @param outline texts by the id of the field, as the trade writes values
 * @returns the description, or every located issue
 * @source house format; typical values are invented
 */
export function setFromOutline(outline: Outline): Read<SetDescription> {
  const wrong = formIssues(outline);
  if (wrong.length > 0) return { ok: false, issues: wrong };
  const { tubes, unread } = readLineUp(numbered((outline.tubes ?? "").replaceAll(";", "\n")));
  const r = setFromTubes(outline, tubes);
  const inTubes = (i: Issue): Issue => (i.path.startsWith("line ") ? { ...i, path: `tubes ${i.path}` } : i);
  if (unread.length > 0)
    return { ok: false, issues: [...unread.map(inTubes), ...(r.ok ? [] : r.issues.filter((i) => !i.path.startsWith("line ")))] };
  return r.ok ? r : { ok: false, issues: r.issues.map(inTubes) };
}

/**
 * The same, its tubes read already.
 *
 * @param outline texts by the id of the field; its tubes are not looked at
 * @param lineUp its tubes; with none each stage gets a socket without a type
 * @returns the description, or every located issue; that of a tube is at its line
 * @source house format; typical values are invented
 */
export function setFromTubes(outline: Outline, lineUp: readonly SaidTube[]): Read<SetDescription> {
  const told = fromTubes(lineUp);
  const said = new Said(outline, told.fields);
  const fields = fieldsOf(said);
  // counts are looped over below: what is not on offer stops here
  if (said.issues.length > 0) return { ok: false, issues: said.issues };
  const all = stagesOf(fields.plan);
  const own = lineUp.length > 0 ? placeTubes(all, lineUp) : good(withoutTypes(all));
  if (!own.ok) return own;
  const set = withAccessories(describedBy(fields, own.value, told.rectifierType), outline);
  const guessed = {
    ...own.value.guessed,
    ...set.guessed,
    ...Object.fromEntries(
      Object.entries(told.guessed)
        .filter(([, g]) => !said.has(g.field))
        .map(([path, g]) => [path, { is: g.is, from: g.from }]),
    ),
  };
  return good({
    ...set,
    ...(Object.keys(guessed).length > 0 ? { guessed } : {}),
    plateWatts: said.has("watts") ? fields.watts : set.plateWatts,
    supplies: {
      ...set.supplies,
      secondaryVoltage: said.has("secondaryVoltage") ? fields.secondary : set.supplies.secondaryVoltage,
      choices: { ...set.supplies.choices, ...told.choices },
    },
  });
}
/** Accessories that were named are on the set; how far each is stays a guess until somebody says it. */
function withAccessories(set: SetDescription, outline: Outline): SetDescription {
  const guessed: NonNullable<SetDescription["guessed"]> = {};
  const fittings = set.fittings.map((f) => {
    const [, state, words] = /^(planned|fitted): (.+)$/s.exec(outline[accessoryField(f.id)] ?? "") ?? [];
    if (state !== "planned" && state !== "fitted") return f;
    guessed[`fittings.${f.id}.state`] = { is: `${f.label} ${state}, as one of its kind usually is`, from: `the words “${words}”` };
    const band = f.kind === "converter" ? bandInWords(words) : undefined;
    if (!band) return { ...f, state } as const;
    const { lowHz, highHz, says } = band;
    const is = `${printShort(lowHz, "frequency")} to ${printShort(highHz, "frequency")} wanted: ${says}`;
    guessed[`fittings.${f.id}.wantedLow`] = { is, from: `the words “${words}”` };
    const edge = (value: number): Quantity => ({ value, spread: exact, origin: "stated", source: `${says}, when the set was described` });
    return { ...f, state, values: { ...f.values, wantedLow: edge(lowHz), wantedHigh: edge(highHz) } } as const;
  });
  return { ...set, fittings, ...(Object.keys(guessed).length > 0 ? { guessed } : {}) };
}
/** Every field as it was said or stands for it. */
function fieldsOf({ take, text, quantity, has }: Said) {
  const filter = text("filter");
  const plan: Plan = {
    cans: Number(text("cans")),
    rf: Number(text("rfStages")),
    two: text("conversions") === "2",
    bfo: text("bfo") === "yes",
    filter: filter === "yes" || filter === "crystal" ? filter : "no",
  };
  const [title, rectifier, quality, chassis] = ["title", "rectifier", "canQuality", "chassis"].map(text);
  const [lineVoltage, lineFrequency, watts, plate] = ["lineVoltage", "lineFrequency", "watts", "mixerPlate"].map(quantity);
  const [secondary, ifHz] = ["secondaryVoltage", "intermediateFrequency"].map(quantity);
  const bands = take(readBands(text("bands"), has("bands") ? typed : usual)) ?? [];
  const fromLine = /from the line/.test(rectifier);
  const secondaryV = has("secondaryVoltage") || !fromLine ? secondary.value : lineVoltage.value;
  return {
    plan,
    title,
    rectifier,
    quality,
    chassis,
    lineVoltage,
    lineFrequency,
    watts,
    plate,
    secondary,
    ifHz,
    bands,
    fromLine,
    secondaryV,
  };
}
/** The description of fields and tubes; what the line and its winding are comes from the fields, all else typical of the kind. */
function describedBy(
  f: ReturnType<typeof fieldsOf>,
  own: Pick<Placed, "stages" | "tubes">,
  rectifierType: string | undefined,
): SetDescription {
  const set = build({
    pattern: "described",
    title: f.title,
    note: "Described by its owner or restorer from scratch. Whatever was not typed in is assumed, typical of the kind, and marked so.",
    live: f.chassis === "live",
    lineV: f.lineVoltage.value,
    lineHz: f.lineFrequency.value,
    watts: f.watts.value,
    rectifier: f.rectifier,
    rectifierType: /silicon/.test(f.rectifier)
      ? "silicon"
      : (rectifierType ?? (f.fromLine || f.chassis === "live" ? "35W4 or 35Z5" : "5Y3GT or 80")),
    secondaryV: f.secondaryV,
    nodes: [
      { ...node("b1", "first filter capacitor", f.secondaryV * 1.15) },
      { ...node("b2", "plates", f.plate.value), volts: f.plate },
      { ...node("b3", "screens", f.plate.value * 0.4) },
    ],
    stages: own.stages.map((s) => ({ ...s, part: partOf(s, own.tubes) })),
    strip: stripOf(f.plan.cans, f.quality, f.plan.filter === "yes", f.ifHz),
    trimmerF: 0,
    bands: f.bands,
    tubes: own.tubes.map((t) => [t.socket, t.type, t.function, t.stage]),
    mixerNode: "b2",
  });
  const unstated = {
    state: "unstated",
    isolation: "none",
    note: "not known yet: it counts as live until it is stated and proved",
  } as const;
  return {
    ...set,
    chassis: f.chassis === "unstated" ? unstated : set.chassis,
    line: { ...set.line, voltage: f.lineVoltage, frequency: f.lineFrequency },
  };
}

export const noType = "type not stated";
/** Each stage that has a tube with a socket, its type not known. */
function withoutTypes(all: ReturnType<typeof stagesOf>) {
  const stages = all.filter((s) => s.id !== "audio");
  const own = stages.filter((s) => !["antenna", "can", "filter", "speaker"].includes(s.kind));
  return { stages, tubes: own.map((s, i) => ({ socket: `V${i + 1}`, type: noType, function: s.label, stage: s.id })), guessed: {} };
}
/** What a stage's tag says of it: its tubes, or the tube that is also its oscillator. */
function partOf(s: Stages[number], tubes: readonly PlacedTube[]): string {
  const here = tubes.filter((t) => t.type !== noType && t.stage === s.id);
  if (here.length > 0) return here.map((t) => `${t.socket} ${t.type}`).join(", ");
  const converter = s.kind === "oscillator" ? tubes.find((t) => t.type !== noType && t.stage === "mixer") : undefined;
  return converter ? `in ${converter.socket}` : s.part;
}
