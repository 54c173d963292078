import type { Entry } from "../job/document";
import { patterns } from "../set/patterns/kinds";

/** A job and an entry for the tests of the store. */
export const job = (name: string, entries: Entry[] = []) => ({
  id: `id-${name}`,
  name,
  created: "2026-01-01T00:00:00Z",
  set: patterns[1],
  entries,
});
export const done = (id: string): Entry => ({ id, at: "2026-01-02T00:00:00Z", who: "t", kind: "done", step: "01", note: "" });
