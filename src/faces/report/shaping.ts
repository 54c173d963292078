/** Letters set beside each other on paper: what pairs of them come to is looked up, where a font has nothing else to say of a word. */

interface Glyph {
  readonly id: number;
  readonly advanceWidth: number;
}
interface Position {
  readonly xAdvance: number;
  readonly yAdvance: number;
  readonly xOffset: number;
  readonly yOffset: number;
}
interface Run {
  readonly glyphs: readonly Glyph[];
  readonly positions: readonly Position[];
  readonly advanceWidth: number;
}
/** A font as a document holds it, with what its layout of a word goes by. */
export interface HeldFont {
  readonly name: string;
  readonly scale: number;
  readonly font: {
    readonly layout: (text: string, features: readonly string[], script: string) => Run;
    readonly glyphForCodePoint: (code: number) => Glyph;
  };
  layoutRun: (text: string, features?: unknown) => Run;
}

/** Signs without marks and of one script, so that a font of ours does nothing to them but bring pairs closer: a test compares. */
const plain = /^[ -~\u00a0-\u00ac\u00ae-\u00ff\u2013\u2014\u2018-\u201d\u2026\u2212]*$/;
const latin = /[A-Za-z\u00aa\u00ba\u00c0-\u00d6\u00d8-\u00f6\u00f8-\u00ff]/;

/** Advances of the first of two signs by script and pair, in the font's own units; none where the second is moved as well. By the font's name: every paper has the same ones. */
const advancesOf = new Map<string, Map<string, number | undefined>>();
function advancesIn(name: string): Map<string, number | undefined> {
  const known = advancesOf.get(name) ?? new Map<string, number | undefined>();
  advancesOf.set(name, known);
  return known;
}
/** Advance of the first of two signs as the font itself sets them. */
function measured({ font }: HeldFont, pair: string, script: string): number | undefined {
  const { glyphs, positions } = font.layout(pair, [], script);
  const own = [...pair].map((c) => font.glyphForCodePoint(c.charCodeAt(0)));
  const alike = glyphs.length === 2 && glyphs.every((g, i) => g.id === own[i].id);
  const still = positions.every((p) => p.yAdvance === 0 && p.xOffset === 0 && p.yOffset === 0);
  return alike && still && positions[1].xAdvance === own[1].advanceWidth ? positions[0].xAdvance : undefined;
}

/**
 * Has a font set plain words by their pairs, each asked for once; the font's own layout takes thirty times as long over a word. All else goes the old way.
 *
 * @param held the font, whose layout of a word is replaced by one that gives the same
 */
export function setByPairs(held: HeldFont): void {
  const whole = held.layoutRun;
  const { font, scale } = held;
  const advances = advancesIn(held.name);
  const byPairs = (text: string): Run | undefined => {
    const script = latin.test(text) ? "latn" : "zzzz";
    const glyphs: Glyph[] = [];
    const positions: (Position & Pick<Glyph, "advanceWidth">)[] = [];
    let advanceWidth = 0;
    for (let i = 0; i < text.length; i++) {
      const glyph = font.glyphForCodePoint(text.charCodeAt(i));
      let advance: number | undefined = glyph.advanceWidth;
      if (i < text.length - 1) {
        const pair = text.slice(i, i + 2);
        const key = script + pair;
        if (!advances.has(key)) advances.set(key, measured(held, pair, script));
        advance = advances.get(key);
      }
      if (advance === undefined) return undefined;
      glyphs.push(glyph);
      positions.push({ xAdvance: advance * scale, yAdvance: 0, xOffset: 0, yOffset: 0, advanceWidth: glyph.advanceWidth * scale });
      advanceWidth += advance * scale;
    }
    return { glyphs, positions, advanceWidth };
  };
  held.layoutRun = (text, features) => (!features && plain.test(text) ? byPairs(text) : undefined) ?? whole.call(held, text, features);
}
