/** Words made into a sentence. */

/** With a capital at its beginning. */
export const upperFirst = (s: string): string => s.charAt(0).toUpperCase() + s.slice(1);
/** With a small letter at its beginning. */
export const lowerFirst = (s: string): string => s.charAt(0).toLowerCase() + s.slice(1);
/** With a full stop at its end, where nothing ends it yet; nothing stays nothing. */
export const closed = (s: string): string => (s === "" || /[.!?]$/.test(s) ? s : `${s}.`);
/** So many of something, by its own number: 1 entry, 2 entries. */
export const counted = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;
/** Several in a row as they are said: one, two and three. */
export const anded = (words: readonly string[]): string =>
  words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words[words.length - 1]}`;
