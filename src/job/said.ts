/** Words that say nothing where something was to be said. */
const empty = /^(?:none|no|nil|n\/?a|unknown|nothing|not|x+|-+|\?+|\.+|0+|yes|ok)$/i;

/** Whether a text names something: at least three letters, and no word that says nothing. */
export const names = (text: string): boolean => {
  const t = text.trim();
  return !empty.test(t) && (t.match(/\p{L}/gu)?.length ?? 0) >= 3;
};

/**
 * What is wrong with a date and signature: a day in figures or with its month, and who signed; not from before the job.
 *
 * @param text as written
 * @param created when the job was made, ISO 8601
 * @returns what is wanted; undefined where it will do
 * @source house format
 */
export function signatureWants(text: string, created: string): string | undefined {
  const letters = text.match(/\p{L}/gu)?.length ?? 0;
  if (!/\d/.test(text) || letters < 1) return "the day and who signs, such as 3 May 2026, J. Miller";
  const year = Number(/\b(1[89]\d\d|2[0-9]\d\d)\b/.exec(text)?.[1] ?? Number.NaN);
  const made = Number(created.slice(0, 4));
  return Number.isFinite(year) && Number.isFinite(made) && year < made ? `a day of this job, made in ${made}` : undefined;
}
