import { bulbOf, isAmplifying, type UnitKind } from "../../standards/tube-bulbs";
import type { Duty, SaidDuty, SaidTube } from "./duties";

const said = (duty: Duty, says: string): SaidDuty => ({ duty, says, order: undefined });

/** What a type does in most receivers, where nobody said it; none where the type alone does not tell. Common practice, no source. */
function usualDuties(units: readonly UnitKind[]): readonly SaidDuty[] {
  if (units.includes("rectifier")) return [said("rectifier", "rectifier")];
  if (units.includes("gas")) return [said("regulator", "regulator")];
  if (units.includes("eye")) return [said("eye", "tuning eye")];
  if (units.includes("output")) return [said("output", "output")];
  if (units.length === 1 && units[0] === "converter") return [said("converter", "converter")];
  if (units.length > 0 && units.every((u) => u === "diode")) return [said("detector", "detector, AVC")];
  if (units.includes("diode") && units.some(isAmplifying)) return [said("detector", "detector, AVC"), said("audio", "first audio")];
  return [];
}
const does = (t: SaidTube | undefined, ...duties: readonly Duty[]): boolean => t?.duties.some((d) => duties.includes(d.duty)) ?? false;

/** What a tube does by where it stands in the list, which mostly follows the signal. Common practice, no source. */
function byPlace(tubes: readonly SaidTube[], at: number): readonly SaidDuty[] {
  const units = bulbOf(tubes[at].type)?.units ?? [];
  const mixing = tubes.findIndex((t) => does(t, "mixer", "converter"));
  const detecting = tubes.findIndex((t) => does(t, "detector"));
  const before = detecting < 0 || at < detecting;
  if (mixing < 0) return [];
  if (units.length === 1 && units[0] === "pentode") return at < mixing ? [said("rf", "RF")] : before ? [said("if", "IF")] : [];
  if (units.length === 0 || !units.every((u) => u === "triode")) return [];
  if (at === mixing + 1 && units.length === 1 && !tubes.some((t) => does(t, "oscillator"))) return [said("oscillator", "oscillator")];
  return !before && !tubes.some((t) => does(t, "audio")) ? [said("audio", "first audio")] : [];
}

/**
 * What tubes do where nobody said it: by the type, else by where the tube stands in the list.
 *
 * @param tubes in the order in which they were written
 * @returns the same; one whose duty neither type nor place tells has none
 * @source common practice, no source
 */
export function guessDuties(tubes: readonly SaidTube[]): readonly SaidTube[] {
  const out = tubes.map((t) => (t.duties.length > 0 ? t : { ...t, duties: usualDuties(bulbOf(t.type)?.units ?? []), guessed: true }));
  for (const [i, t] of out.entries()) if (t.duties.length === 0) out[i] = { ...t, duties: byPlace(out, i) };
  // beside an oscillator of its own, what would convert alone only mixes
  return out.map((t) =>
    t.guessed && does(t, "converter") && out.some((x) => does(x, "oscillator")) ? { ...t, duties: [said("mixer", "mixer")] } : t,
  );
}
