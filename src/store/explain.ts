import { sayIssue } from "../units/issue";
import { StoreError } from "./store";

/** Codes of an engine, and what they mean to a person where the store is the one named. */
export interface Meaning {
  readonly codes: RegExp;
  readonly is: StoreError["code"];
  readonly says: (where: string) => string;
}
/** Of the file system and SQLite; the first that fits. */
const meanings: readonly Meaning[] = [
  {
    codes: /^(SQLITE_FULL|ENOSPC|EDQUOT)/,
    is: "full",
    says: (p) => `the disk that holds ${p} is full: nothing was recorded; make room and record it again`,
  },
  {
    codes: /^(SQLITE_READONLY|SQLITE_CANTOPEN|SQLITE_PERM|EACCES|EROFS|EPERM)/,
    is: "read-only",
    says: (p) => `the store ${p} can't be written: check who may write there, or set FETTLE_STORE to another file`,
  },
  {
    codes: /^(SQLITE_BUSY|SQLITE_LOCKED)/,
    is: "busy",
    says: (p) => `the store ${p} is busy with another process: nothing was recorded; try again`,
  },
  {
    codes: /^(SQLITE_IOERR|EIO)/,
    is: "failing",
    says: (p) =>
      `the disk that holds ${p} could not be read or written: nothing was recorded. It may be full or failing: make room, check the disk, and keep a copy (fettle backup)`,
  },
  {
    codes: /^(SQLITE_NOTADB|SQLITE_CORRUPT)/,
    is: "unreadable",
    says: (p) => `${p} is not one of Fettle's stores, or is damaged: it was left alone (fettle check-store tells more)`,
  },
  {
    codes: /^(ENOTDIR|EEXIST)/,
    is: "read-only",
    says: (p) => `the folder of the store ${p} can't be made: set FETTLE_STORE to another file`,
  },
  {
    codes: /^SQLITE_CONSTRAINT/,
    is: "conflict",
    says: () => "this is already recorded, under the same id: it was not recorded twice",
  },
  {
    codes: /^SQLITE_/,
    is: "failing",
    says: (p) => `the store ${p} failed: nothing was recorded (check it with fettle check-store)`,
  },
];

/** A name that another job has. */
export function taken(name: string): StoreError {
  const issue = { path: "name", code: "exists", read: name, expected: "another name: there is already a job with that name" };
  return new StoreError("exists", sayIssue(issue), issue);
}

export const codeOf = (error: unknown): string => String((error as { code?: unknown } | null)?.code ?? "");

/** Turns what the engine or the file system threw into a person's words; an error of neither stays what it is. */
export const explainer =
  (path: string) =>
  (error: unknown, name = ""): Error => {
    if (error instanceof StoreError) return error;
    const code = codeOf(error);
    const said = error instanceof Error ? error.message : String(error);
    if (code === "SQLITE_CONSTRAINT_UNIQUE" && said.includes("job.name")) return taken(name);
    if (code === "SQLITE_CONSTRAINT_PRIMARYKEY" && said.includes("job.id"))
      return new StoreError("exists", "this job is already in the store");
    const meaning = meanings.find((m) => m.codes.test(code));
    if (meaning) return new StoreError(meaning.is, meaning.says(path));
    return error instanceof Error ? error : new Error(said);
  };
