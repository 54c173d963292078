/** Where a line could end between a number and its unit. */
const parted = /(\d) (?=(?:[munpkMG]?(?:V|A|W|Hz|F|H|S)|µ[VAFHSs]|[kM]?Ω|[cm]?m|dBm?|%|min|m?s|h|K|ppm)(?![\wΩ]))/g;

/**
 * A text whose numbers stay on one line with their units, on the page and on paper: joined by a hard space.
 *
 * @param text as it is said
 * @returns the same words
 * @source SI Brochure, 9th edition, 5.4.3: a space between number and unit (from memory); that no line ends there is the house format
 */
export const together = (text: string): string => text.replace(parted, "$1\u00a0");
