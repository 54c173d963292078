import { answer } from "../../../ask/answer";
import type { Answer } from "../../../ask/answered";
import type { Figure } from "../../../ask/results";
import { sheetById } from "../../../sheets/index";
import { parseQuantity } from "../../../units/parse";
import { onceOf } from "../../known-answers";
import { benchOf, type JobView } from "../../view";
import { like, type Pair } from "./pairs";

const small = { draws: 400, points: 11 };
/**
 * Figures by a job's own model, each question asked once.
 *
 * @param view the job
 * @returns the figure that the model gives for a pair; undefined where it speaks of none
 * @source house frame
 */
export function modelsOf(view: JobView) {
  const asked = new Map<string, Answer | undefined>();
  const ask = (id: string, at: string, overrides: Readonly<Record<string, string>>): Answer | undefined => {
    const key = JSON.stringify([id, at, overrides]);
    if (!asked.has(key)) {
      const sheet = sheetById(id);
      const how = { ...small, overrides };
      const a = sheet && onceOf(view, [id, at, how], () => answer(sheet, benchOf(view, at), how));
      asked.set(key, a?.ok ? a.value : undefined);
    }
    return asked.get(key);
  };
  const pick = (id: string, at: string, result: string, overrides: Readonly<Record<string, string>> = {}): Figure | undefined => {
    const figure = ask(id, at, overrides)?.results[result];
    return figure && figure.low !== null ? figure : undefined;
  };
  const bandAt = (where: string): { readonly at: string; readonly signal: string } | undefined => {
    const hz = parseQuantity(where, "frequency", "place");
    const band = view.set.bands.find(
      (b) => like(b.label) === like(where) || (hz.ok && b.low.value <= hz.value.value && b.high.value >= hz.value.value),
    );
    return band && { at: `bands.${band.id}`, signal: hz.ok ? where : `${band.high.value} Hz` };
  };
  return (pair: Pair): Figure | undefined => {
    const width = /width at -(3|6|20|60) dB/i.exec(pair.figure)?.[1];
    if (width) return pick("if-response", "", `width${width}dB`);
    const band = bandAt(pair.where);
    if (band && /image rejection/i.test(pair.figure)) return pick("image", band.at, "imageRejection", { signal: band.signal });
    if (band && /if rejection/i.test(pair.figure)) return pick("image", band.at, "ifRejection", { signal: band.signal });
    if (/^noise figure/i.test(pair.figure)) return pick("sensitivity", "", "predictedNoise");
    return undefined;
  };
}
