import type { Quantity } from "../units/quantity";
import { topics } from "./addresses";
import type { SetDescription } from "./describe";
import { factWords } from "./facts";

const isQuantity = (x: unknown): x is Quantity => typeof x === "object" && x !== null && "value" in x && "spread" in x && "origin" in x;

/** A member that an object has itself: never one of its prototype, whatever a path may say. */
const own = (o: unknown, key: string): unknown =>
  typeof o === "object" && o !== null && Object.hasOwn(o, key) ? (o as Record<string, unknown>)[key] : undefined;

/**
 * What stands at a dotted path of a set: arrays are entered by the id of their members, a fitting's values and choices by their name.
 *
 * @param set the set
 * @param path such as `line.voltage`, `fittings.qm.cableLength`, `supplies.nodes.b1.volts`
 * @returns whatever is there; undefined where nothing is
 * @source house frame
 */
export function lookUp(set: SetDescription, path: string): unknown {
  let here: unknown = set;
  for (const key of path.split(".")) {
    if (Array.isArray(here)) here = here.find((x) => (x as { id?: string }).id === key);
    else if (typeof here === "object" && here !== null) {
      const kept = ["values", "choices", "lists"].map((k) => own(own(here, k), key)).find((x) => x !== undefined);
      here = own(here, key) ?? kept ?? (here === set ? own(set.topics, key) : undefined);
    } else return undefined;
  }
  return here;
}

export const quantityAt = (set: SetDescription, path: string): Quantity | undefined => {
  const x = lookUp(set, path);
  return isQuantity(x) ? x : undefined;
};

/**
 * A copy of the set with the value at a path replaced; undefined where the path leads nowhere that may be set.
 *
 * @param path dotted, as of `lookUp`
 * @param value a quantity, a word or rows
 * @source house frame
 */
export function withValue(set: SetDescription, path: string, value: unknown): SetDescription | undefined {
  const copy = structuredClone(set);
  return putValue(copy, path, value) ? copy : undefined;
}

/** Where what is kept of a holder by name may grow: so many keys from the set. */
const growing: Readonly<Record<string, number>> = { bands: 3, stages: 3, fittings: 3, supplies: 2 };

/**
 * Replaces the value at a path of a set that nobody else holds; false where the path leads nowhere that may be set.
 *
 * @param path dotted, as of `lookUp`
 * @param value a quantity, a word or rows
 * @source house frame
 */
export function putValue(set: SetDescription, path: string, value: unknown): boolean {
  const words = typeof value === "string" ? factWords(path) : undefined;
  if (words && !words.includes(value as string)) return false;
  const strip = /^strip\.can(\d+)\.(\w+)$/.exec(path);
  const keys = strip ? ["strip", "cans", String(Number(strip[1]) - 1), strip[2]] : path.split(".");
  const last = keys[keys.length - 1];
  if (last === "__proto__") return false;
  const topic = keys.length === 2 && topics.includes(keys[0]) ? keys[0] : undefined;
  if (topic !== undefined) {
    set.topics ??= {};
    if (!Object.hasOwn(set.topics, topic)) set.topics[topic] = {};
    return keep(set.topics[topic], last, value);
  }
  // what is stated of the place is kept by name, from the first time on
  if (keys[0] === "place" && keys.length === 2 && !Object.hasOwn(set, "place")) set.place = {};
  const holder = holderAt(set, keys.slice(0, -1));
  if (!holder) return false;
  if (keys[0] === "place") {
    if (keys.length !== 2 || typeof value !== "string") return false;
    holder[last] = value;
    return true;
  }
  // read at the outlet, so it stands beside the line's other figures from the first reading on
  if (path === "line.today" && isQuantity(value)) {
    holder[last] = value;
    return true;
  }
  if (Object.hasOwn(holder, last)) {
    if (!mayReplace(holder[last], value, last)) return false;
    holder[last] = value;
    return true;
  }
  return growing[keys[0]] === keys.length && keep(holder, last, value);
}

function holderAt(set: SetDescription, keys: readonly string[]): Record<string, unknown> | undefined {
  let here: unknown = set;
  for (const key of keys) {
    if (Array.isArray(here))
      here = here.find((x) => (x as { id?: string }).id === key) ?? (/^\d+$/.test(key) ? here[Number(key)] : undefined);
    else here = own(here, key);
    if (typeof here !== "object" || here === null) return undefined;
  }
  return here as Record<string, unknown>;
}

/** Keeps a quantity, a word or rows by name at a holder, from the first one on. */
function keep(holder: Record<string, unknown>, name: string, value: unknown): boolean {
  const room = isQuantity(value) ? "values" : typeof value === "string" ? "choices" : Array.isArray(value) ? "lists" : undefined;
  if (room === undefined) return false;
  if (!Object.hasOwn(holder, room)) holder[room] = {};
  (holder[room] as Record<string, unknown>)[name] = value;
  return true;
}
/** A quantity takes a quantity's place and a text a text's; what a thing is known by stays. */
const mayReplace = (old: unknown, value: unknown, key: string): boolean =>
  isQuantity(old) ? isQuantity(value) : typeof old === "string" && typeof value === "string" && key !== "id";
