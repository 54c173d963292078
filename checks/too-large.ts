/** Files, functions and lists of parameters that are larger than they may be: see sizes.ts. The list only shrinks. */
export const tooLarge: readonly string[] = [
  "src/faces/cli/demo.ts: runDemo",
  "src/faces/web/chassis.tsx: Chassis",
  "src/faces/web/describe.tsx: Describe",
  "src/faces/web/describe.tsx: groups",
  "src/faces/web/dial-papers.tsx: Papers",
  "src/faces/web/dial.tsx: DialPage",
  "src/faces/web/jobs.tsx: Jobs",
];
/** How many there were when last one was mended. */
export const tooLargeMost = 7;
