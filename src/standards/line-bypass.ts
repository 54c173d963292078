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
/** Only meant, or denied: "not removed", "Y2 to be fitted", "no Y2 marking" are no words for what was done. */
const undone = /\b(?:not|never|to be|must|should|will|later|on order)\b|\b(?:no|without)\s+(?:a\s+)?Y[124]\b/i;
/**
 * Whether words say what became of the capacitor from the line to the chassis: none is there, it was taken out, or one of a class that may stand there is in.
 *
 * @param said as on the safety record, such as `Y2, 2.2 nF`, `removed, not replaced`
 * @returns false for what is only meant, or denied
 * @source house rule, as for saysNoBypass; classes as IEC 60384-14 has them
 */
export const saysBypassDecided = (said: string): boolean =>
  saysNoBypass(said) ||
  (/\b(?:removed|taken out|cut out|Y[124])\b|^out\.?$/i.test(said.trim()) && !undone.test(said.replace(/\bnot replaced\b/gi, "")));
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
