import { type Question, questions } from "./asked";

/** When a question is asked at the bench. */
export const situations = ["before power", "dead", "weak", "off frequency", "noisy", "fitting", "proving"] as const;
export type Situation = (typeof situations)[number];

/** Where a person would look for a question, and the bench's own words for what it is about. Common practice, no source. */
interface Found {
  readonly when: readonly Situation[];
  readonly words: string;
}
const found: Readonly<Record<string, Found>> = {
  safety: {
    when: ["before power", "proving"],
    words: "shock tingle hot chassis live cord plug fuse leakage isolation line bypass death capacitor hand over",
  },
  "bring-up": { when: ["before power"], words: "first power variac dim bulb lamp limiter series bulb bright smoke blows fuse slow" },
  reform: { when: ["before power", "noisy"], words: "electrolytic caps recap hum leaky wax paper filter can bulging old capacitors" },
  "b-plus": {
    when: ["dead", "weak", "noisy"],
    words: "low b+ high b+ ht no plate voltage rectifier hum ripple sag supply line choke silicon",
  },
  regulator: { when: ["off frequency", "dead"], words: "0D3 VR tube glow gas regulator won't strike flickers screen volts drifts" },
  volts: {
    when: ["dead", "weak"],
    words: "voltage chart pins meter loading wrong volts low screen plate cathode vtvm 20000 ohms per volt",
  },
  suspects: {
    when: ["dead", "weak", "noisy"],
    words: "leaky coupling capacitor open cathode bypass bad tube gassy stage fault low screen distortion hot",
  },
  "stage-gain": { when: ["weak", "dead"], words: "weak no signal inject generator signal tracing dead stage insensitive which stage" },
  "if-response": { when: ["weak", "proving"], words: "bandwidth selectivity sweep alignment broad sharp double hump nose skirt" },
  "if-align": { when: ["weak", "off frequency"], words: "align IF peak cans slugs stagger 455 alignment generator" },
  phasing: { when: ["noisy", "fitting"], words: "crystal filter notch phasing heterodyne whistle rejection" },
  bfo: { when: ["off frequency", "weak"], words: "SSB CW sideband garbled duck pitch beat oscillator weak bfo no beat note" },
  "dc-block": { when: ["fitting"], words: "blocking capacitor series capacitor connector shock at jack accessory plate b+ on connector" },
  "cable-load": {
    when: ["fitting", "weak"],
    words: "coax cable q multiplier lead detunes mixer plate lost gain weak after fitting can't peak",
  },
  "q-multiplier": { when: ["fitting", "noisy"], words: "q multiplier peak null selectivity oscillates heterodyne narrow" },
  "multiplier-centre": {
    when: ["fitting"],
    words: "q multiplier centre set on station first can touch up whistle off centre coil for the cable",
  },
  "accessory-capacitors": {
    when: ["fitting", "before power"],
    words: "accessory condensers dried out jack live series condenser recap the box",
  },
  "accessory-power": { when: ["fitting"], words: "accessory socket heater winding transformer too warm feed borrow power" },
  "accessory-proof": { when: ["fitting", "proving"], words: "accessory unplugged with and without as it was before and after" },
  markers: { when: ["off frequency", "fitting"], words: "calibrator 100 kHz can't hear marker weak marker coupling harmonics" },
  "marker-trim": { when: ["off frequency"], words: "calibrator trimmer WWV zero beat standard crystal off" },
  "which-marker": { when: ["off frequency"], words: "which harmonic wrong marker lost on the dial" },
  dial: { when: ["off frequency", "proving"], words: "dial calibration reads wrong off scale bandspread zero beat backlash pointer" },
  "band-edge": { when: ["off frequency", "proving"], words: "band edge out of band legal safe settings licence" },
  "set-points": { when: ["off frequency"], words: "bandspread main dial set point dot index where to set" },
  tracking: {
    when: ["off frequency", "weak"],
    words: "tracking padder trimmer oscillator high end low end dead spot scale ends don't meet",
  },
  image: { when: ["off frequency", "noisy"], words: "image same station twice repeat spot spurious other side two times IF" },
  "converter-setting": {
    when: ["fitting", "weak"],
    words: "converter off frequency trim its crystal peak its front end too much gain overloads pad attenuator deaf at the band's end",
  },
  converter: { when: ["fitting"], words: "10 m 6 m crystal converter high band birdies tunable IF" },
  sensitivity: { when: ["weak", "noisy", "proving"], words: "sensitivity noise deaf microvolts signal to noise antenna noise figure" },
  "s-meter": { when: ["proving", "weak"], words: "s meter S9 avc pins reads low strong signals blast" },
  drift: { when: ["off frequency"], words: "drifts warm up wanders creeps temperature compensation NPO" },
  coil: { when: ["fitting", "weak"], words: "wind a coil turns inductance former rewind choke slug" },
};

/** A question with where it is found. */
export interface Findable {
  readonly question: Question;
  readonly when: readonly Situation[];
  readonly words: string;
}
export const findable: readonly Findable[] = questions.map((question) => ({
  question,
  ...(found[question.id] ?? { when: [], words: "" }),
}));

const plain = (s: string): string =>
  s
    .toLowerCase()
    .replace(/[’']/g, "")
    .replace(/[^\p{L}\p{N}+]+/gu, " ");
/** Bench endings that mean the same: drifts, drifting, drifted. */
const stem = (w: string): string => w.replace(/(?:ing|ed|es|s)$/, (e) => (w.length - e.length >= 3 ? "" : e));
const dull = new Set(["the", "a", "is", "it", "my", "on", "of", "to", "no", "and", "in", "at", "i"]);

/**
 * Questions that words of the bench are about, best first; all of them where nothing is said.
 *
 * @param said what a person types, such as `low B+` or `drifts`
 * @returns those in which a word is found, by how many of the words and how closely
 * @source house frame
 */
export function findQuestions(said: string): readonly Findable[] {
  const all = plain(said).split(" ").filter(Boolean);
  const wanted = all.filter((w) => !dull.has(w)).map(stem);
  if (wanted.length === 0) return findable;
  const score = (f: Findable): number => {
    const own = plain(`${f.words} ${f.question.title}`);
    const words = own.split(" ").map(stem);
    const more = plain(
      `${f.question.question} ${Object.values(f.question.results)
        .map((r) => r.meaning)
        .join(" ")}`,
    )
      .split(" ")
      .map(stem);
    const hits = wanted.map((w) =>
      words.includes(w)
        ? 3
        : words.some((x) => w.length > 2 && x.startsWith(w))
          ? 2
          : more.some((x) => x === w || (w.length > 3 && x.startsWith(w)))
            ? 1
            : 0,
    );
    return hits.reduce<number>((a, b) => a + b, 0) + (wanted.length > 1 && own.includes(all.join(" ")) ? 4 : 0);
  };
  return findable
    .map((f) => ({ f, points: score(f) }))
    .filter((x) => x.points > 0)
    .sort((a, b) => b.points - a.points)
    .map((x) => x.f);
}
