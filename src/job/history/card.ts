import { type HistoryName, history, historyNames, historyWords, isSo } from "../../set/addresses/history";
import type { Issue } from "../../units/issue";
import type { Entry } from "../document";
import { rowOfField } from "../forms";
import { ofKind } from "../place-in";

/** The card of what others did, and the column of the word that each row takes. */
export const historyCard = "history";
export const historyColumn = "Seen, told or not so";

/**
 * What the card says, by the address of each row.
 *
 * @param fields as written
 * @returns address and word
 * @source house format
 */
export function historyOn(fields: Readonly<Record<string, string>>): readonly (readonly [address: string, word: string])[] {
  return Object.entries(fields).flatMap(([field, text]) => {
    const name = field.endsWith(`: ${historyColumn}`) ? historyNames[(rowOfField(field) ?? 0) - 1] : undefined;
    return name === undefined ? [] : [[history[name].address, text.trim().toLowerCase() || "unknown"] as const];
  });
}
/**
 * Cells of the card that hold no word that they may.
 *
 * @param fields as written
 * @returns each at its place
 * @source house format
 */
export function historyIssues(fields: Readonly<Record<string, string>>): Issue[] {
  return Object.entries(fields).flatMap(([field, text]) => {
    const row = rowOfField(field);
    if (row !== undefined && row > historyNames.length)
      return [{ path: field, code: "no-row", read: text, expected: `one of the ${historyNames.length} rows that the card has` }];
    const isWord = text.trim() === "" || historyWords.some((w) => w === text.trim().toLowerCase());
    return field.endsWith(`: ${historyColumn}`) && !isWord
      ? [{ path: field, code: "not-an-option", read: text, expected: `one of ${historyWords.join(", ")}` }]
      : [];
  });
}
/**
 * What others did, as far as it is so by the last that anybody said of it.
 *
 * @param inForce entries in force
 * @returns by name the entry that first said so
 * @source house frame
 */
export function historyNow(inForce: readonly Entry[]): ReadonlyMap<HistoryName, string> {
  const out = new Map<HistoryName, string>();
  const say = (path: string, word: string, id: string): void => {
    const name = historyNames.find((n) => history[n].address === path);
    if (name === undefined) return;
    if (!isSo(word)) out.delete(name);
    else if (!out.has(name)) out.set(name, id);
  };
  for (const e of ofKind(inForce, "fact", "form")) {
    if (e.kind === "fact") say(e.path, e.value, e.id);
    else if (e.form === historyCard) for (const [path, word] of historyOn(e.fields)) say(path, word, e.id);
  }
  return out;
}
