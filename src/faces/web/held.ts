import { putKept, readKept } from "./kept";
import { signedIn } from "./opened";

/** Something that was recorded while nobody answered: kept in this browser until it is sent, under the name that it is recorded by once. */
export interface Held {
  readonly path: string;
  readonly body: string;
  readonly headers: Readonly<Record<string, string>>;
  /** who had signed in, where a shop asks: nobody else's hand sends it */
  readonly who?: string;
  /** why the server would not have it; it stays until the person drops it */
  readonly refused?: string;
}
export const heldKey = "held";
const name = `fettle:${heldKey}`;
export const heldNow = (): readonly Held[] => readKept<readonly Held[]>(name, []);
const put = (held: readonly Held[]): void => putKept(name, held, []);
const idOf = (h: Held): string => h.headers["x-request"];

/** Holds it; whether this browser keeps it. */
export function hold(h: Omit<Held, "who" | "refused">): boolean {
  put([...heldNow(), { ...h, ...(signedIn === undefined ? {} : { who: signedIn }) }]);
  return heldNow().some((x) => idOf(x) === h.headers["x-request"]);
}
export const dropHeld = (h: Held): void => put(heldNow().filter((x) => idOf(x) !== idOf(h)));

interface Answered {
  readonly issues?: readonly { readonly code: string; readonly path: string; readonly read: string; readonly expected: string }[];
}
/** Sends one; false where nobody answers, or not as they should, so that the rest waits too. */
async function sendOne(h: Held): Promise<boolean> {
  const headers = { ...h.headers, "x-sent": new Date().toISOString() };
  const r = await fetch(h.path, { method: "POST", body: h.body, headers }).catch(() => undefined);
  if (r?.ok) {
    dropHeld(h);
    return true;
  }
  if (r?.status !== 400 && r?.status !== 404 && r?.status !== 409) return false;
  const { issues = [] } = (await r.json().catch(() => ({}))) as Answered;
  // the same figure again stands as it stood
  if (issues.length > 0 && issues.every((i) => i.code === "nothing-new")) dropHeld(h);
  else {
    const refused = issues.map((i) => `${i.path}: expected ${i.expected}`).join("; ") || `answered ${r.status}`;
    put(heldNow().map((x) => (idOf(x) === idOf(h) ? { ...x, refused } : x)));
  }
  return true;
}
const sending: { now: Promise<number> | undefined } = { now: undefined };
/** Sends what is held, in the order in which it was written; returns how much was sent. */
export function sendHeld(): Promise<number> {
  const all = async (): Promise<number> => {
    let count = 0;
    for (;;) {
      const next = heldNow().find((h) => h.refused === undefined && h.who === signedIn);
      if (!next || !(await sendOne(next))) return count;
      count++;
    }
  };
  sending.now ??= all().finally(() => {
    sending.now = undefined;
  });
  return sending.now;
}
