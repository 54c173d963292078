import { createRequire } from "node:module";
import { describe, expect, it } from "vitest";
import { linesWithin, textWidth } from "./text-width";

interface Font {
  readonly unitsPerEm: number;
  readonly hasGlyphForCodePoint: (c: number) => boolean;
  readonly glyphForCodePoint: (c: number) => { readonly advanceWidth: number };
}
const load = createRequire(import.meta.url);
const { openSync } = load("fontkit") as { readonly openSync: (file: string) => Font };
const files = [
  "@fontsource/atkinson-hyperlegible/files/atkinson-hyperlegible-latin-400-normal.woff2",
  "@fontsource/atkinson-hyperlegible/files/atkinson-hyperlegible-latin-700-normal.woff2",
  "pdfmake/fonts/Roboto/Roboto-Regular.ttf",
  "pdfmake/fonts/Roboto/Roboto-Medium.ttf",
].map((f) => `node_modules/${f}`);
const characters = [...Array.from({ length: 95 }, (_, i) => String.fromCharCode(32 + i)), ..."µΩ±°·×–—−≤≥≈“”’…\u00a0"];

// Against the fonts' own files, read by fontkit.
describe.each(files)("%s", (file) => {
  const font = openSync(file);
  it("has no character that is wider than it is taken to be, and few much narrower", () => {
    const own = characters.filter((c) => font.hasGlyphForCodePoint(c.codePointAt(0)!));
    const em = (c: string): number => font.glyphForCodePoint(c.codePointAt(0)!).advanceWidth / font.unitsPerEm;
    expect(own.filter((c) => textWidth(c, 1) < em(c) - 0.006)).toEqual([]);
    const text = "up to 457 V: kills, series capacitor 680 pF rated 1000 V or more";
    expect(textWidth(text, 1) / [...text].reduce((w, c) => w + em(c), 0)).toBeLessThan(1.25);
  });
});
it("keeps a number and its unit on one line, and breaks what is wider than the line", () => {
  expect(linesWithin("rated 1000 V or more", 80, 16)).toEqual(["rated", "1000\u00a0V or", "more"]);
  expect(linesWithin("Brobdingnagian", 50, 16).join("")).toBe("Brobdingnagian");
});
