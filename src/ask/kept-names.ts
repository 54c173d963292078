import type { AnySheet } from "../ask/contract";
import type { QuantityInput } from "../ask/inputs";

/** Where the subjects of each kind of sheet are kept; what is about the whole set is kept at its supplies, since such sheets are about power. */
export const holders: Readonly<Record<AnySheet["subject"], string>> = {
  band: "bands.",
  fitting: "fittings.",
  stage: "stages.",
  set: "supplies.",
  tube: "tubes.",
};

const last = (path: string): string => path.split(".").pop() ?? "";

/** Names by which an input stands at its subject: the one that it is kept by now, then those of older jobs. */
export const namesAt = (name: string, input: Pick<QuantityInput, "at" | "keptAs" | "formerly">): readonly string[] => [
  input.at === undefined ? (input.keptAs ?? name) : last(input.at),
  ...(input.formerly ?? []),
];
/** Whether an input is kept at one path, whatever its sheet is asked about. */
const isFixed = (input: Pick<QuantityInput, "at" | "keptAt">): boolean =>
  input.keptAt !== undefined || (input.at !== undefined && !input.at.includes("*"));

/**
 * The quantity that may be kept at a path: by the path itself, or by its name at a subject of the sheet's kind; nothing of another subject's.
 *
 * @param sheets every sheet
 * @param path such as `bands.80.readingNoise`
 * @returns its declaration, and the path that it is kept at today
 * @source house frame
 */
export function quantityKeptAt(
  sheets: readonly AnySheet[],
  path: string,
): { readonly input: QuantityInput; readonly path: string } | undefined {
  for (const s of sheets)
    for (const input of Object.values(s.inputs))
      if (input.kind === "quantity" && (input.keptAt === path || input.at === path)) return { input, path };
  for (const s of sheets)
    for (const [name, input] of Object.entries(s.inputs)) {
      if (input.kind !== "quantity" || isFixed(input) || !path.startsWith(holders[s.subject])) continue;
      const names = namesAt(name, input);
      if (names.includes(last(path))) return { input, path: path.slice(0, path.length - last(path).length) + names[0] };
    }
  return undefined;
}
