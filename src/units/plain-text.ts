/** Text of other people's making, made harmless where it is shown: in a terminal, on the page, on paper. */

/** Marks that turn the direction of writing, by which a label can look like another. Source: Unicode Standard Annex 9, explicit and implicit directional marks. */
const turns = /[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/g;
/** What a terminal obeys, or what is not seen at all: controls but tab and line end, format characters, line and paragraph separators, halves of pairs. */
const unseen = /(?![\t\n])[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/gu;

const written = (text: string): string =>
  Array.from({ length: text.length }, (_, i) => `\\u${text.charCodeAt(i).toString(16).padStart(4, "0")}`).join("");

/**
 * Text as a terminal may have it: every character that it would obey or hide stands as its code, `\u001b`; within JSON that is the same character.
 *
 * @param text anything
 * @returns the text with nothing in it but what is seen, tabs and line ends
 */
export const seen = (text: string): string => text.replace(unseen, written);

/** Text as a page or paper may have it: what turns the direction of writing stands as its code. */
export const withoutTurns = (text: string): string => text.replace(turns, written);
