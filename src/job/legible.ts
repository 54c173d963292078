/** Characters that steer a terminal or turn a line round, and halves of characters: nobody means them. */
const steering = /(?![\t\n\r])\p{Cc}|[\u202A-\u202E\u2066-\u2069]|\p{Surrogate}/gu;

/**
 * The same data with a dot in the place of every character that steers a terminal.
 *
 * @param data as JSON holds it, not nested deeper than a job
 * @returns a copy
 * @source Unicode general category Cc, and the bidirectional controls of UAX 9
 */
export function legible<T>(data: T): T {
  return made(data) as T;
}
function made(data: unknown): unknown {
  if (typeof data === "string") return data.replace(steering, "·");
  if (Array.isArray(data)) return typeof data[0] === "number" ? data : data.map(made);
  if (typeof data !== "object" || data === null) return data;
  return Object.fromEntries(Object.entries(data).map(([k, v]) => [k.replace(steering, "·"), made(v)]));
}
