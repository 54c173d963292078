import { sheets } from "../src/sheets/index";

/** What no native speaker writes, or what says one thing by two names; each with what to write instead. A test keeps them out. */
export const forbidden: readonly (readonly [RegExp, string])[] = [
  [/\bplug(?:ged)? (?:is )?out\b/i, "unplug the set; unplugged"],
  [/\bnobody alone\b/i, "never work alone"],
  [/\b(?:cables?|coils?|can|slug|trimmer|that|it|not|yet|be) taken up\b/i, "tuned out; made up for; corrected"],
  [/\bworld's (?:the )?(?:noise|limit)\b/i, "external noise"],
  [/\bperson used to it\b/i, "somebody trained for it"],
  [/\bof them low or high\b/i, "readings out of tolerance"],
  [/\bmore is harm\b/i, "more gain only overloads the set"],
  [/\bresidential place\b/i, "residential area"],
  [/\bpeak's shift a turn\b/i, "how far the peak shifts per turn"],
  [/\b(?:go|goes|replaced?) unseen\b/i, "replaced untested"],
  [/\bcome of, and what\b/i, "what explains"],
  [/\bnothing to say of this set\b/i, "not enough recorded to judge this set yet"],
  [/\ba kelvin\b(?! at)/i, "per kelvin"],
  [/\bboth ways of the plug\b/i, "with the plug either way round"],
  [/\bthe book's figure\b/i, "the service sheet's value"],
  [/\bto death\b/i, "ruins"],
  [/\bpower then\b/i, "say which power"],
  [/\btransformers burn\b/i, "will burn you"],
  [/\bhow is it brought up\b/i, "how do I bring the set up"],
  [/% of the doubt\b/i, "accounts for so much of the uncertainty"],
  [/\bof the power on its type plate\b/i, "draws so much of its rated power"],
  [/, less (?:one|the truth|the dial|the last)\b|\bless truth\b/i, "fractional error; minus the true frequency; relative to the last"],
  [/\bis nothing or less\b/i, "is zero or below"],
  [/\bnought\b/i, "zero"],
  [/\bnothing is won\b|\bdB is won\b/i, "gained"],
  [/\bover the noise\b/i, "above the noise"],
  [/\bover what (?:it|they) should (?:be|read)\b|\bover the rated one\b/i, "as a multiple of; ratio of one to the other"],
  [/\bsurely (?:clear|inside)\b/i, "certain to be clear; certain to be inside"],
  [/(?<!mis)\btaken for its neighbour\b/i, "mistaken for its neighbour"],
  [/\bstands? before the receiver\b/i, "is ahead of the receiver"],
  [/\bhold it against\b/i, "compare it with"],
  [/\bits plus to\b/i, "positive to"],
  [/\bBFO by as much\b/i, "by the same amount"],
  [/\bcan be said (?:of|what)\b/i, "it says nothing about; you can tell"],
  [/\bwould tell most\b/i, "would tell you most"],
  [/\b(?:like humps|very unlike)\b/i, "equal humps; very different"],
  [/\bthe other way round, is\b/i, "inverted"],
  [/\bmay be off by beforehand\b/i, "how far off it may be before any reading"],
  [/\bthat is wanted\b/i, "wanted"],
  [/\b(?:crystal|generator|oscillator) (?:does not |doesn't )?swings?\b/i, "oscillates"],
  [/\b(?:then|Meter:) stands\b(?!\s(?:at|for|on|in|above))/, "steadies; steady"],
  [/\bfor most on the\b|\btune for most\b/i, "for maximum"],
  [/\bbehind (?:a|the) lamp\b(?!, V)/i, "behind the bulb: a lamp is the dial's"],
  [/\bwins? back\b/i, "gets back"],
  [/\breceived off\b/i, "the dial's marks are off"],
  [/\b(?:with|accessory) against without\b/i, "change of gain with the accessory"],
  [/\b(and|the|of|to|is|in|or|for|with|which|that) \1\b/i, "the word once"],
];

/** What no text says to a person, though a comment may: words of the desk where the bench has its own. */
export const unsaid: readonly (readonly [RegExp, string])[] = [
  [/\bvolts over (?:its|a|the|whose)\b|\bdrop over it\b/i, "volts across"],
  [/\bas (?:it|they|(?:its|the) phasing) stands?\b(?!,? word for word)/i, "as it is now; at this setting"],
  [/\bthe question on (?!every face|the page)|\bby (?:its|their) own questions?\b/i, "the sheet on"],
  [
    /(?<![.\w"])(?:Still to be read:.*|(?:down|note[^.]*|left) as |and )[a-z]+[A-Z][a-z]+\b(?![.=(]\w)/,
    "the reading in words, not its name in the program",
  ],
  [/\bclear top\b/i, "clear peak"],
  [/\bfor most (?:output|gain)\b/i, "for maximum output"],
  [/\bfrom where it st(?:ands|ood)\b/i, "from its present setting"],
  [/\bone and the same\b/i, "the same"],
  [/\b(?:B\+|grid|meter|connector|heaters|plate) (?:may |should )?stands? (?:at|on)\b|\bbehind which B\+ stands\b/i, "is at; carries"],
  [/\b(?:is|are) typed on the (?:record )?card\b/i, "enter it on the card"],
  [/\b(?:set|described?) (?:a set |the set )?from nothing\b/i, "from scratch"],
  [/\bhalf again its\b/i, "at least half as much again"],
  [/\bother way about\b/i, "the other way round"],
  [/\bwhere not said\b/i, "if not given"],
  [/\b(?:that|set|clock|carriers?|device is|moves a set) so far\b/i, "that far"],
  [/\bjoined to the line\b/i, "connected to the line"],
  [/\bover the whole:/i, "overall"],
  [/\bless its marking\b|\b(?:received|true) less\b/i, "minus"],
  [/\bnot both readings\b|\bare not (?:both|all) there\b/i, "missing"],
  [/\bfor sure\b/i, "for certain"],
  [/\bas a share\b/i, "as a fraction"],
];

/**
 * How a meaning leans on its neighbour, which a list in another order breaks: it begins or ends by pointing, points after a preposition ("on that range"),
 * says "it" of what it has not named ("degrees that it warms by", "B+ that feeds it"), or tells of a time or place that only the neighbour has.
 */
const leans: readonly RegExp[] = [
  /^(?:that|its|it|the same|or|and|the other|then|those|these|over|under|in|at|with|without)\b/i,
  /\b(?:there|then|that|those|instead)$/i,
  /\b(?:which|at|on|of|in|with|for|by|from|over|under) that\b/i,
  /\bthat (?:can|resonance|ratio|place|load|law|current|pitch|error|range|meter|voltage)\b(?! hold| take)/i,
  /\b(?:that|which) it\b|\b(?:what|where) it\b(?! (?:should be|stands|says|would do)\b)/i,
  /\b(?:feeds|strikes|holds|fits|takes|on|for|with|between) it\b(?! \w+s\b)/i,
  /^(?:what|how \w+|whether|by how much) its\b/i,
  /\bthen\b|\bthere\b|\binstead\b|\bthe one that\b/i,
];

/** Every declared meaning by its place: inputs, their columns, results and curves. */
export function meanings(): readonly { readonly at: string; readonly meaning: string }[] {
  return sheets.flatMap((s) => [
    ...Object.entries(s.inputs).flatMap(([name, d]) => [
      { at: `${s.id} ${name}`, meaning: d.meaning },
      ...(d.kind === "table"
        ? Object.entries(d.columns).map(([c, column]) => ({ at: `${s.id} ${name} ${c}`, meaning: column.meaning }))
        : []),
    ]),
    ...[s.results, s.curves].flatMap((group) => Object.entries(group).map(([name, d]) => ({ at: `${s.id} ${name}`, meaning: d.meaning }))),
  ]);
}

/** How each input of a sheet is measured: read alone in a list of what to measure next, and its state of the set is told by its words. */
export const waysToMeasure = (): readonly string[] =>
  sheets.flatMap((s) => Object.entries(s.inputs).map(([name, d]) => `${s.id} ${name}: ${d.howMeasured}`));
/** Ways that point at another row of their list. */
export const waysThatLean = (): readonly string[] =>
  waysToMeasure().filter((w) => /: (?:the same\b(?! (?:line|clips))|ditto|as above)/i.test(w));

/** Meanings that lean. */
export const leaning = (): readonly string[] =>
  meanings().flatMap((m) => (leans.some((l) => l.test(m.meaning)) ? [`${m.at}: ${m.meaning}`] : []));

/** One word, one thing: each word that once stood for several, the one sense that it has, and what it is not used for. */
export interface Sense {
  readonly word: string;
  readonly is: string;
  /** what else was called so, and what that is called */
  readonly not: string;
  readonly misuse: RegExp;
}
export const senses: readonly Sense[] = [
  {
    word: "figure",
    is: "noise figure, and nothing else",
    not: "value for a number, plot for a drawing, row for a line of a table, digit for a character",
    misuse: /(?<!noise )\bfigures?\b/i,
  },
  {
    word: "proof",
    is: "what was measured that shows something to be so",
    not: "step, or performance record, or study of invented sets",
    misuse: /(?:^|\| )Proof: |\bproofs\b|\bproof (?:by|of)\b|\b(?:part of|keeps) the proof\b|\bthe proof was made\b/i,
  },
  {
    word: "bench",
    is: "the place where the set stands",
    not: "timings for how fast a thing runs; the page's views have names of their own",
    misuse: /\bbench(?:mark| (?:view|page|run|result|time|question))/i,
  },
  {
    word: "card",
    is: "a record card, or a card that stays with the set",
    not: "sheet for a question, entry for what is typed on the page",
    misuse: /\b(?:question|answer|entry|index|job) card\b|\bcards? (?:of|on) the page\b/i,
  },
  {
    word: "form",
    is: "what a coil is wound on; a formula may have a closed form",
    not: "card for what is filled in, fields for what describes a set",
    misuse: /(?<!(?:along the|on this|on the same|closed|direct) )(?<!winding: )(?<!<\/?)\bforms?\b(?!-action)/i,
  },
  {
    word: "spread",
    is: "bandspread, and the word that marks such a band in a description",
    not: "uncertainty or interval for what is not known, width for a filter",
    misuse: /\b(?:its|their|the|a|an|stated|own|given|standard|wide|filter's|filter) spreads?\b|\bspreads? of\b/i,
  },
  {
    word: "uncertainty",
    is: "how far a value may be off, given as an interval or as a standard one",
    not: "doubt, which is a person's",
    misuse: /\b(?:its|their|the|less|and|own) doubt\b/i,
  },
  {
    word: "strip",
    is: "the IF strip",
    not: "row for a line of a table, chart for a drawing, peel or bare for what is done to a wire",
    misuse:
      /\bstrips? (?:chart|of (?!(?:the|this|a) set)(?:paper|copper|metal|tape))|\bterminal strips?\b|\bstrip the (?:wire|cable|lead|end|insulation)/i,
  },
];
/** A column of the performance sheet, as jobs have it stored: another name would part a job from what is written in it. */
const stored = "Figure";
/** Texts that use a word for something else than its one sense. */
export const misused = (texts: readonly { readonly at: string; readonly text: string }[], s: Sense): readonly string[] =>
  texts.flatMap((t) => (t.text !== stored && s.misuse.test(t.text) ? [`${t.at}: ${t.text.slice(0, 160)}`] : []));
