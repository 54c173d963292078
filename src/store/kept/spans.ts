import { bad, good, type Read } from "../../units/issue";

/** A stretch of the calendar. */
export interface Span {
  readonly count: number;
  readonly unit: "days" | "months" | "years";
}
const units = ["days", "months", "years"] as const;

/** A span in words: `10 years`, `1 month`. */
export const saySpan = ({ count, unit }: Span): string => `${count} ${count === 1 ? unit.slice(0, -1) : unit}`;

/**
 * A span as typed; undefined for ever.
 *
 * @param said `10 years`, `18 months`, `90 days`, `for ever`
 * @returns the span, or what is wrong with it
 */
export function readSpan(said: string): Read<Span | undefined> {
  const text = said.trim().toLowerCase().replace(/\s+/g, " ");
  if (/^for ?ever$/.test(text)) return good(undefined);
  const m = /^(\d{1,4}) ?(day|month|year)s?$/.exec(text);
  const unit = units.find((u) => u === `${m?.[2]}s`);
  const count = Number(m?.[1]);
  if (unit === undefined || count < 1)
    return bad("time", "not-a-time", said, "how long, such as 10 years, 18 months or 90 days, or: for ever");
  return good({ count, unit });
}

/**
 * The moment a span before another, by the calendar, in UTC; a day that its month lacks is that month's last.
 *
 * @param now ISO 8601
 * @param span how long before
 */
export function before(now: string, { count, unit }: Span): string {
  const at = new Date(now);
  if (unit === "days") at.setUTCDate(at.getUTCDate() - count);
  else {
    const day = at.getUTCDate();
    at.setUTCDate(1);
    at.setUTCMonth(at.getUTCMonth() - count * (unit === "years" ? 12 : 1));
    const last = new Date(Date.UTC(at.getUTCFullYear(), at.getUTCMonth() + 1, 0)).getUTCDate();
    at.setUTCDate(Math.min(day, last));
  }
  return at.toISOString();
}
