import { heldNow, hold, sendHeld } from "./held";
import { mayWait } from "./waits";

/** The last entry of each job as this page shows it: what is recorded from here was written with that before the person. */
const shown = new Map<string, string>();
/** What was shown when the person began to type: what came in since then is behind what they write, not before them. */
let typedOver: ReadonlyMap<string, string> | undefined;
if (typeof document !== "undefined") {
  document.addEventListener("input", () => {
    typedOver ??= new Map(shown);
  });
  window.addEventListener("hashchange", () => {
    typedOver = undefined;
  });
}
/** Says that a job is shown up to this entry. */
export const nowShown = (job: string, entry: string): void => void shown.set(job, entry);

const hexOf = (bytes: Uint8Array): string => Array.from(bytes, (b) => b.toString(16).padStart(2, "0")).join("");
/** Waits before each further try, ms: a house network drops out for a moment. Common practice, no source. */
const waitsMs = [300, 1500, 5000];
const wasStopped = (e: unknown): boolean => e instanceof DOMException && e.name === "AbortError";

/** Answers for the server: whether it is held here still, or went through with the rest. */
function heldAnswer(request: string): Response {
  const own = heldNow().find((h) => h.headers["x-request"] === request);
  if (own?.refused !== undefined) {
    const issue = { path: "server", code: "refused", read: "", expected: own.refused };
    return Response.json({ issues: [issue] }, { status: 400 });
  }
  return Response.json({ held: own !== undefined }, { status: own ? 202 : 200 });
}

/**
 * Sends a request, and again while nobody answers. What is recorded carries a name of its own, so that it is recorded once however often it is sent, and what
 * the person had before them.
 *
 * @param path below the page's own address
 * @param init as for `fetch`; nothing to ask for something
 * @throws what `fetch` threw last
 */
export async function sent(path: string, init?: RequestInit): Promise<Response> {
  if (!init) return fetch(path);
  const name = /^api\/jobs\/([^/?]+)/.exec(path)?.[1];
  const seen = name === undefined ? undefined : (typedOver ?? shown).get(decodeURIComponent(name));
  const headers: Record<string, string> = {
    "x-fettle": "page",
    "x-request": hexOf(crypto.getRandomValues(new Uint8Array(16))),
    ...(seen === undefined ? {} : { "x-seen": seen }),
    ...(typeof init.body === "string" ? { "content-type": "application/json" } : {}),
  };
  const done = { ...headers, "x-done": new Date().toISOString() };
  const waits = typeof init.body === "string" && mayWait(path, init.body) ? { path, body: init.body, headers: done } : undefined;
  // what was written earlier goes before it
  if (waits && heldNow().length > 0 && hold(waits)) {
    await sendHeld();
    return heldAnswer(headers["x-request"]);
  }
  for (let i = 0; ; i++) {
    try {
      const answer = await fetch(path, { ...init, headers });
      if (answer.ok && init.method === "POST") typedOver = undefined;
      return answer;
    } catch (e) {
      if (wasStopped(e)) throw e;
      // where something is held already, nobody has answered for a while
      if (i >= waitsMs.length || heldNow().length > 0) {
        if (waits && hold(waits)) return heldAnswer(headers["x-request"]);
        throw e;
      }
      await new Promise((r) => setTimeout(r, waitsMs[i]));
    }
  }
}
