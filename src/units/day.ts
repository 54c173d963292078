const months = "January February March April May June July August September October November December".split(" ");

/** How a month is written: whole, or in its first three letters where a table is narrow. */
type Month = "whole" | "short";
function written(text: string, how: Month, withClock: boolean): string {
  const [, year, month, day, clock] = /^(\d{4})-(\d\d)-(\d\d)(?:$|[T ](?:(\d\d:\d\d).*)?)/.exec(text) ?? [];
  const name = months[Number(month) - 1];
  if (name === undefined) return text;
  // a day's first instant stands for the day
  const shown = withClock && clock && !/T00:00:00(?:\.0+)?Z$/.test(text);
  return `${Number(day)} ${how === "short" ? name.slice(0, 3) : name} ${year}${shown ? `, ${clock}` : ""}`;
}
/**
 * A day as it is written in a letter: `26 November 2026`.
 *
 * @param text a day or a moment that begins with one, as `2026-11-26`; what is none stays as it was written
 * @returns the day in words
 * @source ISO 8601-1:2019 5.2.2.1 (calendar date), what is read; the words are the house format
 */
export const dayInWords = (text: string): string => written(text, "whole", false);
/**
 * A moment as it is written in a letter, to the minute: `26 November 2026, 17:19`; of a day alone the day.
 *
 * @source ISO 8601-1:2019 5.4.2.1 (date and time of day), what is read; the words are the house format
 */
export const momentInWords = (text: string): string => written(text, "whole", true);
/**
 * A day in a table: `26 Nov 2026`.
 *
 * @source house format
 */
export const shortDay = (text: string): string => written(text, "short", false);
/**
 * A moment in a table: `26 Nov 2026, 17:19`.
 *
 * @source house format
 */
export const shortMoment = (text: string): string => written(text, "short", true);
