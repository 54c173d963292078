import { answer } from "../../ask/answer";
import { plainOf } from "../../ask/plain";
import type { Overrides } from "../../ask/resolved";
import { dialAt, dialSlope, readingFor } from "../../infer/dial/fitted";
import { bandEdge } from "../../sheets/band-edge/sheet";
import { converter } from "../../sheets/converter/sheet";
import { ask as asked } from "../../sheets/dial/ask";
import { dial } from "../../sheets/dial/sheet";
import { dialOf } from "../../sheets/inputs/dial-law";
import { dayInWords } from "../../units/day";
import { bad, good, orThrow, type Read } from "../../units/issue";
import { printValue } from "../../units/print";
import { readAs } from "../readings-in";
import { benchOf, type JobView, setPointsOf, subjectsIn, subjectsOf } from "../view";

/**
 * The path of a band and set-point with zero beats, from how a person names it: `80`, `bands.80`, `bands.80:3.5 MHz dot`.
 *
 * @param view the job
 * @param said as typed
 * @returns the path, or which bands have zero beats
 * @source house frame
 */
export function dialSubject(view: JobView, said: string): Read<string> {
  const at = said.startsWith("bands.") ? said : `bands.${said}`;
  const known = subjectsIn(view, dial).filter((s) => benchOf(view, s).points(s).length > 0);
  if (known.includes(at) || benchOf(view, at).points(at).length > 0) return good(at);
  return bad(
    "band",
    "no-zero-beats",
    said,
    known.length > 0 ? `a band with zero beats: ${known.join(", ")}` : "zero beats: record some first",
  );
}

/** When and how the zero beats of a dial were taken. */
function takenAs(view: JobView, at: string) {
  const [, band, named] = /^bands\.([^.:]+)(?::(.*))?$/.exec(at) ?? [];
  const setPoint = named ?? setPointsOf(view, band ?? "")[0] ?? "";
  const taken = readAs(view.inForce, "dial").filter((e) => e.reading.band === band && (e.reading.setPoint ?? "") === setPoint);
  const last = taken[taken.length - 1];
  return {
    band: view.set.bands.find((b) => b.id === band)?.label ?? at,
    setPoint,
    date: last?.at ?? view.document.created,
    thermal: last?.reading.thermal ?? "warm",
    invented: taken.some((e) => e.reading.invented !== undefined),
  };
}

const edgeOf = (view: JobView, at: string, overrides: Overrides) => answer(bandEdge, benchOf(view, at), { draws: 10, overrides });

const sides = { "1": "turning up in frequency", "-1": "turning down in frequency", "0": "from either side" } as const;
export type Edging = { readonly licence?: string; readonly mode?: string };

function sideOf(view: JobView, at: string): keyof typeof sides {
  return `${orThrow(dialOf(orThrow(plainOf(asked, benchOf(view, at))))).fit.side}`;
}

/**
 * What stands on the calibration card of one dial.
 *
 * @param view the job
 * @param at path of band and set-point
 * @param how step of the table, licence and mode, as on the sheets
 * @returns the answers of the dial and of the band's edges with how its zero beats were taken, or the issues
 * @source house frame
 */
export function dialCardOf(
  view: JobView,
  at: string,
  how: { readonly step?: string; readonly licence?: string; readonly mode?: string } = {},
) {
  const a = answer(dial, benchOf(view, at), how.step ? { overrides: { tableStep: how.step } } : {});
  if (!a.ok) return a;
  const edge = edgeOf(view, at, { ...(how.licence ? { licence: how.licence } : {}), ...(how.mode ? { mode: how.mode } : {}) });
  if (!edge.ok && edge.issues.some((i) => i.code !== "no-band")) return edge;
  return good({
    job: view.document.name,
    set: view.set.title,
    ...takenAs(view, at),
    side: sides[sideOf(view, at)],
    dial: { sheet: dial, answer: a.value },
    ...(edge.ok ? { edge: edge.value } : {}),
  });
}
/**
 * What stands on the card of the band that the converter brings, with the receiver's own scale where zero beats were taken on the range that it uses.
 *
 * @param view the job
 * @returns the answer with what each place of the dial stands for, or the issues
 * @source house frame
 */
export function converterCardOf(view: JobView) {
  const bench = benchOf(view, subjectsOf(view.set, "fitting", "converter")[0]);
  const first = answer(converter, bench, { draws: 10, points: 11 });
  if (!first.ok) return first;
  const { dialAtLow, dialAtHigh } = first.value.results;
  const ends = [dialAtLow.value ?? 0, dialAtHigh.value ?? 0].sort((p, q) => p - q);
  const holds = view.set.bands.filter((b) => b.low.value <= ends[0] + 1 && b.high.value >= ends[1] - 1);
  const band = holds.sort((p, q) => p.high.value - p.low.value - (q.high.value - q.low.value))[0];
  const path = `bands.${band?.id}`;
  const beaten = band !== undefined && benchOf(view, path).points(path).length > 0 ? plainOf(asked, benchOf(view, path)) : undefined;
  const judged = beaten?.ok ? dialOf(beaten.value) : undefined;
  const fit = judged?.ok ? judged.value.fit : undefined;
  // where this dial was calibrated its own doubt stands in for the assumed one
  const doubts = fit
    ? Array.from({ length: 21 }, (_, i) => readingFor(fit, ends[0] + ((ends[1] - ends[0]) * i) / 20)).flatMap((r) =>
        r === undefined ? [] : [dialAt(fit, r).uHz],
      )
    : [];
  const measured = doubts.length > 0 && bench.quantity(`${bench.at}.dialError`) === undefined;
  const a = answer(
    converter,
    bench,
    measured ? { overrides: { dialError: `0 Hz u ${Math.max(1, Math.max(...doubts)).toFixed(0)} Hz` } } : {},
  );
  if (!a.ok) return a;
  const taken = takenAs(view, path);
  return good({
    job: view.document.name,
    set: view.set.title,
    date: view.document.entries.at(-1)?.at ?? view.document.created,
    answer: a.value,
    range: `${band?.label ?? "no range of this set"}${fit && taken.setPoint ? `, main dial at ${taken.setPoint}` : ""}`,
    ...(fit
      ? {
          scaled: `Come to a mark ${sides[sideOf(view, path)]}. ${fit.points.length} zero beats, ${dayInWords(taken.date)}, set ${taken.thermal}${taken.invented ? ", INVENTED" : ""}. A dash: no zero beat reaches that far.`,
        }
      : {}),
    ...(fit
      ? {
          scale: (hz: number) => {
            const reading = readingFor(fit, hz);
            if (reading === undefined) return undefined;
            const doubt = (2 * dialAt(fit, reading).uHz) / Math.abs(dialSlope(fit, reading));
            const bare = (v: number): string => printValue(v, "division", doubt / 2).replace(/ div$/, "");
            return { reading: bare(reading), doubt: bare(doubt) };
          },
        }
      : {}),
  });
}
/**
 * What stands on a dial scale of one dial: its law, the ends of the pointer's travel on the old scale, the band's edges, and what is to be known of them.
 *
 * @param view the job
 * @param at path of band and set-point
 * @param how licence and mode, as on the sheet of the band's edges
 * @returns title, notes, law and edges in readings and Hz, or the issues
 * @source house frame
 */
export function dialScaleOf(view: JobView, at: string, how: Edging = {}) {
  const inputs = plainOf(asked, benchOf(view, at));
  if (!inputs.ok) return inputs;
  const x = inputs.value;
  const judged = dialOf(x);
  if (!judged.ok) return judged;
  const { fit, odd } = judged.value;
  const edge = edgeOf(view, at, { ...(how.licence ? { licence: how.licence } : {}), ...(how.mode ? { mode: how.mode } : {}) });
  const value = (name: string): number | undefined => (edge.ok ? (edge.value.results[name]?.value ?? undefined) : undefined);
  const { band, setPoint, date, thermal, invented } = takenAs(view, at);
  const stated = edge.ok && edge.value.results.lowEdgeHz?.value !== null;
  const edges = (["low", "high"] as const).flatMap((end) => {
    const hz = value(`${end}EdgeHz`);
    return hz === undefined
      ? []
      : [{ end, hz, safe: value(`${end === "low" ? "signalLow" : "signalHigh"}`), known: readingFor(fit, hz) !== undefined }];
  });
  const choice = (path: string): string => (edge.ok ? (edge.value.choices.find((c) => c.path === path)?.value ?? "") : "");
  const unknown = edges.filter((e) => !e.known).map((e) => (e.end === "low" ? "lower" : "upper"));
  return good({
    title: `${view.document.name}, ${band}${invented ? ": INVENTED readings" : ""}`,
    notes: [
      `Come to a mark ${sides[fit.side]}.${setPoint ? ` Main dial at ${setPoint}.` : ""} Set ${thermal}, ${dayInWords(date)}; ${fit.points.length} zero beats${odd.length > 0 ? `, ${odd.length} left out` : ""}.`,
      `Pointer travel from ${x.scaleLow} to ${x.scaleHigh} on the old scale.`,
      ...(edges.length > 0
        ? [
            `Band edges: ${choice("licence") === "by Region" ? choice("region") : choice("licence")}. Heavy mark inside the line: edge. Hatched: from there to where a whole ${choice("mode")} signal is certain to be inside.`,
          ]
        : [
            stated || !edge.ok
              ? "No edge of a band is marked."
              : "No band edge is marked: the ITU Region isn't recorded. Don't take that as room to spare.",
          ]),
      ...(unknown.length > 0
        ? [`The ${unknown.join(" and the ")} edge is not known: no zero beat lies at or beyond it. Don't take that as room to spare.`]
        : []),
    ],
    fit,
    from: x.scaleLow,
    to: x.scaleHigh,
    edges: edges.filter((e) => e.known),
  });
}
