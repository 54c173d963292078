import type { TDocumentDefinitions } from "pdfmake/interfaces";
import { answer } from "../../ask/answer";
import { resolveInputs } from "../../ask/resolve";
import type { Overrides } from "../../ask/resolved";
import { dialAt, dialSlope, readingFor } from "../../infer/dial/fitted";
import { benchOf, type JobView, setPointsOf, subjectsIn, subjectsOf } from "../../job/view";
import { bandEdge } from "../../sheets/band-edge/sheet";
import { converter } from "../../sheets/converter/sheet";
import { dial } from "../../sheets/dial/sheet";
import type { DialPlain } from "../../sheets/inputs/dial";
import { dialOf } from "../../sheets/inputs/dial-law";
import { bad, good, InputError, orThrow, type Read } from "../../units/issue";
import { parseQuantity } from "../../units/parse";
import { printValue } from "../../units/print";
import { dialScaleSvg, papers, type ScaleShape, usualShape } from "../figures/dial-scale";
import { converterCardDefinition } from "./converter-card";
import { dialCardDefinition } from "./dial-card";
import { pdfBytes } from "./pdf";

type ShapeField = "shape" | "radius" | "sweep" | "length" | "sense" | "paper" | "measuredAcross" | "measuredDown";
/** Shape of a printed scale as it is typed, by field. */
type ShapeTyped = Readonly<Partial<Record<ShapeField, string>>>;

function readShape(typed: ShapeTyped): Read<ScaleShape> {
  const word = <W extends string>(field: ShapeField, options: readonly W[], usual: W): W => {
    const said = typed[field] || usual;
    const found = options.find((o) => o === said);
    if (!found) throw new InputError([{ path: field, code: "not-an-option", read: said, expected: `one of ${options.join(", ")}` }]);
    return found;
  };
  const quantity = (field: ShapeField, dimension: "length" | "angle", usual: number): number => {
    const said = typed[field];
    if (!said) return usual;
    // a bare figure of a length is in millimetres here: that is what a ruler says
    const text = dimension === "length" && /^[\d.,\s]+$/.test(said) ? `${said} mm` : said;
    const v = orThrow(parseQuantity(text, dimension, field)).value;
    return dimension === "length" ? v * 1000 : v;
  };
  try {
    return good({
      shape: word("shape", ["arc", "straight"], usualShape.shape),
      radiusMm: quantity("radius", "length", usualShape.radiusMm),
      sweepDeg: quantity("sweep", "angle", usualShape.sweepDeg),
      lengthMm: quantity("length", "length", usualShape.lengthMm),
      sense: word("sense", ["forward", "backward"], usualShape.sense),
      paper: word("paper", Object.keys(papers) as (keyof typeof papers)[], usualShape.paper),
      measuredAcrossMm: quantity("measuredAcross", "length", 100),
      measuredDownMm: quantity("measuredDown", "length", 100),
    });
  } catch (e) {
    if (e instanceof InputError) return { ok: false, issues: e.issues };
    throw e;
  }
}

/** The path of a band and set-point with zero beats, from how a person names it: `80`, `bands.80`, `bands.80:3.5 MHz dot`. */
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
  const taken = view.inForce.filter(
    (e) => e.kind === "reading" && e.reading.as === "dial" && e.reading.band === band && (e.reading.setPoint ?? "") === setPoint,
  );
  const last = taken[taken.length - 1];
  return {
    band: view.set.bands.find((b) => b.id === band)?.label ?? at,
    setPoint,
    date: last?.at.slice(0, 10) ?? view.document.created.slice(0, 10),
    thermal: last?.kind === "reading" ? last.reading.thermal : "warm",
    invented: taken.some((e) => e.kind === "reading" && e.reading.invented !== undefined),
  };
}

const edgeOf = (view: JobView, at: string, overrides: Overrides) => answer(bandEdge, benchOf(view, at), { draws: 10, overrides });

/**
 * The calibration card of one dial as pdfmake's document definition.
 *
 * @param view the job
 * @param at path of band and set-point
 * @param how step of the table, licence and mode, as on the sheets
 * @returns the definition, or the issues
 */
export function dialCard(
  view: JobView,
  at: string,
  how: { readonly step?: string; readonly licence?: string; readonly mode?: string } = {},
): Read<TDocumentDefinitions> {
  const a = answer(dial, benchOf(view, at), how.step ? { overrides: { tableStep: how.step } } : {});
  if (!a.ok) return a;
  const edge = edgeOf(view, at, { ...(how.licence ? { licence: how.licence } : {}), ...(how.mode ? { mode: how.mode } : {}) });
  if (!edge.ok && edge.issues.some((i) => i.code !== "no-band")) return edge;
  return good(
    dialCardDefinition({
      job: view.document.name,
      set: view.set.title,
      ...takenAs(view, at),
      side: sides[sideOf(view, at)],
      dial: { sheet: dial, answer: a.value },
      ...(edge.ok ? { edge: edge.value } : {}),
    }),
  );
}
export const dialCardPdf = async (...of: Parameters<typeof dialCard>): Promise<Uint8Array> => pdfBytes(orThrow(dialCard(...of)));

/** The card of the band that the converter brings, with the receiver's own scale where zero beats were taken on the range that it uses. */
export function converterCard(view: JobView): Read<TDocumentDefinitions> {
  const bench = benchOf(view, subjectsOf(view.set, "fitting", "converter")[0]);
  const first = answer(converter, bench, { draws: 10, points: 11 });
  if (!first.ok) return first;
  const { dialAtLow, dialAtHigh } = first.value.results;
  const ends = [dialAtLow.value ?? 0, dialAtHigh.value ?? 0].sort((p, q) => p - q);
  const holds = view.set.bands.filter((b) => b.low.value <= ends[0] + 1 && b.high.value >= ends[1] - 1);
  const band = holds.sort((p, q) => p.high.value - p.low.value - (q.high.value - q.low.value))[0];
  const path = `bands.${band?.id}`;
  const beaten = band !== undefined && benchOf(view, path).points(path).length > 0 ? resolveInputs(dial, benchOf(view, path)) : undefined;
  const judged = beaten?.ok ? dialOf(beaten.value.plain as unknown as DialPlain) : undefined;
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
  return good(
    converterCardDefinition({
      job: view.document.name,
      set: view.set.title,
      date: (view.document.entries.at(-1)?.at ?? view.document.created).slice(0, 10),
      answer: a.value,
      range: `${band?.label ?? "no range of this set"}${fit && taken.setPoint ? `, main dial at ${taken.setPoint}` : ""}`,
      ...(fit
        ? {
            scaled: `Come to a mark ${sides[sideOf(view, path)]}. ${fit.points.length} zero beats, ${taken.date}, set ${taken.thermal}${taken.invented ? ", INVENTED" : ""}. A dash: no zero beat reaches so far.`,
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
    }),
  );
}
export const converterCardPdf = async (view: JobView): Promise<Uint8Array> => pdfBytes(orThrow(converterCard(view)));

const sides = { "1": "turning up in frequency", "-1": "turning down in frequency", "0": "from either side" } as const;
type Edging = { readonly licence?: string; readonly mode?: string };

function sideOf(view: JobView, at: string): keyof typeof sides {
  const inputs = orThrow(resolveInputs(dial, benchOf(view, at)));
  return `${orThrow(dialOf(inputs.plain as unknown as DialPlain)).fit.side}`;
}

/** A true-scale dial scale of one dial, as SVG in millimetres. */
export function dialScale(view: JobView, at: string, typed: ShapeTyped, how: Edging = {}): Read<string> {
  const shape = readShape(typed);
  if (!shape.ok) return shape;
  const inputs = resolveInputs(dial, benchOf(view, at));
  if (!inputs.ok) return inputs;
  const x = inputs.value.plain as unknown as DialPlain;
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
  return dialScaleSvg(
    {
      title: `${view.document.name}, ${band}${invented ? ": INVENTED readings" : ""}`,
      notes: [
        `Come to a mark ${sides[fit.side]}.${setPoint ? ` Main dial at ${setPoint}.` : ""} Set ${thermal}, ${date}; ${fit.points.length} zero beats${odd.length > 0 ? `, ${odd.length} left out` : ""}.`,
        `Pointer travel from ${x.scaleLow} to ${x.scaleHigh} on the old scale.`,
        ...(edges.length > 0
          ? [
              `Band edges: ${choice("licence") === "by Region" ? choice("region") : choice("licence")}. Heavy mark inside the line: edge. Hatched: from there to where a whole ${choice("mode")} signal is surely inside.`,
            ]
          : [
              stated || !edge.ok
                ? "No edge of a band is marked."
                : "No edge of a band is marked: the ITU Region isn't recorded. Don't read its absence as room.",
            ]),
        ...(unknown.length > 0
          ? [`The ${unknown.join(" and the ")} edge is not known: no zero beat lies at or beyond it. Don't read its absence as room.`]
          : []),
      ],
      fit,
      from: x.scaleLow,
      to: x.scaleHigh,
      edges: edges.filter((e) => e.known),
    },
    shape.value,
  );
}

/** The same scale as PDF: a page of its own size, the drawing at true scale. */
export async function dialScalePdf(view: JobView, at: string, typed: ShapeTyped, how: Edging = {}): Promise<Uint8Array> {
  const svg = orThrow(dialScale(view, at, typed, how));
  const { widthMm, heightMm } = papers[(typed.paper as keyof typeof papers) || usualShape.paper];
  const pt = 72 / 25.4;
  return pdfBytes({
    pageSize: { width: widthMm * pt, height: heightMm * pt },
    pageMargins: 0,
    info: { title: "Dial scale", creator: "Fettle", producer: "Fettle", creationDate: new Date(view.document.entries.at(-1)?.at ?? 0) },
    defaultStyle: { font: "Roboto" },
    content: [{ svg, width: widthMm * pt, height: heightMm * pt, absolutePosition: { x: 0, y: 0 } }],
  });
}
