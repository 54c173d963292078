import type { TDocumentDefinitions } from "pdfmake/interfaces";
import { converterCardOf, dialCardOf, dialScaleOf, type Edging } from "../../job/rollups/dial-papers";
import type { JobView } from "../../job/view";
import { good, InputError, orThrow, type Read } from "../../units/issue";
import { parseQuantity } from "../../units/parse";
import { dialScaleSvg } from "../figures/dial-scale";
import { papers, type ScaleShape, usualShape } from "../figures/dial-scale-shape";
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

/** The calibration card of one dial as pdfmake's document definition, or the issues. */
export function dialCard(...of: Parameters<typeof dialCardOf>): Read<TDocumentDefinitions> {
  const card = dialCardOf(...of);
  return card.ok ? good(dialCardDefinition(card.value)) : card;
}
export const dialCardPdf = async (...of: Parameters<typeof dialCard>): Promise<Uint8Array> => pdfBytes(orThrow(dialCard(...of)));

/** The card of the band that the converter brings, as pdfmake's document definition, or the issues. */
export function converterCard(view: JobView): Read<TDocumentDefinitions> {
  const card = converterCardOf(view);
  return card.ok ? good(converterCardDefinition(card.value)) : card;
}
export const converterCardPdf = async (view: JobView): Promise<Uint8Array> => pdfBytes(orThrow(converterCard(view)));

/** A true-scale dial scale of one dial, as SVG in millimetres. */
export function dialScale(view: JobView, at: string, typed: ShapeTyped, how: Edging = {}): Read<string> {
  const shape = readShape(typed);
  if (!shape.ok) return shape;
  const scale = dialScaleOf(view, at, how);
  return scale.ok ? dialScaleSvg(scale.value, shape.value) : scale;
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
