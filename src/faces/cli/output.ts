import { randomBytes } from "node:crypto";
import {
  chmodSync,
  closeSync,
  existsSync,
  fsyncSync,
  linkSync,
  openSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import { storePath } from "../../store/sqlite";
import { InputError } from "../../units/issue";
import type { World } from "./world";

/** How an output may be written. */
export interface Output {
  /** file as the person named it */
  readonly path: string;
  /** said by the person: a file that is there already is to be replaced */
  readonly replace: boolean;
  /** holds what is nobody else's to read */
  readonly mine?: boolean;
}

const refused = (path: string, code: string, read: string, expected: string) => new InputError([{ path, code, read, expected }]);
const statOf = (path: string) => (existsSync(path) ? statSync(path) : undefined);

/** Where a file really is, links followed; of one that is not there yet the place that it would take. */
function placeOf(path: string): string {
  const full = resolve(path);
  if (existsSync(full)) return realpathSync(full);
  const folder = dirname(full);
  return existsSync(folder) ? join(realpathSync(folder), basename(full)) : full;
}

/**
 * Refuses an output that would land on the store, or on a file that is there already where its replacing was not said.
 *
 * @throws {InputError}
 */
export function checkOutput(world: World, { path, replace }: Output): void {
  const store = storePath(world.env);
  const there = statOf(path);
  for (const end of ["", "-wal", "-shm", "-journal"]) {
    const own = statOf(`${store}${end}`);
    if (placeOf(`${store}${end}`) === placeOf(path) || (own && there && own.ino === there.ino && own.dev === there.dev))
      throw refused(path, "the-store", basename(path), "another file: this one is the store, with all your jobs in it");
  }
  if (there?.isDirectory()) throw refused(path, "not-writable", "a folder", "a file that can be written");
  if (there?.isFile() && !replace)
    throw refused(path, "is-there", basename(path), "a new file; this one exists: name another, or add --replace");
}

const whyNot: Readonly<Record<string, string>> = {
  ENOENT: "no such folder",
  ENOTDIR: "no such folder",
  EACCES: "a place you may not write to",
  EPERM: "a place you may not write to",
  EROFS: "a place you may not write to",
};

/**
 * Writes an output whole or not at all: beside its place first, then renamed. What was there before stays until then.
 *
 * @param world where the store is
 * @param output where to, and whether a file may be replaced
 * @param fill writes it to the file that it is given
 * @throws {InputError} where it can't be written; nothing is left behind then
 */
export async function writeOutput(world: World, output: Output, fill: (file: string) => Promise<void> | void): Promise<void> {
  checkOutput(world, output);
  const place = placeOf(output.path);
  const old = statOf(place);
  // a terminal, a pipe
  if (old && !old.isFile()) return fill(place);
  const beside = join(dirname(place), `.${basename(place).slice(0, 100)}.${randomBytes(4).toString("hex")}.part`);
  try {
    closeSync(openSync(beside, "wx", output.mine ? 0o600 : 0o666));
    if (old && !output.mine) chmodSync(beside, old.mode & 0o777);
    await fill(beside);
    const file = openSync(beside, "r+");
    fsyncSync(file);
    closeSync(file);
    if (output.replace) renameSync(beside, place);
    else putNew(beside, place);
  } catch (e) {
    const code = (e as { code?: string }).code ?? "";
    if (code === "EEXIST") throw refused(output.path, "is-there", basename(place), "a new file; this one exists");
    if (!/^E[A-Z]+$/.test(code)) throw e;
    const full = code === "ENOSPC" || code === "EDQUOT";
    throw refused(
      output.path,
      "not-writable",
      whyNot[code] ?? "",
      full ? "room on the disk: nothing was written" : "a file that can be written",
    );
  } finally {
    rmSync(beside, { force: true });
  }
}
/** Puts a file in a place where none is; one that came there meanwhile stays. */
function putNew(from: string, to: string): void {
  try {
    linkSync(from, to);
  } catch (e) {
    // a file system without links
    if ((e as { code?: string }).code === "EEXIST" || existsSync(to)) throw e;
    renameSync(from, to);
  }
}

/** Writes bytes or text as an output. */
export const writeBytes = (world: World, output: Output, bytes: Uint8Array | string): Promise<void> =>
  writeOutput(world, output, (file) => writeFileSync(file, bytes));
