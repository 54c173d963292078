import { closest } from "../../units/nearest";

/** What a tube of a receiver does, by the words that people use for it. The first that fits a stretch of text has it. */
export const duties = [
  "converter",
  "mixer",
  "bfo",
  "limiter",
  "rectifier",
  "regulator",
  "calibrator",
  "eye",
  "meter",
  "ballast",
  "output",
  "audio",
  "avc",
  "detector",
  "oscillator",
  "rf",
  "if",
] as const;
export type Duty = (typeof duties)[number];
const words: readonly (readonly [Duty, RegExp])[] = [
  [
    "converter",
    /\b(?:mixer|first det(?:ector)?|1st det(?:ector)?)\b\W*(?:and|&|\/|-|,)?\W*(?:local |h\.?f\.? |1st )?osc(?:illator)?\b\.?/i,
  ],
  ["converter", /\bosc(?:illator)?\b\.?\W*(?:and|&|\/|-)?\W*mixer\b/i],
  ["converter", /\bconv(?:erter)?\b\.?|\bfrequency changer\b|\bpentagrid\b/i],
  ["calibrator", /\bcalibrator\b|\b(?:crystal|xtal) (?:marker|osc(?:illator)?)\b\.?|\bmarker\b|\bspotter\b/i],
  ["bfo", /\bb\.?f\.?o\b\.?|\b(?:beat|cw)[ -]*(?:frequency )?(?:osc(?:illator)?)?\b\.?/i],
  ["mixer", /\bmix(?:er)?\b\.?|\b(?:first|1st) det(?:ector)?\b\.?/i],
  ["limiter", /\b(?:noise |series )?limiter\b|\ba\.?n\.?l\b\.?|\bsquelch\b/i],
  ["rectifier", /\brect(?:ifier)?\b\.?/i],
  ["regulator", /\b(?:voltage )?reg(?:ulator)?\b\.?|\bstabili[sz]er\b/i],
  ["eye", /\b(?:magic |tuning )?eye\b|\btuning indicator\b/i],
  ["meter", /\bs[ -]?meter(?: amp(?:lifier)?\b\.?)?/i],
  ["ballast", /\bballast\b/i],
  ["avc", /\ba\.?[vg]\.?c\b\.?(?: amp(?:lifier)?\b\.?)?/i],
  ["output", /\b(?:audio |a\.?f\.? |power |push[- ]pull )*(?:output|power amp(?:lifier)?\b\.?|p\.?a\b\.?)|\bpush[- ]pull\b/i],
  [
    "audio",
    /\b(?:phase )?(?:inverter|splitter)\b|\bdriver\b|\bpre-?amp(?:lifier)?\b\.?|\baudio(?: amp(?:lifier)?\b\.?)?|\ba\.?f\b\.?(?: amp(?:lifier)?\b\.?)?/i,
  ],
  ["detector", /\b(?:second |2nd |product |am |ssb )*det(?:ector)?\b\.?|\bdemod(?:ulator)?\b\.?/i],
  ["oscillator", /\b(?:local |h\.?f\.? |variable |1st )*osc(?:illator)?\b\.?|\bv\.?f\.?o\b\.?|\bh\.?f\.?o\b\.?|\bl\.?o\b\.?/i],
  ["rf", /\br\.?[ -]?f\b\.?(?: amp(?:lifier)?\b\.?)?|\bpreselector\b/i],
  ["if", /\bi\.?[ -]?f\b\.?(?: amp(?:lifier)?\b\.?)?/i],
];
/** Words that say what else a person wants said, and name no duty. */
export const orders: readonly RegExp[] = [
  /\b(?:first|1st|no\.? ?1|one)\b/i,
  /\b(?:second|2nd|no\.? ?2)\b/i,
  /\b(?:third|3rd)\b/i,
  /\b(?:fourth|4th)\b/i,
];

/** A duty as it was said: where in the text it begins, and whether it is the first, the second of its kind. */
export interface SaidDuty {
  readonly duty: Duty;
  readonly says: string;
  /** 1 for the first; undefined where it was not said */
  readonly order: number | undefined;
}
/** One bulb of a line-up, as it was said. */
export interface SaidTube {
  /** `V5`, `V5b`; undefined where none was said */
  readonly socket: string | undefined;
  readonly type: string;
  readonly duties: readonly SaidDuty[];
  /** whether its duty was not said and is the usual one of its type */
  readonly guessed: boolean;
  /** line that it was said in, from 1 */
  readonly line: number;
}
interface Hit {
  readonly duty: Duty;
  readonly from: number;
  readonly to: number;
}
/** Where the text of one duty ends and the next begins. */
function hitsIn(text: string): readonly Hit[] {
  const hits: Hit[] = [];
  for (const [duty, word] of words)
    for (const m of text.matchAll(new RegExp(word.source, "gi"))) {
      const [from, to] = [m.index, m.index + m[0].length];
      if (m[0].trim() !== "" && hits.every((h) => to <= h.from || from >= h.to)) hits.push({ duty, from, to });
    }
  return hits.sort((a, b) => a.from - b.from);
}
const tidy = (said: string): string =>
  said
    .replace(/^[\s,;:/+&-]+|[\s,;:/+&-]+$/g, "")
    .replace(/^(?:and|as|the)\s+|\s+(?:and|or)$/gi, "")
    .replace(/\s+/g, " ");
/**
 * The duties that some words name, in order, each with its own words.
 *
 * @param text such as `1st IF amp`, `detector, AVC and first audio`
 * @returns duties; none where the words name none
 * @source words of the trade
 */
export function dutiesIn(text: string): readonly SaidDuty[] {
  const hits = hitsIn(text);
  return hits.map((h, i) => {
    // what stands before a duty belongs to it, up to the duty before
    const before = text.slice(i === 0 ? 0 : hits[i - 1].to, h.from);
    const after = i === hits.length - 1 ? text.slice(h.to) : "";
    const own = before + text.slice(h.from, h.to);
    const order = orders.findIndex((o) => o.test(own.replace(/\b(?:first|1st|second|2nd) det(?:ector)?\b\.?/i, "")));
    const wordsBefore = i === 0 ? before : before.replace(/^.*[,;/+&]/, "");
    return { duty: h.duty, says: tidy(wordsBefore + text.slice(h.from, h.to) + after), order: order < 0 ? undefined : order + 1 };
  });
}
/** Words for duties, for an error that says what was expected. */
const known = [
  "RF",
  "mixer",
  "converter",
  "oscillator",
  "IF",
  "detector",
  "AVC",
  "noise limiter",
  "first audio",
  "output",
  "BFO",
  "rectifier",
  "regulator",
  "calibrator",
  "tuning eye",
  "S meter",
];
/**
 * What was expected where no duty was found.
 *
 * @param text what was written
 * @returns the duties; first the one that may have been meant
 * @source house frame
 */
export const expectedDuty = (text: string): string => {
  const [near] = closest(text, known, 1);
  return `what the tube does, such as ${[near, ...known.filter((k) => k !== near).slice(0, 7)].join(", ")}`;
};
