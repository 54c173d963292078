/**
 * Cautions in the way of a good manual: one page before the case is opened, then one text where the hands' state turns open, with the set's own figures,
 * before the step. The same state again gets none; desk and panel get none. Local codes and licensed practice prevail.
 */

/** What a step wants of the set. */
export const states = ["desk", "panel", "open-dead", "open-live"] as const;
export type State = (typeof states)[number];
export const isOpen = (s: State): boolean => s === "open-dead" || s === "open-live";
/** The state in words, as it heads a step. */
export const stateWord: Readonly<Record<State, string>> = {
  desk: "at the desk",
  panel: "at the panel",
  "open-dead": "open, dead",
  "open-live": "open, LIVE",
};

/** What the usual ways of reading something want of the set, by the words that tell of them; the first that fits counts. */
const ways: readonly (readonly [RegExp, State])[] = [
  [
    /\bset on\b|\bclip|volts (?:over|across)|voltmeter|AVC line|high-impedance|at a socket|to each grid|to the plate|across the set|across (?:its|the) (?:coil|tank)|nudge|turn (?:it|a quarter)|quarter, read|trimmer to its peak|detune the trimmer|probe|oscillation point/i,
    "open-live",
  ],
  [
    /ohmmeter|\bohms?\b|bridge|marking|printed on it|unplugged|power off|discharged|Q meter|tube in its socket|tester|count (?:them|the turns)|trace it|look (?:for it|at the tube)|look at it$|milliohmmeter|calipers/i,
    "open-dead",
  ],
  [/dial|beat|station|sweep|generator|noise source|width of|listen|times over|tune |output meter|thermometer|counter|null|audio/i, "panel"],
];
/**
 * What reading something wants of the set.
 *
 * @param how how it is measured, in words
 * @param declared what its declaration says, which counts before the words
 * @returns the state; the desk where the words name nothing at the set
 * @source common practice, no source
 */
export const readingState = (how: string, declared?: State): State => declared ?? ways.find(([w]) => w.test(how))?.[1] ?? "desk";

export interface Caution {
  /** the state or the hazard that it is for */
  readonly id: string;
  readonly says: string;
  readonly source: string;
}

/** This set's own figures, where they are known. */
export interface SetFigures {
  /** highest volts that the filter can be charged to, with unit */
  readonly volts?: string;
  /** energy in the filter then, with unit */
  readonly energy?: string;
  /** whether the page before opening was read and signed for this set: what it says at length is then said in short */
  readonly signed?: boolean;
}

/** Said where the state turns open and dead; in short where it was said in full further up. */
export const openDead = ({ volts, energy, signed }: SetFigures, again = false): Caution => ({
  id: "open-dead",
  says: again
    ? `Off again: unplugged, discharged, MEASURED${volts ? ` (${volts})` : ""}.`
    : signed
      ? `Unplug it, discharge it, MEASURE before you touch${volts ? `: it can hold ${volts}` : ""}.`
      : `Switch off, unplug, discharge each filter capacitor (1 to 2 kΩ, 10 W, insulated handle), MEASURE before you touch: ${volts ? `it can hold ${volts}${energy ? `, ${energy}` : ""}, and keeps it if the bleeder is open` : "a bleeder may be open"}.`,
  source: "common practice of service literature",
});
/** Said where the state turns open and live; in short where it was said in full further up. */
export const openLive = ({ volts, signed }: SetFigures, again = false): Caution => ({
  id: "open-live",
  says: again
    ? `LIVE again${volts ? `, up to ${volts}` : ""}: clip on dead, one hand, never alone.`
    : signed
      ? `B+ kills${volts ? `, up to ${volts}` : ""}: clip on while it is dead, one hand, never alone.`
      : `B+ kills${volts ? `: up to ${volts} here` : ""}. Clip on while it is dead, stand clear, switch on. Insulated probe, one hand, never alone.`,
  source: "common practice of service literature; IEC 62368-1 counts more than 60 V DC as hazardous (from memory)",
});

/** What an open step may meet besides, by hazard. */
export const besides = (signed = false): readonly Caution[] => [
  {
    id: "line",
    says: signed
      ? "Line voltage kills, at switch and fuse too, until you unplug; local code prevails."
      : "Line voltage kills, at switch and fuse too, until you unplug. Local code may ask for a licensed person.",
    source: "common practice; local electrical code prevails",
  },
  {
    id: "live-chassis",
    says: "This chassis counts as live: line isolation transformer, chassis proved dead with the plug either way round, never earthed, no instrument clipped to it.",
    source: "common practice for transformerless sets; local electrical code prevails",
  },
  {
    id: "heat",
    says: "Tubes, resistors and transformers will burn you: let them cool.",
    source: "common practice, no source",
  },
];

/** Above this, a DC point is treated as able to hurt. */
export const hazardousDcV = { value: 60, source: "IEC 62368-1 energy source class 1 limit for DC, from memory" } as const;
/** The same of an AC point, rms. */
export const hazardousAcV = { value: 30, source: "IEC 62368-1 energy source class 1 limit for AC, rms, from memory" } as const;
