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
];

/** A meaning that leans on its neighbour, which a reordered list breaks: it begins by pointing, or ends so. */
const leans =
  /^(?:that|its|it|the same|or|and|the other|then|those|these|over|under|in|at|with|without)\b|\b(?:there|then|that|those)$|\bthat (?:can|resonance|ratio|place|load|law|current|pitch)\b/i;

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

/** Meanings that lean. */
export const leaning = (): readonly string[] => meanings().flatMap((m) => (leans.test(m.meaning) ? [`${m.at}: ${m.meaning}`] : []));
