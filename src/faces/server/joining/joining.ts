import { createHash, timingSafeEqual } from "node:crypto";
import { InputError } from "../../../units/issue";

/** Capitals and digits that can't be mistaken for each other when they are read off a screen and typed. */
export const codeLetters = "23456789ABCDEFGHJKMNPQRSTVWXYZ";
const codeLength = 8;
export const codeLivesMs = 5 * 60_000;
export const triesPerCode = 5;
export const mostDevices = 4;

/** A code as it stands: shown to whoever sits at the page, good once. */
export interface Code {
  readonly code: string;
  readonly job: string;
  readonly untilMs: number;
}
/** A device that has joined: the one job that it sees, and the secret that its address begins with. */
export interface Session {
  readonly id: string;
  readonly device: string;
  readonly job: string;
  readonly secret: string;
  readonly sinceMs: number;
}
/** The clock and the dice that are lent: both are the machine's own but in a test. */
export interface Lent {
  readonly nowMs: () => number;
  /** a whole number from 0, below `below`, that nobody can guess */
  readonly dice: (below: number) => number;
  readonly secret: () => string;
}
/** Who may come in from the house network: by one code at a time, and who has. */
export interface Joining {
  readonly open: (job: string) => Code;
  readonly standing: () => Code | undefined;
  /** @throws {InputError} on any code but the one that stands */
  readonly join: (code: string, device: string) => Session;
  readonly joined: () => readonly Session[];
  readonly bySecret: (secret: string) => Session | undefined;
  readonly sendAway: (id: string) => boolean;
}

const digest = (text: string): Buffer => createHash("sha256").update(text).digest();
const same = (a: string, b: string): boolean => timingSafeEqual(digest(a), digest(b));
/** A code as typed: its letters alone, whatever stands between them. */
const lettersOf = (typed: string): string => typed.toUpperCase().replace(/[^A-Z0-9]/g, "");
const refusal = (code: string, read: string, expected: string): InputError => new InputError([{ path: "code", code, read, expected }]);

/** Keeps codes and sessions in memory only: they end with the process. */
export function joining({ nowMs, dice, secret }: Lent): Joining {
  let code: Code | undefined;
  let tries = 0;
  let count = 0;
  const sessions: Session[] = [];
  const standing = (): Code | undefined => {
    if (code && nowMs() >= code.untilMs) code = undefined;
    return code;
  };
  return {
    open: (job) => {
      if (sessions.length >= mostDevices)
        throw new InputError([
          { path: "device", code: "full", read: String(sessions.length), expected: `at most ${mostDevices}: send one away first` },
        ]);
      const letters = Array.from({ length: codeLength }, () => codeLetters[dice(codeLetters.length)]).join("");
      tries = 0;
      code = { code: letters, job, untilMs: nowMs() + codeLivesMs };
      return code;
    },
    standing,
    join: (typed, device) => {
      const now = standing();
      if (!now) throw refusal("no-code", "", "a new code: none stands; have one made on Fettle's own page");
      if (!same(lettersOf(typed), now.code)) {
        tries++;
        const left = triesPerCode - tries;
        if (left > 0) throw refusal("wrong-code", typed.slice(0, 20), `the code that Fettle's page shows; ${left} more tries`);
        code = undefined;
        throw refusal("no-code", "", "a new code: that was the last try for this one");
      }
      code = undefined;
      const session = { id: `d${++count}`, device, job: now.job, secret: secret(), sinceMs: nowMs() };
      sessions.push(session);
      return session;
    },
    joined: () => [...sessions],
    bySecret: (said) => sessions.filter((s) => same(s.secret, said))[0],
    sendAway: (id) => {
      const at = sessions.findIndex((s) => s.id === id);
      if (at >= 0) sessions.splice(at, 1);
      return at >= 0;
    },
  };
}
