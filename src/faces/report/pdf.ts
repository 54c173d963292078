import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import type { TDocumentDefinitions } from "pdfmake/interfaces";

interface PdfMake {
  addFonts: (fonts: Record<string, Record<string, string>>) => void;
  setLocalAccessPolicy: (allow: (path: string) => boolean) => void;
  setUrlAccessPolicy: (allow: (url: string) => boolean) => void;
  createPdf: (d: TDocumentDefinitions) => { getBuffer: () => Promise<Uint8Array> };
}

/** Renders a document definition to PDF bytes: fonts embedded, nothing fetched, the same bytes each time. */
export async function pdfBytes(definition: TDocumentDefinitions): Promise<Uint8Array> {
  const require = createRequire(import.meta.url);
  const pdfmake = require("pdfmake") as PdfMake;
  const fonts = join(dirname(require.resolve("pdfmake/package.json")), "fonts", "Roboto");
  const font = (file: string) => join(fonts, `Roboto-${file}.ttf`);
  pdfmake.setLocalAccessPolicy((path) => path.startsWith(fonts));
  pdfmake.setUrlAccessPolicy(() => false);
  pdfmake.addFonts({
    Roboto: { normal: font("Regular"), bold: font("Medium"), italics: font("Italic"), bolditalics: font("MediumItalic") },
  });
  return new Uint8Array(await pdfmake.createPdf(definition).getBuffer());
}
