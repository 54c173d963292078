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

/**
 * A moment as a person notes it: the day in words, and the minute.
 *
 * @param text ISO 8601, such as `2026-11-26T18:40:12Z`; a day alone is a day, and so is its first instant, as which one is kept
 * @returns such as `26 November 2026, 18:40`
 * @source ISO 8601-1:2019, what is read; the words are the house format
 */
export function momentInWords(text: string): string {
  const minute = /T(\d\d:\d\d)/.exec(text)?.[1];
  return minute === undefined || /T00:00:00(?:\.0+)?Z$/.test(text) ? dayInWords(text) : `${dayInWords(text)}, ${minute}`;
}
