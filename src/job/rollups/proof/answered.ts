import { answer } from "../../../ask/answer";
import type { AnySheet } from "../../../ask/contract";
import { resolveInputs, unreadOf } from "../../../ask/resolve";
import type { Figure } from "../../../ask/results";
import { sayFigure } from "../../../ask/say";
import { sheetById } from "../../../sheets/index";
import { good } from "../../../units/issue";
import { printValue } from "../../../units/print";
import { upperFirst } from "../../../units/sentence";
import { knownInFull, onceOf } from "../../known-answers";
import { readAs } from "../../readings-in";
import { benchOf, dialPoints, type JobView, setPointsOf } from "../../view";
import type { ProofLine } from "./line";

/** Sheets whose answers about what was read are figures of the record by themselves: as left, with how they were taken. */
const own: readonly { readonly sheet: string; readonly results: readonly string[]; readonly method: string }[] = [
  { sheet: "s-meter", results: ["s9Level", "perUnit", "flatness"], method: "generator steps" },
  { sheet: "drift", results: ["whole", "fitAfter"], method: "log from a cold start" },
];
/** The warm-up in the owner's words. */
const warmedUp = (limitHz: unknown): string =>
  `Warm-up: from then on it drifts no more than ${typeof limitHz === "number" ? printValue(limitHz, "frequency") : "the limit"} in a minute`;
/**
 * Figures that those sheets answer by themselves.
 *
 * @param view the job
 * @returns lines; none of a sheet whose inputs nobody has read
 * @source house frame
 */
export function ownLines(view: JobView): ProofLine[] {
  return own.flatMap(({ sheet: id, results, method }) => {
    const sheet = sheetById(id) as AnySheet;
    const bench = benchOf(view, "");
    const inputs = resolveInputs(sheet, bench);
    if (!inputs.ok || unreadOf(sheet, inputs.value).length > 0) return [];
    // no result of theirs hangs on the points of a curve
    const how = { points: 11 };
    const full = knownInFull(view, id, "");
    const a = full ? good(full) : onceOf(view, [id, "", how], () => answer(sheet, bench, how));
    if (!a.ok) return [];
    return results
      .map((r) => [r, a.value.results[r]] as const)
      .filter(([, f]) => f.low !== null)
      .map(
        ([r, f]): ProofLine => ({
          figure: r === "fitAfter" ? warmedUp(inputs.value.plain.minuteLimit) : upperFirst(f.meaning),
          where: "the set",
          method,
          conditions: "",
          found: "",
          left: sayFigure(f, true),
          model: "",
          says: "",
          refused: false,
        }),
      );
  });
}
/** A doubt to two figures: of itself it is not known better. */
const roughly = (f: Figure): string => (f.value === null ? sayFigure(f, true) : printValue(Number(f.value.toPrecision(2)), "frequency"));
/**
 * Dial error at the marks: how far a scale that is marked in frequency is off, at its worst.
 *
 * @param view the job
 * @returns a line for each scale with at least four zero beats
 * @source house frame
 */
export function dialLines(view: JobView): ProofLine[] {
  return view.set.bands.flatMap((b) =>
    setPointsOf(view, b.id).flatMap((p): ProofLine[] => {
      const at = `bands.${b.id}:${p}`;
      const points = dialPoints(view, at);
      const sheet = sheetById("dial");
      const how = { draws: 200, points: 41 };
      const a = sheet && points.length >= 4 ? onceOf(view, [sheet.id, at, how], () => answer(sheet, benchOf(view, at), how)) : undefined;
      return a?.ok
        ? [
            {
              figure: "A dial setting is right within, at worst",
              where: `${b.label}${p ? `, main dial at ${p}` : ""}`,
              method: `${points.length} zero beats with markers${(a.value.results.oddCount.value ?? 0) > 0 ? `, ${a.value.results.oddCount.value} left out` : ""}`,
              conditions: readAs(view.inForce, "dial").some((e) => e.reading.band === b.id && e.reading.invented !== undefined)
                ? "INVENTED"
                : "",
              found: "",
              left: roughly(a.value.results.worstDoubt),
              model: "",
              says: "95 % sure, where the dial is known least; its calibration card has every mark.",
              refused: false,
            },
          ]
        : [];
    }),
  );
}
