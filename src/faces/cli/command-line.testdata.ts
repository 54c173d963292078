import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll } from "vitest";
import { commandLine } from "./main";
import type { World } from "./world";

/** How a test's command line meets the world. */
interface Meets {
  readonly columns?: number;
  readonly now?: string;
  /** somebody who sits at the terminal */
  readonly hands?: World["hands"];
  /** hears what is urgent as it is said */
  readonly err?: (text: string) => void;
}
/**
 * The command line of a test, with a store of its own in a folder that goes with the test.
 *
 * @param name of the folder
 * @param meets width of the page, time, who sits there
 * @returns the folder, and how a command is run in it: its exit code, and what it prints
 */
export function commandLineIn(name: string, { columns = 160, now = "2026-02-01T10:00:00.000Z", hands, err: hear }: Meets = {}) {
  const folder = mkdtempSync(join(tmpdir(), `${name}-`));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const run = async (...argv: string[]) => {
    const out: string[] = [];
    const err: string[] = [];
    const world = {
      out: (t: string) => void out.push(t),
      err: (t: string) => {
        err.push(t);
        hear?.(t);
      },
      progress: () => undefined,
      page: { columns, bold: (s: string) => s },
      now: () => now,
      env: { FETTLE_STORE: join(folder, "jobs.db") },
      ...(hands ? { hands } : {}),
    };
    const code = await commandLine(world).run(argv);
    return { code, out: out.join("\n"), err: err.join("\n") };
  };
  return { folder, run };
}
