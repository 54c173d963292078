import { codeOf, type Meaning, taken } from "./explain";
import { StoreError } from "./store";

/** Of PostgreSQL and the way to it; the first that fits. Source: PostgreSQL 15 documentation, appendix A (error codes); Node.js, its TLS and POSIX error names. */
const meanings: readonly Meaning[] = [
  {
    codes: /^53100$/,
    is: "full",
    says: (w) => `the disk that holds ${w} is full: nothing was recorded; make room there and record it again`,
  },
  {
    codes: /^(25006|42501)$/,
    is: "read-only",
    says: (w) => `${w} can't be written: its account may only read, or the server is a copy for reading`,
  },
  {
    codes: /^(55P03|40001|40P01|53300|53400)$/,
    is: "busy",
    says: (w) => `${w} is busy with others: nothing was recorded; try again`,
  },
  {
    codes: /^(28...|3D000)$/,
    is: "failing",
    says: (w) => `${w} let nobody in: check the account, the password and the database's name in FETTLE_DATABASE_URL`,
  },
  {
    codes: /^(CERT_.*|.*_CERT|.*_CERT_(IN_CHAIN|LOCALLY)|UNABLE_TO_VERIFY.*|ERR_TLS_CERT.*|HOSTNAME_MISMATCH)$/,
    is: "failing",
    says: (w) =>
      `${w} showed a certificate that this bench can't trust, so no password was sent: is sslrootcert in FETTLE_DATABASE_URL a copy of the server's certificate, made for the address that stands there, and still valid?`,
  },
  {
    codes: /^no-certificate$/,
    is: "failing",
    says: () => "the file that FETTLE_DATABASE_URL names as sslrootcert can't be read: copy the server's certificate there",
  },
  {
    codes: /^in-clear$/,
    is: "failing",
    says: (w) => `${w} does not encrypt, and FETTLE_DATABASE_URL asks for it, so no password was sent: is ssl on in postgresql.conf?`,
  },
  {
    codes: /^(08...|57P0[1-5]|57014|ECONNREFUSED|ECONNRESET|EPIPE|ENOTFOUND|EAI_AGAIN|ETIMEDOUT|EHOSTUNREACH|ENETUNREACH|ENOENT|cut)$/,
    is: "away",
    says: (w) =>
      `${w} can't be reached: is the server running, and the network up? Anything not confirmed as recorded may be recorded again: nothing is doubled`,
  },
  {
    codes: /^23...$/,
    is: "conflict",
    says: () => "this is already recorded, under the same id: it was not recorded twice",
  },
  {
    codes: /^(XX00[12]|42P01|42703)$/,
    is: "unreadable",
    says: (w) => `${w} is damaged, or not laid out as Fettle expects: it was left alone`,
  },
  { codes: /^[0-9A-Z]{5}$/, is: "failing", says: (w) => `${w} failed: nothing was recorded` },
];
/** What the driver says, without a code, when the line is cut or nobody answers. */
const cut =
  /Connection terminated|timeout exceeded when trying to connect|Client has encountered a connection error|Cannot use a pool after/;

/** The code of an error, or a word of our own where it has none or one that tells too little. */
function codeFor(error: unknown, said: string): string {
  // a socket's way has "connect" here
  if ((error as { syscall?: unknown } | null)?.syscall === "open") return "no-certificate";
  if (said.includes("does not support SSL")) return "in-clear";
  return codeOf(error) || (cut.test(said) ? "cut" : "");
}

/**
 * Turns what PostgreSQL or the network threw into a person's words; an error of neither stays what it is.
 *
 * @param where the database in words, without its password
 * @returns what explains an error, with the name of the job that was to be made, where one was
 */
export const postgresExplainer =
  (where: string) =>
  (error: unknown, name = ""): Error => {
    if (error instanceof StoreError) return error;
    const said = error instanceof Error ? error.message : String(error);
    const code = codeFor(error, said);
    const constraint = String((error as { constraint?: unknown } | null)?.constraint ?? "");
    if (code === "23505" && constraint === "job_name_key") return taken(name);
    if (code === "23505" && constraint === "job_pkey") return new StoreError("exists", "this job is already in the store");
    const meaning = meanings.find((m) => m.codes.test(code));
    if (meaning) return new StoreError(meaning.is, meaning.says(where));
    return error instanceof Error ? error : new Error(said);
  };
