import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import type { Entry } from "../job/document";
import { patterns } from "../set/patterns/kinds";
import { hashOfBytes } from "./archive";
import { openSqlite } from "./sqlite";

/** Jobs, entries and damaged stores for the tests of keeping, in a folder of their own. */
export const folder = mkdtempSync(join(tmpdir(), "keeping-"));
let n = 0;
export const fresh = () => join(folder, `s${++n}.db`);
export const now = () => "2026-05-01T00:00:00.000Z";
export const job = (name: string, entries: Entry[] = []) => ({ id: `id-${name}`, name, created: now(), set: patterns[0], entries });
const head = (id: string) => ({ id, at: "2026-01-02T00:00:00Z", who: "t" });
export const done = (id: string): Entry => ({ ...head(id), kind: "done", step: "01", note: "" });
export const reading = (id: string, of: string): Entry => ({
  ...head(id),
  kind: "reading",
  reading: {
    id: of,
    as: "table",
    state: "as-found",
    step: "10",
    stage: "",
    instrument: "",
    thermal: "warm",
    file: { name: "t.csv", hash: "" },
    columns: { "=plate V": [1, -2], grid: [3] },
    figures: [],
    warnings: [],
  },
});
export const withRaw = (path: string, work: (raw: Database.Database) => void) => {
  const raw = new Database(path);
  work(raw);
  raw.close();
};
/** A store with one job of three entries, of which what is stored is damaged by hand. */
export async function damaged(...sql: string[]): Promise<string> {
  const path = fresh();
  const s = await openSqlite(path, now);
  const bytes = new TextEncoder().encode("of a photograph");
  const file = { hash: hashOfBytes(bytes), name: "p.png", media: "image/png", bytes };
  await s.create(job("a", [done("e1"), reading("e2", "r"), done("e3")]), [file]);
  await s.create(job("b", [done("f1")]));
  await s.close();
  withRaw(path, (raw) => sql.forEach((line) => void raw.exec(line)));
  return path;
}
