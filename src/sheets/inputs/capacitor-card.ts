import type { Bench } from "../../set/bench";
import type { Column, FromCard, Row } from "../../set/columns";
import { capacitorKinds, duties } from "../../standards/electrolytics";
import { exact, type Quantity } from "../../units/quantity";
import { mendedIn, readCard } from "./card-rows";

/** Place of a word among some, by its beginning or by one of its words. */
const option = (said: string, among: readonly string[]): number => {
  const word = said.trim().toLowerCase();
  const exactly = among.findIndex((o) => o.toLowerCase() === word);
  if (exactly >= 0 || word === "") return exactly;
  const begins = among.findIndex((o) => o.toLowerCase().startsWith(word.slice(0, 5)));
  // "paper" alone is the first kind of it in the list
  return begins >= 0 ? begins : among.findIndex((o) => o.toLowerCase().split(" ").includes(word));
};
const nameOf = (r: Readonly<Record<string, string>>): string => (r.Part ?? "").replace(/\s/g, "").toUpperCase();
/** Rows of the survey without what is out: by the card of parts replaced, or mended. */
function stillIn(bench: Bench): readonly Readonly<Record<string, string>>[] {
  const out = new Set(bench.card("parts").flatMap((r) => (r["New value and rating"]?.trim() ? [nameOf(r)] : [])));
  return bench.card("capacitors").filter((r) => !r[mendedIn] && (nameOf(r) === "" || !out.has(nameOf(r))));
}
const wordOf = (among: readonly string[]) => (said: string) => among[option(said, among)] ?? said;
/** Columns of the survey, as sheets have them. */
export const surveyColumns = {
  kind: { options: capacitorKinds, meaning: "kind" },
  duty: { options: duties, meaning: "what the capacitor does" },
  value: { dimension: "capacitance", meaning: "capacitance, with its unit" },
  rating: { dimension: "voltage", bare: "V", meaning: "rated volts" },
  leakage: { dimension: "current", bare: "mA", meaning: "leakage at rated volts, where measured", optional: true },
  part: { dimension: "ratio", prefix: "C", meaning: "number of the part on the diagram", optional: true },
} as const satisfies Readonly<Record<string, Column>>;
/** What each column of a survey is called on its card. */
export const surveyHeadings = {
  kind: { heading: "Kind", words: wordOf(capacitorKinds) },
  duty: { heading: "Duty", words: wordOf(duties) },
  value: { heading: "Value" },
  rating: { heading: "Rated V" },
  leakage: { heading: "Leakage mA" },
  part: { heading: "Part", words: (said: string) => /^C\d+$/.exec(said.replace(/\s/g, "").toUpperCase())?.[0] ?? "" },
} as const;
/** The capacitor survey's card. Its value column shows no unit, since micas go in pF and filters in µF: a bare figure there is asked about. */
export const surveyOnCard = (bench: Bench): FromCard =>
  readCard({ ...bench, card: () => stillIn(bench) }, "capacitors", "capacitor survey", surveyColumns, surveyHeadings);
/** A survey whose capacitors are all out is still a survey: rows that are none, and no example in their place. */
export const surveyLeft = (survey: FromCard): FromCard | readonly Row[] =>
  survey.rows.length === 0 && survey.unread.length === 0 ? [] : survey;

/**
 * What the survey lists from the line to the chassis, all of it together.
 *
 * @param bench where the card is
 * @returns farads in parallel, as stated; undefined where it lists none
 * @source capacitors in parallel add
 */
export function bypassOnCard(bench: Bench): Quantity | undefined {
  const own = surveyOnCard(bench).rows.filter((r) => r.duty === duties.indexOf("line bypass"));
  if (own.length === 0) return undefined;
  return { value: own.reduce((sum, r) => sum + r.value, 0), spread: exact, origin: "stated", source: "the capacitor survey's card" };
}
