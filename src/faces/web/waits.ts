/** When what a command records may wait in the browser for a server that is away. */
export type Waits = "always" | "where it records" | "where a place is said";
/** Every kind of entry that a bench types, by its command. */
export const waiting: Readonly<Record<string, Waits>> = {
  fill: "always",
  done: "always",
  values: "always",
  instrument: "always",
  correct: "always",
  history: "always",
  fault: "always",
  sitting: "always",
  leave: "always",
  wait: "always",
  chassis: "always",
  taken: "always",
  "zero-beat": "always",
  "take-back-beat": "always",
  "zero-beats": "where it records",
  work: "where it records",
  mend: "where it records",
  amend: "where it records",
  settle: "where a place is said",
};
const file = "a file may be larger than what a browser keeps. Keep it where it is, and read it in once Fettle answers";
const named = "it makes a job, and somebody else may have taken its name by then";
/** What can't wait, and why, with what to do instead: said at the act itself while the server is away. */
export const neverWaits = {
  read: file,
  attach: file,
  heard: "sound is larger than what a browser keeps. Save it as a file, and read that in once Fettle answers",
  import: file,
  undo: "it takes back whatever stands last when it comes in, which may be somebody else's. Take an entry back by itself instead",
  erase: "a job is erased as it was last seen, with its zip kept first. Erase it once Fettle answers",
  copy: `${named}. Copy it once Fettle answers`,
  jobs: `${named}. Make it once Fettle answers`,
} as const;
export type NeverWaits = keyof typeof neverWaits;
/** In plain words, before anything is typed. */
export const saysWaits =
  "What you write is held in this browser and sent once Fettle answers, with the time at which you did it: cards, readings and values that you type, steps, notes, faults, work, mends, rows. Files, photographs and sound can't be held: keep the file, and read it in then. Nor can undo, erasing or copying: take an entry back by itself instead, and erase or copy once Fettle answers.";

/**
 * Whether what is sent there may wait.
 *
 * @param path below the page's own address
 * @param body as JSON
 */
export function mayWait(path: string, body: string): boolean {
  const command = /^api\/jobs\/[^/]+\/([\w-]+)$/.exec(path)?.[1] ?? "";
  if (!Object.hasOwn(waiting, command)) return false;
  const when = waiting[command];
  if (when === "always") return true;
  const said = JSON.parse(body) as { readonly record?: unknown; readonly place?: unknown };
  return when === "where it records" ? said.record === true : said.place !== undefined;
}
