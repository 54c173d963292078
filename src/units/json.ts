import { bad, good, type Read } from "./issue";

/** Deeper nesting is none of ours: what walks such data would run out of stack. */
const deepest = 64;
const [quote, backslash, openBracket, closeBracket, openBrace, closeBrace] = [34, 92, 91, 93, 123, 125];

/** Levels of nesting in a text of JSON, counted without taking it apart; stops one past the deepest that is allowed. */
function depthOf(text: string): number {
  let depth = 0;
  let most = 0;
  let inside = false;
  for (let i = 0; i < text.length && most <= deepest; i++) {
    const c = text.charCodeAt(i);
    if (inside) {
      if (c === backslash) i++;
      else if (c === quote) inside = false;
    } else if (c === quote) inside = true;
    else if (c === openBracket || c === openBrace) most = Math.max(most, ++depth);
    else if (c === closeBracket || c === closeBrace) depth--;
  }
  return most;
}

/**
 * Data from a text of JSON that came from elsewhere.
 *
 * @param text the text
 * @param path what it is called in an error
 * @returns the data, of unknown shape, or the issue where it is no JSON or nested too deep
 * @source RFC 8259, which leaves the depth of nesting to the reader
 */
export function readJson(text: string, path: string): Read<unknown> {
  if (depthOf(text) > deepest) return bad(path, "too-deep", "", `JSON nested at most ${deepest} deep`);
  try {
    return good(JSON.parse(text));
  } catch (e) {
    return bad(path, "not-json", text.slice(0, 30), `JSON (${(e as Error).message.replace(/\s+/g, " ").slice(0, 80)})`);
  }
}
