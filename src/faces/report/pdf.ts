import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import type { TDocumentDefinitions } from "pdfmake/interfaces";
import { withoutTurns } from "../../units/plain-text";
import { together } from "../../units/together";
import { type HeldFont, setByPairs } from "./shaping";

interface PdfMake {
  addFonts: (fonts: Record<string, Record<string, string>>) => void;
  setLocalAccessPolicy: (allow: (path: string) => boolean) => void;
  setUrlAccessPolicy: (allow: (url: string) => boolean) => void;
  createPdf: (d: TDocumentDefinitions) => { getBuffer: () => Promise<Uint8Array> };
}

/** What is drawn is no text that could be parted, and its letters say where it lies. */
const drawn = "svg";

/**
 * A definition as it is printed: no text turns the direction of writing, so that what others have typed into a job looks like what it is, and no line ends
 * between a number and its unit.
 */
export function plainly<T>(part: T): T;
export function plainly(part: unknown): unknown {
  if (typeof part === "string") return together(withoutTurns(part));
  if (Array.isArray(part)) return part.map((p) => plainly(p));
  if (typeof part === "function") return (...given: unknown[]) => plainly(part(...given));
  if (part === null || typeof part !== "object" || Object.getPrototypeOf(part) !== Object.prototype) return part;
  return Object.fromEntries(Object.entries(part).map(([k, v]) => [k, k === drawn && typeof v === "string" ? withoutTurns(v) : plainly(v)]));
}

/** What a document is printed into, as far as it gives out fonts: the same one each time it is asked for a style. */
interface Printed {
  provideFont: (...style: unknown[]) => HeldFont;
}
/** Loads what lays pages out, with fonts that set plain words by their pairs. */
function load(): PdfMake {
  const require = createRequire(import.meta.url);
  const printed = (require("pdfmake/js/PDFDocument") as { readonly default: { readonly prototype: Printed } }).default.prototype;
  const given = printed.provideFont;
  const set = new WeakSet<HeldFont>();
  printed.provideFont = function (this: Printed, ...style) {
    const font = given.apply(this, style);
    if (!set.has(font)) setByPairs(font);
    set.add(font);
    return font;
  };
  return require("pdfmake") as PdfMake;
}
let loaded: PdfMake | undefined;
/** Makes ready what lays pages out, once: who waits for something else may have it done meanwhile. */
export function readyPaper(): PdfMake {
  loaded ??= load();
  return loaded;
}

/** Renders a document definition to PDF bytes: fonts embedded, nothing fetched, the same bytes each time. */
export async function pdfBytes(definition: TDocumentDefinitions): Promise<Uint8Array> {
  const pdfmake = readyPaper();
  const fonts = join(dirname(createRequire(import.meta.url).resolve("pdfmake/package.json")), "fonts", "Roboto");
  const font = (file: string) => join(fonts, `Roboto-${file}.ttf`);
  pdfmake.setLocalAccessPolicy((path) => path.startsWith(fonts));
  pdfmake.setUrlAccessPolicy(() => false);
  pdfmake.addFonts({
    Roboto: { normal: font("Regular"), bold: font("Medium"), italics: font("Italic"), bolditalics: font("MediumItalic") },
  });
  return new Uint8Array(await pdfmake.createPdf(plainly(definition)).getBuffer());
}
