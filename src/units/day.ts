const months = "January February March April May June July August September October November December".split(" ");

/**
 * A day as it is written in a letter: `26 November 2026`.
 *
 * @param text a day or a moment that begins with one, as `2026-11-26`; what is none stays as it was written
 * @returns the day in words
 * @source ISO 8601-1:2019 5.2.2.1 (calendar date), what is read; the words are the house format
 */
export function dayInWords(text: string): string {
  const [, year, month, day] = /^(\d{4})-(\d\d)-(\d\d)(?:T|$)/.exec(text) ?? [];
  const name = months[Number(month) - 1];
  return name === undefined ? text : `${Number(day)} ${name} ${year}`;
}
