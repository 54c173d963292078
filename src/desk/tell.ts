import { WireError } from "../instruments/wire";
import { refusalLines } from "../job/refusal";
import { StoreError } from "../store/store";
import { clip, InputError, type Issue } from "../units/issue";

/** What went wrong, as a person is told it: never a trace. */
export interface Told {
  /** whose it is: what was asked, the store, an instrument, this machine, or a defect of Fettle's own */
  readonly kind: "input" | "store" | "instrument" | "machine" | "defect";
  readonly issues: readonly Issue[];
  readonly lines: string;
  /** as HTTP says it */
  readonly status: 400 | 404 | 409 | 500 | 503 | 507;
}
const full = ["ENOSPC", "EDQUOT", "SQLITE_FULL"];
const denied = ["EACCES", "EPERM", "EROFS", "SQLITE_CANTOPEN", "SQLITE_READONLY"];
const short = ["ENOMEM", "EMFILE", "ENFILE", "ERR_WORKER_OUT_OF_MEMORY", "ERR_STRING_TOO_LONG", "SQLITE_NOMEM"];

/** What the machine itself refused, by the code of its error. */
function ofMachine(e: Error & { readonly code?: unknown }): readonly [code: string, expected: string, status: 503 | 507] | undefined {
  const code = typeof e.code === "string" ? e.code : "";
  if (full.includes(code)) return ["full", "room on the disk: nothing was recorded; make room and ask again", 507];
  if (code === "EIO" || code.startsWith("SQLITE_IOERR"))
    return ["disk", `a disk that can be read and written (${code}): nothing was recorded; see to the disk first`, 503];
  if (denied.some((d) => code.startsWith(d))) return ["denied", `a file that may be read and written (${code})`, 503];
  if (code.startsWith("SQLITE_BUSY") || code.startsWith("SQLITE_LOCKED"))
    return ["busy", "the store to be free: another process is using it, ask again", 503];
  if (short.includes(code) || (e instanceof RangeError && /allocation|array length|string length/i.test(e.message)))
    return ["memory", "more memory than this machine has free: ask for less at once", 503];
  return undefined;
}

/** A refusal as a terminal has it: each line with the command that gives what is missing. */
const refused = (issues: readonly Issue[]): string =>
  refusalLines(issues)
    .map((l) => `${l.says}${l.command ? ` (${l.command})` : ""}`)
    .join("\n");

/**
 * An error as a person is told it: what was asked wrongly, what the store refuses, an instrument that doesn't answer, what the machine lacks, else a
 * defect with its name.
 *
 * @param error whatever was thrown
 * @returns issues and lines; the same words on the page and in a terminal
 */
export function tell(error: unknown): Told {
  const e = error instanceof Error ? error : new Error(String(error));
  if (e instanceof InputError) return { kind: "input", issues: e.issues, lines: refused(e.issues), status: 400 };
  const one = (kind: Told["kind"], issue: Issue, status: Told["status"], lines: string): Told => ({ kind, issues: [issue], lines, status });
  if (e instanceof StoreError) {
    const issue = e.issue ?? { path: "store", code: e.code, read: "", expected: e.message };
    return one("store", issue, e.code === "full" ? 507 : e.code === "no-job" ? 404 : 409, e.message);
  }
  if (e instanceof WireError) return one("instrument", e.issue, 503, `${e.message}; expected ${e.issue.expected}`);
  const machine = ofMachine(e);
  if (machine) {
    const [code, expected, status] = machine;
    return one("machine", { path: "this machine", code, read: "", expected }, status, `this machine: expected ${expected}`);
  }
  const what = clip(`${e.name}: ${e.message}`.replace(/\s+/g, " "));
  const issue = { path: "fettle", code: "defect", read: what, expected: "no defect: please report it" };
  return one("defect", issue, 500, `A fault in Fettle itself, please report it: ${what}`);
}
