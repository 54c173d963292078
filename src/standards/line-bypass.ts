/** A part, its mark or its class is told of: "none marked, 20 nF", "no class" and "removed, Y2 in its place" are no words for nothing there. */
const aPart = /\d|\bmark|\bclass|\brat(?:ed|ing)|\bwax|\bpaper|\bplace|\binstead|\bnew\b|\bold\b/i;
/**
 * Whether words say that no capacitor goes from the line to the chassis.
 *
 * @param said as on the safety record, such as `none`, `not fitted`
 * @returns false for anything that tells of a part
 * @source house rule: what can kill is there until it is said plainly that it isn't
 */
export const saysNoBypass = (said: string): boolean => /^(?:none|no capacitor|not fitted)\b/i.test(said.trim()) && !aPart.test(said);
/**
 * Whether words say that the capacitor from the line to the chassis was taken out, and nothing put in its place.
 *
 * @param said as on the safety record, such as `taken out`, `removed, not replaced`
 * @returns false for anything that tells of a part
 * @source house rule, as for saysNoBypass
 */
export const saysTakenOut = (said: string): boolean =>
  /^(?:(?:taken|cut) out|removed)\b|^out\.?$/i.test(said.trim()) &&
  !aPart.test(said) &&
  !/\breplaced\b/i.test(said.replace(/\bnot replaced\b/i, ""));
