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
const file = "a file may be larger than what a browser keeps: it stays where it is, and is read in once Fettle answers";
/** What can't wait, and why. */
export const neverWaits: Readonly<Record<string, string>> = {
  read: file,
  attach: file,
  heard: file,
  undo: "it takes back whatever stands last when it comes in, which may be somebody else's",
  erase: "a job is erased as it was last seen, with its files kept first",
  copy: "it makes another job, which may have taken another's name by then",
};
/** In plain words, before anything is typed. */
export const saysWaits =
  "What you write is held in this browser and sent once Fettle answers, with the time at which you did it: cards, readings and values that you type, steps, notes, faults, work, mends, rows. Files, photographs and sound can't be held: keep the file, and read it in then. Undo waits too; take an entry back by itself instead.";

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
