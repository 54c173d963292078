import { addressAt } from "../set/addresses/index";
import type { SetDescription } from "../set/describe";

/**
 * Places of a set that hands and faults can be at: its stages, bands and fittings, its supplies, the line's side, the whole strip, the set.
 *
 * @param set the set
 * @returns paths, such as `stages.if1`
 * @source house frame
 */
export const placesOf = (set: SetDescription): readonly string[] => [
  ...set.stages.map((s) => `stages.${s.id}`),
  ...set.bands.map((b) => `bands.${b.id}`),
  ...set.fittings.map((f) => `fittings.${f.id}`),
  "supplies",
  "line",
  "strip",
  "set",
];
export const isPlace = (set: SetDescription, path: string): boolean => placesOf(set).includes(path);

/**
 * A place as a person calls it.
 *
 * @param set the set
 * @param path of the place
 * @returns its label, with the tubes that stand there; the path itself where it is none
 * @source house frame
 */
export function placeLabel(set: SetDescription, path: string): string {
  const [list, id] = path.split(".");
  if (list === "stages") {
    const stage = set.stages.find((s) => s.id === id);
    const sockets = set.tubes.filter((t) => t.stage === id).map((t) => t.socket);
    return stage ? `${stage.label}${sockets.length > 0 ? ` (${sockets.join(", ")})` : ""}` : path;
  }
  if (list === "bands") return set.bands.find((b) => b.id === id)?.label ?? path;
  if (list === "fittings") return set.fittings.find((f) => f.id === id)?.label ?? path;
  return { supplies: "the supply", line: "the line's side", strip: "the IF strip", set: "the whole set" }[list] ?? path;
}

/**
 * What stands at an address, as a person calls it: the place, and what is kept there.
 *
 * @param set the set
 * @param path address in the set, such as `fittings.qm.cableLength`
 * @returns such as `Q multiplier: length of its cable`; the path itself where nothing is declared there
 * @source house frame
 */
export function addressLabel(set: SetDescription, path: string): string {
  const declared = addressAt(path);
  if (!declared) return path;
  const holder = path.split(".").slice(0, 2).join(".");
  const place = placeLabel(set, holder);
  return place === holder ? declared.meaning : `${place}: ${declared.meaning}`;
}
