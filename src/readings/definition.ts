import { levels, modes, ratios, type SensitivityDefinition } from "../physics/noise";
import { bad, good, type Read } from "../units/issue";
import { parseQuantity } from "../units/parse";

const longestDefinition = 200;
type Found = { -readonly [K in keyof SensitivityDefinition]?: SensitivityDefinition[K] };
/** A ratio as it is written, with or without brackets; the signal with its noise before the signal alone. */
const ratioPatterns: readonly (readonly [RegExp, SensitivityDefinition["ratio"]])[] = [
  [/\bsinad\b/i, ratios[2]],
  [/\bs\s*\+\s*n\s*\)?\s*(?:\/|to)\s*n\b/i, ratios[0]],
  [/\bs\s*\/\s*n\b|signal[ -]to[ -]noise/i, ratios[1]],
];
const figure = String.raw`(\d*\.?\d+\s*`;
/** What one part of a definition says: several things where they stand in it together, in any order. */
function partOf(p: string, path: string): Found {
  const out: Found = {};
  const ratio = ratioPatterns.find(([r]) => r.test(p))?.[1];
  const db = new RegExp(`${figure})db\\b`, "i").exec(p)?.[1];
  if (ratio && db) Object.assign(out, { ratio, db: Number(db) });
  const modulated = /\bam\b|\bmod/i.test(p);
  const depth = /(\d*\.?\d+)\s*%/.exec(p)?.[1];
  if (modulated && depth) Object.assign(out, { mode: modes[0], depth: Number(depth) / 100 });
  else if (/\b(?:cw|ssb)\b/i.test(p)) Object.assign(out, { mode: modes[1], depth: 1 });
  if (/\bp\.?\s?d\b\.?|potential difference/i.test(p)) out.level = levels[0];
  else if (/\be\.?m\.?f\b/i.test(p)) out.level = levels[1];
  const band = new RegExp(`${figure}k?(?:hz|c\\/s|cps|cs?\\b))`, "i").exec(p)?.[1];
  const hz = band === undefined ? undefined : parseQuantity(band, "frequency", path);
  // a tone stands with its modulation: it is no bandwidth unless the word is there
  if (hz?.ok && (!/\bam\b|\bmod|\btone\b/i.test(p) || /bandwidth|wide/i.test(p))) out.bandwidthHz = hz.value.value;
  const source = new RegExp(`${figure}k?\\s*(?:ohms?|Ω|Ω))`, "i").exec(p)?.[1];
  const ohm = source === undefined ? undefined : parseQuantity(source, "resistance", path);
  if (ohm?.ok) out.sourceOhm = ohm.value.value;
  return out;
}

/**
 * A definition of sensitivity as it is written beside microvolts: `10 dB (S+N)/N, AM 30 %, 6 kHz, 50 ohm, p.d.`
 *
 * @param text parts between commas or semicolons, in any order, among whatever else is said of the method
 * @param path what errors name
 * @returns the definition, or what it lacks
 * @source house format; the five parts are those without which a figure can't be compared
 */
export function readDefinition(text: string, path: string): Read<SensitivityDefinition> {
  if (text.length > longestDefinition) return bad(path, "too-long", text, `a definition of at most ${longestDefinition} characters`);
  const parts = text
    .split(/[,;]|\s-\s/)
    .map((p) => p.trim())
    .filter((p) => p !== "");
  const found: Found = {};
  for (const p of parts) Object.assign(found, partOf(p, path));
  const { ratio, db, mode, depth, bandwidthHz, sourceOhm, level } = found;
  const lacks = [
    ...(ratio && db ? [] : ["the ratio, such as 10 dB (S+N)/N"]),
    ...(mode ? [] : ["the modulation, such as AM 30 %, or CW"]),
    ...(bandwidthHz ? [] : ["the bandwidth, such as 6 kHz"]),
    ...(sourceOhm ? [] : ["the impedance, such as 50 ohm"]),
    ...(level ? [] : ["p.d. or EMF"]),
  ];
  return ratio && db && mode && bandwidthHz && sourceOhm && level
    ? good({ ratio, db, mode, depth: depth ?? 1, bandwidthHz, sourceOhm, level })
    : bad(path, "definition-incomplete", text, lacks.join("; "));
}
