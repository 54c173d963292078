import type { AnySheet } from "../ask/contract";
import type { SetDescription } from "../set/describe";
import { dial } from "../sheets/dial/sheet";
import { sheetById } from "../sheets/index";

/** What the desk knows of questions by name, so that no face does. */
const named = (...ids: readonly string[]): readonly AnySheet[] => ids.flatMap((id) => sheetById(id) ?? []);

/** The question whose answer is a dial's law, drawn as zero beats come in. */
export const dialLaw: AnySheet = dial;
export { rhythmOf as dialRhythm } from "../sheets/dial/rhythm";
/** Questions that the page of the dial leads to, in the order in which they are asked. */
export const dialQuestions = named("dial", "band-edge", "set-points", "which-marker");

/**
 * The question that explains what is read at a place of a set, and the subject that it is asked about.
 *
 * @param set the set
 * @param place path of the set
 * @returns the question; undefined where none explains readings there
 */
export function explains(set: SetDescription, place: string): { readonly sheet: AnySheet; readonly at: string } | undefined {
  const [list, id] = place.split(".");
  const stage = list === "stages" ? set.stages.find((s) => s.id === id) : undefined;
  const by = (name: string, at = ""): { readonly sheet: AnySheet; readonly at: string } | undefined => {
    const sheet = sheetById(name);
    return sheet && { sheet, at };
  };
  const suspects = sheetById("suspects");
  if (stage && suspects?.stageKinds?.includes(stage.kind)) return { sheet: suspects, at: place };
  if (stage) return stage.kind === "can" || stage.kind === "filter" ? by("if-response") : undefined;
  if (place === "supplies") return by("b-plus");
  if (place === "line") return by("safety");
  if (place === "strip") return by("if-response");
  return list === "bands" ? by("tracking", place) : undefined;
}

/** A paper of the job that belongs beside the answer of a question. */
export interface PaperBeside {
  /** below the address of the job */
  readonly path: string;
  readonly says: string;
  /** what its file is called after the job's name */
  readonly file: string;
}
const beside: ReadonlyMap<string, PaperBeside> = new Map([
  ["converter", { path: "converter-card.pdf", says: "Card of this band (PDF)", file: "converter card.pdf" }],
]);
export const paperBeside = (sheet: AnySheet): PaperBeside | undefined => beside.get(sheet.id);

/** One question of the demo, and the subject that it is asked about; the first of its kind where none is named. */
export interface DemoQuestion {
  readonly sheet: AnySheet;
  readonly at?: string;
}
const about = (id: string, at?: string): readonly DemoQuestion[] => named(id).map((sheet) => ({ sheet, ...(at ? { at } : {}) }));
/** The questions of the demo's scenario, part by part. */
export const demoQuestions = (band: string) => ({
  power: ["safety", "bring-up", "reform", "b-plus", "volts"].flatMap((id) => about(id)).concat(about("suspects", "stages.if1")),
  strip: ["if-response", "dc-block", "cable-load", "q-multiplier"].flatMap((id) => about(id)),
  dial: ["dial", "band-edge"].flatMap((id) => about(id, `bands.${band}`)),
  front: [...about("tracking", "bands.b"), ...["converter", "sensitivity", "drift", "s-meter"].flatMap((id) => about(id))],
});
