import { safety } from "../../set/addresses/safety";
import type { SetDescription } from "../../set/describe";
import type { StageKind } from "../../set/words";
import { findingById } from "../../units/by-id";
import type { Dimension } from "../../units/dimensions";

/** Where a part can stand: one of the set's stages, its bands or fittings, the supply, the line's side, the IF strip. */
export const partPlaces = ["stage", "band", "fitting", "supplies", "line", "strip"] as const;
export type PartPlace = (typeof partPlaces)[number];

/** A kind of part that is taken out and put in. */
export interface PartKind {
  readonly id: string;
  readonly title: string;
  readonly where: readonly PartPlace[];
  /** the kind of work that changing it is, by the stage that it stands at */
  readonly work: string | ((stage: StageKind | undefined) => string);
  /** dimension of its value, where it has one */
  readonly value?: Dimension;
  /** whether it has volts that it may bear */
  readonly rated?: boolean;
  /** address of the value that follows it; a star stands for its place */
  readonly follows?: string;
}
type Row = readonly [id: string, title: string, where: string, work: PartKind["work"], more?: Partial<PartKind>];
const farad = { value: "capacitance", rated: true } as const;
const ohm = { value: "resistance" } as const;
const tubeWork = (stage: StageKind | undefined): string =>
  stage === "oscillator" || stage === "mixer" ? "oscillator-tube-replaced" : stage === "rf" ? "rf-tube-replaced" : "tube-replaced";
const atStage = (plain: string) => (stage: StageKind | undefined) =>
  stage === "oscillator"
    ? "oscillator-capacitor-replaced"
    : stage === "avc" && plain === "resistor-replaced"
      ? "avc-resistor-replaced"
      : plain;

const rows: readonly Row[] = [
  ["coupling-capacitor", "Coupling capacitor", "stage", atStage("capacitor-replaced"), farad],
  ["bypass-capacitor", "Bypass capacitor", "stage", atStage("capacitor-replaced"), farad],
  [
    "first-filter-capacitor",
    "First filter capacitor",
    "supplies",
    "filter-capacitor-replaced",
    { ...farad, follows: "supplies.firstCapacitance" },
  ],
  [
    "second-filter-capacitor",
    "Second filter capacitor",
    "supplies",
    "filter-capacitor-replaced",
    { ...farad, follows: "supplies.secondCapacitance" },
  ],
  [
    "third-filter-capacitor",
    "Third filter capacitor",
    "supplies",
    "filter-capacitor-replaced",
    { ...farad, follows: "supplies.thirdCapacitance" },
  ],
  ["line-capacitor", "Capacitor from the line to the chassis", "line", "line-capacitor-replaced", farad],
  ["antenna-capacitor", "Capacitor between a live chassis and the antenna", "stage line", "line-capacitor-replaced", farad],
  ["tuned-capacitor", "Capacitor, trimmer or padder in the oscillator", "stage band", "oscillator-capacitor-replaced", farad],
  ["cathode-resistor", "Cathode resistor", "stage", "resistor-replaced", { ...ohm, follows: "stages.*.cathodeResistor" }],
  ["plate-resistor", "Plate resistor", "stage", "resistor-replaced", { ...ohm, follows: "stages.*.plateFeed" }],
  ["screen-resistor", "Screen resistor", "stage", "resistor-replaced", { ...ohm, follows: "stages.*.screenFeed" }],
  ["grid-resistor", "Grid resistor", "stage", atStage("resistor-replaced"), { ...ohm, follows: "stages.*.gridResistor" }],
  ["resistor", "Another resistor", "stage strip", atStage("resistor-replaced"), ohm],
  [
    "series-resistor",
    "Resistor in series with the rectifier",
    "supplies",
    "supply-changed",
    { ...ohm, follows: "supplies.addedResistance" },
  ],
  ["filter-choke", "First choke, field or filter resistor", "supplies", "supply-changed", { ...ohm, follows: "supplies.firstResistance" }],
  ["bleeder", "Bleeder", "supplies", "supply-changed", { ...ohm, follows: "supplies.bleeder" }],
  ["rectifier", "Rectifier", "supplies", "supply-changed"],
  ["power-transformer", "Power transformer", "supplies", "supply-changed"],
  ["tube", "Tube", "stage", tubeWork],
  ["cord-fuse-switch", "Cord, plug, fuse or switch", "line", "cord-changed"],
  ["if-can", "IF can, its coils or capacitors", "stage strip", "if-can-mended"],
  ["wiring", "Joint, wire or contact", "stage supplies strip", "wiring-mended"],
  [
    "series-capacitor",
    "Series capacitor between a B+ point and an accessory",
    "fitting",
    "series-capacitor-replaced",
    { ...farad, follows: "fittings.*.couplingCapacitance" },
  ],
  ["accessory-capacitor", "Capacitor of an accessory", "fitting", "accessory-mended", farad],
  ["accessory-tube", "Tube or transistor of an accessory", "fitting", "accessory-tube-replaced"],
  ["accessory-part", "Another part of an accessory", "fitting", "accessory-mended", { rated: true }],
];
export const partKinds: readonly PartKind[] = rows.map(([id, title, where, work, more = {}]) => ({
  id,
  title,
  where: partPlaces.filter((p) => where.split(" ").includes(p)),
  work,
  ...more,
}));
export const partKindById = findingById(partKinds);

/**
 * What sort of place a path is; undefined where no part can stand there.
 * @source house format
 */
export function partPlaceOf(path: string): PartPlace | undefined {
  const list = path.split(".")[0];
  return list === "stages" ? "stage" : list === "bands" ? "band" : list === "fittings" ? "fitting" : partPlaces.find((p) => p === list);
}
/**
 * The kind of work that changing a part at a place is.
 * @source house format
 */
export function workOf(kind: PartKind, set: SetDescription, place: string): string {
  const stage = set.stages.find((s) => `stages.${s.id}` === place)?.kind;
  // an accessory is a small set: what is changed in one of its stages makes due what work on it does
  if (stage === "accessory") return kind.id === "tube" ? "accessory-tube-replaced" : "accessory-mended";
  return typeof kind.work === "string" ? kind.work : kind.work(stage);
}
/**
 * The path of the value that follows a part at a place; undefined where none does.
 * @source house format
 */
export const followsAt = (kind: PartKind, place: string): string | undefined => kind.follows?.replace(/^(?:stages|fittings)\.\*/, place);

/**
 * Facts of the record that a part decides by being there, by path: what rectifies, what stands at the line.
 *
 * @param kind of part
 * @param came what came in its place, in words; undefined where nothing did
 * @param options the words that a rectifier may be
 * @returns text for each path that a piece of work asks for; nothing where the part decides none
 * @source house rule
 */
export function decides(kind: PartKind, came: string | undefined, options: readonly string[]): Readonly<Record<string, string>> {
  if (kind.id === "rectifier") {
    const said = (came ?? "").trim().toLowerCase();
    const known = options.find((o) => o.toLowerCase() === said) ?? (/silicon|diode|1n\d/.test(said) ? "silicon" : "other");
    return { "supplies.rectifierType": known, "line.voltage": "same" };
  }
  if (kind.work === "supply-changed") return { "supplies.rectifierType": "same", "line.voltage": "same" };
  if (kind.id !== "line-capacitor") return {};
  if (came === undefined) return { [safety.bypassClass.address]: "none fitted", [safety.bypass.address]: "0 pF" };
  const marked = /\b(X1|X2|Y1|Y2|Y4)\b/i.exec(came)?.[1]?.toUpperCase();
  return marked && safety.bypassClass.options.some((o) => o === marked) ? { [safety.bypassClass.address]: marked } : {};
}
