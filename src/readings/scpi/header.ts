/**
 * A command's header as its standard writes it, ready to be recognised: `[SOURce:]FREQuency[:CW]` is met by FREQ, FREQUENCY, SOUR:FREQ:CW and no other.
 *
 * @param written capitals are the short form; what stands between brackets may be left out
 * @returns what tells whether a header is meant; letters of either case
 * @source short or long form only, as a maker's manual states it (read)
 */
export function headerOf(written: string): (typed: string) => boolean {
  const pattern = written
    .replace(/[?*]/g, "\\$&")
    .replace(/\[/g, "(?:")
    .replace(/\]/g, ")?")
    .replace(/[A-Z]+[a-z]*/g, (word) => {
      const short = word.replace(/[a-z]/g, "");
      return short === word ? word : `(?:${short}|${word.toUpperCase()})`;
    });
  const whole = new RegExp(`^:?${pattern}$`, "i");
  return (typed) => whole.test(typed);
}

const multipliers: Readonly<Record<string, number>> = {
  EX: 1e18,
  PE: 1e15,
  T: 1e12,
  G: 1e9,
  MA: 1e6,
  K: 1e3,
  M: 1e-3,
  U: 1e-6,
  N: 1e-9,
  P: 1e-12,
  F: 1e-15,
  A: 1e-18,
};
/**
 * A number with its unit as a command carries it: 455 KHZ, -73 DBM, 0.5.
 *
 * @param typed the parameter
 * @param unit that the command takes: HZ, DBM, V, PCT
 * @returns the number in that unit; undefined where it is none, or of another unit
 * @source suffixes of IEEE 488.2 tables 7-1 and 7-2 as a public library quotes them (read): M is a thousandth, but a million before HZ and OHM
 */
export function parameterOf(typed: string, unit: string): number | undefined {
  const m = /^([+-]?(?:\d+\.?\d*|\.\d+)(?:E[+-]?\d{1,3})?)\s*([A-Z]*)$/i.exec(typed.trim());
  if (!m) return undefined;
  const suffix = m[2].toUpperCase();
  if (suffix === "" || suffix === unit) return Number(m[1]);
  if (unit === "DBM" || !suffix.endsWith(unit)) return undefined;
  const prefix = suffix.slice(0, suffix.length - unit.length);
  if (prefix === "M" && (unit === "HZ" || unit === "OHM")) return Number(m[1]) * 1e6;
  return prefix in multipliers ? Number(m[1]) * multipliers[prefix] : undefined;
}
