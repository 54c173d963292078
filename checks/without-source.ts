/**
 * Files of floors 0 to 5 with a public function that does not say its source yet: sentences, tables and plumbing over laws that say theirs.
 * A file that is mended comes off; none is added.
 */
export const withoutSource: readonly string[] = [
  "src/ask/axes.ts",
  "src/ask/care.ts",
  "src/ask/rating.ts",
  "src/ask/say.ts",
  "src/infer/crystal/choose.ts",
  "src/infer/strip/attempt.ts",
  "src/infer/strip/told.ts",
  "src/invented/stage.ts",
  "src/invented/strips.ts",
  "src/job/admit.ts",
  "src/job/cards.ts",
  "src/job/read-job.ts",
  "src/job/ripple.ts",
  "src/job/slots.ts",
  "src/job/view.ts",
  "src/readings/text.ts",
  "src/set/paths.ts",
  "src/set/patterns/strips.ts",
  "src/set/strip.ts",
  "src/sheets/image/findings.ts",
  "src/units/print.ts",
];
/** How many there may be at the most: lowered as the list shrinks. */
export const withoutSourceMost = 21;
