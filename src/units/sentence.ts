/** Words made into a sentence. */

/** With a capital at its beginning. */
export const upperFirst = (s: string): string => s.charAt(0).toUpperCase() + s.slice(1);
/** With a small letter at its beginning. */
export const lowerFirst = (s: string): string => s.charAt(0).toLowerCase() + s.slice(1);
/** With a full stop at its end, where nothing ends it yet; nothing stays nothing. */
export const closed = (s: string): string => (s === "" || /[.!?]$/.test(s) ? s : `${s}.`);
