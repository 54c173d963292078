import type { Quantity } from "../units/quantity";
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
      here = own(here, key) ?? own(own(here, "values"), key) ?? own(own(here, "choices"), key);
    } else return undefined;
  }
  return here;
}

export const quantityAt = (set: SetDescription, path: string): Quantity | undefined => {
  const x = lookUp(set, path);
  return isQuantity(x) ? x : undefined;
};

/** A copy of the set with the value at a path replaced; undefined where the path leads nowhere that may be set. */
export function withValue(set: SetDescription, path: string, value: unknown): SetDescription | undefined {
  const copy = structuredClone(set);
  return putValue(copy, path, value) ? copy : undefined;
}

/** Replaces the value at a path of a set that nobody else holds; false where the path leads nowhere that may be set. */
export function putValue(set: SetDescription, path: string, value: unknown): boolean {
  const words = typeof value === "string" ? factWords(path) : undefined;
  if (words && !words.includes(value as string)) return false;
  const strip = /^strip\.can(\d+)\.(\w+)$/.exec(path);
  const keys = strip ? ["strip", "cans", String(Number(strip[1]) - 1), strip[2]] : path.split(".");
  let here: unknown = set;
  for (const key of keys.slice(0, -1)) {
    if (Array.isArray(here))
      here = here.find((x) => (x as { id?: string }).id === key) ?? (/^\d+$/.test(key) ? here[Number(key)] : undefined);
    else here = own(here, key);
    if (typeof here !== "object" || here === null) return false;
  }
  const holder = here as Record<string, unknown>;
  const last = keys[keys.length - 1];
  // a band, a stage and the supplies hold what is kept of them by name, like a fitting, from the first time on
  const grows = { bands: 3, stages: 3, supplies: 2 }[keys[0]] === keys.length;
  if (grows && !Object.hasOwn(holder, last)) {
    holder.values ??= {};
    holder.choices ??= {};
  }
  const inValues = holder.values as Record<string, unknown> | undefined;
  const inChoices = holder.choices as Record<string, unknown> | undefined;
  if (last === "__proto__") return false;
  if (inValues && !Object.hasOwn(holder, last) && isQuantity(value)) inValues[last] = value;
  else if (inChoices && !Object.hasOwn(holder, last) && typeof value === "string") inChoices[last] = value;
  else if (Object.hasOwn(holder, last) && mayReplace(holder[last], value, last)) holder[last] = value;
  else return false;
  return true;
}
/** A quantity takes a quantity's place and a text a text's; what a thing is known by stays. */
const mayReplace = (old: unknown, value: unknown, key: string): boolean =>
  isQuantity(old) ? isQuantity(value) : typeof old === "string" && typeof value === "string" && key !== "id";
