import type { AnySheet } from "../ask/contract";
import { sheetById } from "../sheets/index";

/** One question of the demo, and the subject that it is asked about; the first of its kind where none is named. */
export interface DemoQuestion {
  readonly sheet: AnySheet;
  readonly at?: string;
}
const about = (id: string, at?: string): readonly DemoQuestion[] => {
  const sheet = sheetById(id);
  return sheet ? [{ sheet, ...(at ? { at } : {}) }] : [];
};
/** The questions of the demo's scenario, part by part. */
export const demoQuestions = (band: string) => ({
  power: ["safety", "bring-up", "reform", "b-plus", "volts"].flatMap((id) => about(id)).concat(about("suspects", "stages.if1")),
  strip: ["if-response", "dc-block", "cable-load", "q-multiplier"].flatMap((id) => about(id)),
  dial: ["dial", "band-edge"].flatMap((id) => about(id, `bands.${band}`)),
  front: [...about("tracking", "bands.b"), ...["converter", "sensitivity", "drift", "s-meter"].flatMap((id) => about(id))],
});
