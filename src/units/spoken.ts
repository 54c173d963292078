/** Number words as they are said at the bench. Source: English. */
const ones = [
  "zero",
  "one",
  "two",
  "three",
  "four",
  "five",
  "six",
  "seven",
  "eight",
  "nine",
  "ten",
  "eleven",
  "twelve",
  "thirteen",
  "fourteen",
  "fifteen",
  "sixteen",
  "seventeen",
  "eighteen",
  "nineteen",
];
const tens = ["", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"];
/** What is said for a unit, as it is written on a card; longer words first. */
const unitWords: readonly (readonly [RegExp, string])[] = [
  [/\b(?:megohms?|meg ohms?|mega ?ohms?|megs?)\b/, "MΩ"],
  [/\b(?:kilohms?|kilo ohms?|kay ohms?|k ohms?)\b/, "kΩ"],
  [/\bohms?\b/, "Ω"],
  [/\b(?:millivolts?|milli volts?)\b/, "mV"],
  [/\b(?:microvolts?|micro volts?)\b/, "µV"],
  [/\bvolts?\b/, "V"],
  [/\b(?:milliamps?|milliamperes?|milli amps?|mils)\b/, "mA"],
  [/\b(?:amps?|amperes?)\b/, "A"],
  [/\b(?:kilohertz|kilocycles|kc)\b/, "kHz"],
  [/\b(?:megahertz|megacycles|mc)\b/, "MHz"],
  [/\b(?:decibels?|db)\b/, "dB"],
  [/\bpercent\b/, "%"],
];

const isWhole = (word: string): boolean => /^\d+$/.test(word) || ones.includes(word) || tens.indexOf(word) > 1;
const wholeOf = (word: string): number =>
  /^\d+$/.test(word) ? Number(word) : ones.includes(word) ? ones.indexOf(word) : 10 * tens.indexOf(word);

/** Words before the point, added up: `two hundred and fifty one`; undefined where one of them is no number. */
function whole(words: readonly string[]): number | undefined {
  let [sum, group] = [0, 0];
  let last = Number.POSITIVE_INFINITY;
  for (const [i, word] of words.entries()) {
    if (word === "and" && i > 0) continue;
    if (word === "hundred") [group, last] = [Math.max(1, group) * 100, 100];
    else if (word === "thousand") [sum, group, last] = [sum + Math.max(1, group) * 1000, 0, 1000];
    else if (isWhole(word) && (wholeOf(word) < last || group === 0)) {
      // "two fifty" and "one eighty" are hundreds, as everybody reads a meter aloud
      if (wholeOf(word) >= 10 && group > 0 && group < 10) group *= 100;
      else if (group > 0 && wholeOf(word) >= (group % 100 === 0 ? 100 : 10)) return undefined;
      group += wholeOf(word);
      last = Number.POSITIVE_INFINITY;
    } else return undefined;
  }
  return sum + group;
}

/**
 * A reading as somebody says it, as it is written on a card.
 *
 * @param said what was heard: `two hundred and fifty volts`, `minus 3.2`, `one point five megohms`, `two fifty`
 * @returns text such as `250 V`; undefined where it holds no one figure
 * @source English; `two fifty` for 250 is common practice, no source
 */
export function spokenReading(said: string): string | undefined {
  let text = ` ${said
    .toLowerCase()
    .replace(/-(?=[a-z])/g, " ")
    .replace(/(\d),(?=\d{3}\b)/g, "$1")} `;
  const unit = unitWords.find(([words]) => words.test(text));
  if (unit) text = text.replace(unit[0], " ");
  const negative = /\b(?:minus|negative)\b|(?:^|\s)[-−](?=\d)/.test(text);
  text = text
    .replace(/\b(?:minus|negative|about|plus)\b|[-−+]/g, " ")
    .replace(/\b(?:oh|nil)\b/g, "zero")
    .trim();
  const [before, after, ...more] = text.replace(/(\d)\.(\d)/g, "$1 point $2").split(/\bpoint\b/);
  if (more.length > 0) return undefined;
  const head = before.trim() === "" ? [] : before.trim().split(/\s+/);
  const digits = after?.trim().split(/\s+/) ?? [];
  const n = head.length === 0 && after !== undefined ? 0 : head.length === 0 ? undefined : whole(head);
  if (n === undefined || !digits.every(isWhole) || (after !== undefined && digits.length === 0)) return undefined;
  const figure = `${negative ? "-" : ""}${n}${after === undefined ? "" : `.${digits.map((d) => (/^\d+$/.test(d) ? d : wholeOf(d))).join("")}`}`;
  return unit ? `${figure} ${unit[1]}` : figure;
}
