import { InputError } from "../units/issue";

/**
 * `name=value` pairs as typed.
 *
 * @param list the words
 * @param option what they were typed for
 * @throws {InputError} where a word has no name or no equals sign
 */
export function pairs(list: readonly string[], option: string): Record<string, string> {
  const out: [string, string][] = [];
  for (const item of list) {
    const at = item.indexOf("=");
    if (at < 1)
      throw new InputError([{ path: option, code: "no-equals", read: item, expected: 'NAME=VALUE, such as cableLength="90 cm"' }]);
    out.push([item.slice(0, at).trim(), item.slice(at + 1).trim()]);
  }
  return Object.fromEntries(out);
}
