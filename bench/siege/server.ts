import { type ChildProcess, spawn } from "node:child_process";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Home } from "../../src/store/home";

const beside = (file: string): string => join(dirname(fileURLToPath(import.meta.url)), file);
/** The built command line, beside this bundle. */
export const built = beside("fettle.mjs");
/** The writer of entries of every kind, built beside it too. */
export const drawnWriter = beside("drawn-writer.mjs");
export interface Served {
  readonly url: string;
  readonly process: ChildProcess;
  /** what it said of errors */
  readonly said: () => string;
}
/** What names a home to a command. */
export const environmentOf = (home: Home): Readonly<Record<string, string>> =>
  home.kind === "file" ? { FETTLE_STORE: home.path, FETTLE_DATABASE_URL: "" } : { FETTLE_DATABASE_URL: home.url };
/** Starts a server of its own on a store; ready once it says its address. */
export const startServer = (home: Home): Promise<Served> =>
  new Promise((resolve, reject) => {
    const p = spawn(process.execPath, [built, "open", "--no-browser"], {
      env: { ...process.env, ...environmentOf(home), FETTLE_TRACE: "1" },
    });
    let [out, err] = ["", ""];
    p.stderr.on("data", (d) => {
      err += d;
    });
    p.stdout.on("data", (d) => {
      out += d;
      const url = /http:\S+/.exec(out)?.[0];
      if (url) resolve({ url, process: p, said: () => err });
    });
    p.on("error", reject).on("exit", () => reject(new Error(`the server ended: ${err}`)));
  });
