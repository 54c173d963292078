import { createReadStream, readFileSync, statSync } from "node:fs";
import { basename } from "node:path";
import type { LongFile } from "../../desk/declare";
import type { Errands } from "../../desk/errand";
import { InputError } from "../../units/issue";
import type { Page } from "./render";

const largestFileBytes = 600 * 1024 * 1024;

/** How the command line meets the world; tests pass their own. */
export interface World {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  /** a passing word while something takes long; nothing where nobody watches */
  readonly progress: (text: string) => void;
  readonly page: Page;
  readonly now: () => string;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** who does what may take long or much; this thread where not said */
  readonly errands?: Errands;
  /** hears single keys and the system's wish to end, until what it returns is called; nothing where nobody sits there */
  readonly hands?: (heard: { readonly key: (key: string) => void; readonly end: () => void }) => () => void;
}

const endings = ["SIGINT", "SIGTERM", "SIGHUP"] as const;
const ctrlC = "\u0003";
const realHands: NonNullable<World["hands"]> = ({ key, end }) => {
  const { stdin } = process;
  const typed = (b: Buffer): void => (b.toString() === ctrlC ? end() : key(b.toString()));
  for (const s of endings) process.on(s, end);
  if (stdin.isTTY) {
    stdin.setRawMode(true);
    stdin.on("data", typed);
  }
  return () => {
    for (const s of endings) process.off(s, end);
    if (!stdin.isTTY) return;
    stdin.off("data", typed);
    stdin.setRawMode(false);
    stdin.pause();
  };
};

/** Where bold begins and ends within a text that is to be said; no terminal obeys them, and no text of anybody's needs them (noncharacters of Unicode). */
const [boldOn, boldOff] = ["\ufdd0", "\ufdd1"];

export const realWorld = (errands: Errands): World => ({
  errands,
  out: (t) => void process.stdout.write(`${t.replaceAll(boldOn, "\u001b[1m").replaceAll(boldOff, "\u001b[0m")}\n`),
  err: (t) => void process.stderr.write(`${t}\n`),
  progress: (t) => void (process.stderr.isTTY ? process.stderr.write(`\r\u001b[K${t}`) : 0),
  page: {
    columns: Math.max(60, Math.min(110, process.stdout.columns ?? 96)),
    bold: process.stdout.isTTY ? (s) => `${boldOn}${s}${boldOff}` : (s) => s,
  },
  now: () => new Date().toISOString(),
  env: process.env,
  hands: realHands,
});

const whyNot: Readonly<Record<string, string>> = {
  ENOENT: "no such file or folder",
  EACCES: "a file that may not be read",
  EISDIR: "a folder",
};

const pieceBytes = 256 * 1024;
/** A file that is read in pieces; a dash is what is piped in. */
export function longFile(path: string): LongFile {
  if (path === "-") return { name: "piped in", pieces: () => process.stdin };
  const refused = (code = "") => new InputError([{ path, code: "no-file", read: whyNot[code] ?? "", expected: "a file that can be read" }]);
  try {
    const s = statSync(path);
    if (s.isDirectory()) throw refused("EISDIR");
    return {
      name: basename(path),
      ...(s.isFile() ? { bytesCount: s.size } : {}),
      pieces: async function* () {
        try {
          yield* createReadStream(path, { highWaterMark: pieceBytes });
        } catch (e) {
          throw refused((e as { code?: string }).code);
        }
      },
    };
  } catch (e) {
    throw e instanceof InputError ? e : refused((e as { code?: string }).code);
  }
}

export function readBytes(path: string): Uint8Array {
  // a dash is what is piped or typed in, up to its end
  if (path === "-") return new Uint8Array(readFileSync(0));
  try {
    const { size } = statSync(path);
    if (size > largestFileBytes)
      throw new InputError([
        { path, code: "too-large", read: `${Math.round(size / 1048576)} MB`, expected: `at most ${largestFileBytes / 1048576} MB` },
      ]);
    return new Uint8Array(readFileSync(path));
  } catch (e) {
    if (e instanceof InputError) throw e;
    throw new InputError([
      { path, code: "no-file", read: whyNot[(e as { code?: string }).code ?? ""] ?? "", expected: "a file that can be read" },
    ]);
  }
}
