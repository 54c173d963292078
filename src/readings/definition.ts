import { levels, modes, ratios, type SensitivityDefinition } from "../physics/noise";
import { bad, good, type Read } from "../units/issue";
import { parseQuantity } from "../units/parse";

const longestDefinition = 200;

/**
 * A definition of sensitivity as it is written beside microvolts: `10 dB (S+N)/N, AM 30 %, 6 kHz, 50 ohm, p.d.`
 *
 * @param text parts between commas, in any order
 * @param path what errors name
 * @returns the definition, or what it lacks
 * @source house format; the five parts are those without which a figure can't be compared
 */
export function readDefinition(text: string, path: string): Read<SensitivityDefinition> {
  if (text.length > longestDefinition) return bad(path, "too-long", text, `a definition of at most ${longestDefinition} characters`);
  const parts = text
    .split(",")
    .map((p) => p.trim())
    .filter((p) => p !== "");
  const found: { -readonly [K in keyof SensitivityDefinition]?: SensitivityDefinition[K] } = {};
  for (const p of parts) {
    const ratio = ratios.find((r) => p.toLowerCase().replace(/\s/g, "").endsWith(r.toLowerCase()));
    const db = /^([\d.]+)\s*db\b/i.exec(p);
    const depth = /^am\b\D*([\d.]+)\s*%/i.exec(p);
    if (ratio && db) Object.assign(found, { ratio, db: Number(db[1]) });
    else if (depth) Object.assign(found, { mode: modes[0], depth: Number(depth[1]) / 100 });
    else if (/^(cw|ssb|cw or ssb)$/i.test(p)) Object.assign(found, { mode: modes[1], depth: 1 });
    else if (/^p\.?\s?d\.?$/i.test(p)) found.level = levels[0];
    else if (/^emf$/i.test(p)) found.level = levels[1];
    else {
      const hz = parseQuantity(p, "frequency", path);
      const ohm = parseQuantity(p, "resistance", path);
      if (hz.ok && /hz|c\/s|kc|cps/i.test(p)) found.bandwidthHz = hz.value.value;
      else if (ohm.ok && /ohm|Ω/i.test(p)) found.sourceOhm = ohm.value.value;
    }
  }
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
