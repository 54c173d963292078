import { marked } from "marked";
import mathup from "mathup";

/** Words that the typesetting library knows as functions or signs. */
const known = new Set(
  "sqrt sin cos tan exp log ln sinc max min sum pi alpha beta gamma delta epsilon eta theta lambda mu nu rho sigma tau phi omega".split(
    " ",
  ),
);
const quoted = (s: string): string => `"${s}"`;

/** A name as engineers write it on one line, with its index set below: `Ceff`, `C1`, `f_osc`, `zm`. */
function named(word: string): string {
  if (known.has(word)) return word;
  const [, base, under, marks] = /^([A-Za-z]+?\d*)(?:_([A-Za-z0-9,]+))?('*)$/.exec(word) ?? [];
  if (base === undefined) return word;
  const below = under === undefined ? "" : `_${quoted(under)}`;
  const letters = base.replace(/\d+$/, "");
  const digits = base.slice(letters.length);
  const sign = (s: string): string => (s === "w" ? "omega" : s);
  if (letters.length === 1) return `${sign(letters)}${below || (digits === "" ? "" : `_${digits}`)}${marks}`;
  if (known.has(letters)) return `${letters}${below || (digits === "" ? "" : `_${digits}`)}${marks}`;
  if (/^d[A-Zfrtw]$/.test(letters) && letters !== "dB")
    return `d ${sign(letters[1])}${below || (digits === "" ? "" : `_${digits}`)}${marks}`;
  if (letters === "IF" || letters === "dB" || letters.length > 5) return `${quoted(base)}${below}${marks}`;
  if (letters.length <= 2 || /^[A-Z][a-z]+$/.test(letters))
    return `${sign(letters[0])}_${quoted(letters.slice(1) + digits + (under ?? ""))}${marks}`;
  return `${quoted(base)}${below}${marks}`;
}

/**
 * A formula of a page of theory, as it is typed on one line, in the notation that is typeset.
 *
 * @param typed such as `f' = f / sqrt(1 + Ceff / C1)`
 * @returns the same for the library: indices set below, Greek letters as such
 * @source house notation of the pages of theory
 */
export const toSet = (typed: string): string =>
  typed
    .replace(/[A-Za-z]+\d*(?:_[A-Za-z0-9,]+)?'*/g, (word) => ` ${named(word)} `)
    .replace(/ +/g, " ")
    .trim();

const ofCode = (text: string): string =>
  text
    .replace(/&#39;/g, "'")
    .replace(/&lt;/g, "<")
    .replace(/&gt;/g, ">")
    .replace(/&quot;/g, '"')
    .replace(/&amp;/g, "&");
/** What stands in backticks and is no formula: names of commands and files. */
const isName = (text: string): boolean => /--|\.(?:ts|md)\b|^[a-z]+-[a-z-]+$|[…]/.test(text);

/**
 * A page of theory as HTML: its formulas as MathML, everything else as it is written.
 *
 * @param markdown the page
 * @returns HTML; our own text, part of the program
 */
export function theoryHtml(markdown: string): string {
  const html = marked.parse(markdown.replace(/^# .*\n/, ""), { async: false });
  return html.replace(/<code>([^<]*)<\/code>/g, (whole, code: string) => {
    const text = ofCode(code);
    return isName(text) ? whole : mathup(toSet(text), {}).toString();
  });
}
