/** Words set by their pairs beside the font's own layout of them. */
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type HeldFont, setByPairs } from "./shaping";

const require = createRequire(import.meta.url);
const folder = join(dirname(require.resolve("pdfmake/package.json")), "fonts", "Roboto");
interface Printed {
  readonly provideFont: (family: string, bold: boolean, italics: boolean) => HeldFont;
}
type Made = new (fonts: Record<string, Record<string, string>>) => Printed;
const { default: Document } = require("pdfmake/js/PDFDocument") as { readonly default: Made };
const style = (file: string) => join(folder, `Roboto-${file}.ttf`);
const fonts = { Roboto: { normal: style("Regular"), bold: style("Medium"), italics: style("Italic"), bolditalics: style("MediumItalic") } };
const heldFont = (bold: boolean, italics: boolean) => new Document(fonts).provideFont("Roboto", bold, italics);

/** What of a run is printed. */
const printed = ({ glyphs, positions, advanceWidth }: ReturnType<HeldFont["layoutRun"]>) => ({
  ids: glyphs.map((g) => g.id),
  positions: positions.map((p) => ({ ...p })),
  advanceWidth,
});
const pieces = [
  "fi",
  "ffl",
  "AVAT",
  "To,",
  "P.",
  "1/2",
  "22",
  " ",
  "\u00a0",
  "kΩ",
  "Ω",
  "µF",
  "±",
  "−",
  "–",
  "“Ya”",
  "é",
  "e\u0301",
  "5°",
  "№",
  "\u00ad",
  "ст",
  "f̈",
];
const word = fc.oneof(
  fc.string({ maxLength: 12 }),
  fc.array(fc.oneof(fc.constantFrom(...pieces), fc.string({ maxLength: 2 })), { maxLength: 6 }).map((p) => p.join("")),
);

describe("a word set by its pairs", () => {
  for (const [bold, italics] of [
    [false, false],
    [true, false],
    [false, true],
    [true, true],
  ]) {
    it(`is as the font sets it, ${bold ? "bold" : "regular"}${italics ? ", italic" : ""}`, () => {
      const own = heldFont(bold, italics);
      const paired = heldFont(bold, italics);
      setByPairs(paired);
      fc.assert(
        fc.property(word, (text) => {
          expect(printed(paired.layoutRun(text))).toEqual(printed(own.layoutRun(text)));
        }),
        { numRuns: 400 },
      );
    });
  }
  it("is closer than its signs alone where the font brings them closer, and asks the font for each pair once", () => {
    const font = heldFont(false, false);
    const asked: string[] = [];
    const counting = { ...font.font, glyphForCodePoint: (c: number) => font.font.glyphForCodePoint(c) };
    const held: HeldFont = {
      name: "counted",
      scale: font.scale,
      font: {
        ...counting,
        layout: (text, features, script) => {
          asked.push(text);
          return font.font.layout(text, features, script);
        },
      },
      layoutRun: (text) => font.layoutRun(text),
    };
    setByPairs(held);
    const alone = ["A", "V"].reduce((sum, c) => sum + font.layoutRun(c).advanceWidth, 0);
    expect(held.layoutRun("AV").advanceWidth).toBeLessThan(alone);
    held.layoutRun("AVAV");
    expect(asked).toEqual(["AV", "VA"]);
  });
});
