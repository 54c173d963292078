import { randomBytes, scrypt, timingSafeEqual } from "node:crypto";
import { InputError } from "../../units/issue";
import { StoreError } from "../store-error";

/**
 * How dear one try is. Source: OWASP Password Storage Cheat Sheet, scrypt (N = 2^17, r = 8, p = 1, where Argon2id is not at hand), from memory; RFC 7914 for
 * what they mean. Each takes 128 MB while it is worked out.
 */
const usual = { ln: 17, r: 8, p: 1 } as const;
export interface Cost {
  readonly ln: number;
  readonly r: number;
  readonly p: number;
}
const keyBytes = 32;
const saltBytes = 16;
/** At most so many at a time, since each takes memory; whoever would have to wait behind more than that is asked to come again. */
const atOnce = 2;
const mostWaiting = 20;

/** Hashes passwords and compares them. */
export interface Passwords {
  readonly hash: (password: string) => Promise<string>;
  /** whether it is the password; takes the same time where there is none to compare with */
  readonly fits: (password: string, stored: string | null) => Promise<boolean>;
}

/** Characters as one has them, however they were typed. Source: NIST SP 800-63B, normalization of passwords, from memory */
const normal = (password: string): string => password.normalize("NFKC");
const derive = (password: string, salt: Uint8Array, { ln, r, p }: Cost, length: number): Promise<Buffer> =>
  new Promise((resolve, reject) =>
    scrypt(normal(password), salt, length, { N: 2 ** ln, r, p, maxmem: 129 * 2 ** ln * r + 2 ** 20 }, (e, key) =>
      e ? reject(e) : resolve(key),
    ),
  );
/** Lets so many in at a time, the others in turn. */
function turns(): <T>(work: () => Promise<T>) => Promise<T> {
  let busy = 0;
  const waiting: (() => void)[] = [];
  return async (work) => {
    if (busy >= atOnce) {
      if (waiting.length >= mostWaiting) throw new StoreError("busy", "too many are signing in at this moment: try again in a minute");
      await new Promise<void>((go) => waiting.push(go));
    } else busy++;
    try {
      return await work();
    } finally {
      const next = waiting.shift();
      if (next) next();
      else busy--;
    }
  };
}
/** A hash as it is stored, read back: algorithm and cost stand in it, so that a dearer one can follow. */
function parts(stored: string): { readonly cost: Cost; readonly salt: Buffer; readonly key: Buffer } | undefined {
  const m = /^\$scrypt\$ln=(\d+),r=(\d+),p=(\d+)\$([\w+/]+)\$([\w+/]+)$/.exec(stored);
  if (!m) return undefined;
  const [ln, r, p] = m.slice(1, 4).map(Number);
  return { cost: { ln, r, p }, salt: Buffer.from(m[4], "base64"), key: Buffer.from(m[5], "base64") };
}
const bare = (b: Buffer): string => b.toString("base64").replace(/=+$/, "");

/**
 * Passwords by scrypt, of Node.js itself.
 *
 * @param cost how dear a try is; the usual one where not given
 */
export function passwords(cost: Cost = usual): Passwords {
  const inTurn = turns();
  return {
    hash: async (password) => {
      const salt = randomBytes(saltBytes);
      const key = await inTurn(() => derive(password, salt, cost, keyBytes));
      return `$scrypt$ln=${cost.ln},r=${cost.r},p=${cost.p}$${bare(salt)}$${bare(key)}`;
    },
    fits: async (password, stored) => {
      const known = stored === null ? undefined : parts(stored);
      const { cost: dear, salt, key } = known ?? { cost, salt: randomBytes(saltBytes), key: randomBytes(keyBytes) };
      const said = await inTurn(() => derive(password, salt, dear, key.length));
      return timingSafeEqual(said, key) && known !== undefined;
    },
  };
}

const [fewest, most] = [12, 200];
/**
 * Refuses a password that is too short or too easily guessed. Source: NIST SP 800-63B, from memory: a length, no rules of composition.
 *
 * @throws {InputError}
 */
export function checkPassword(password: string, name: string): void {
  const said = normal(password);
  const no = (expected: string): InputError => new InputError([{ path: "password", code: "weak", read: "", expected }]);
  if ([...said].length < fewest) throw no(`at least ${fewest} characters: three or four words that don't belong together, for instance`);
  if ([...said].length > most) throw no(`at most ${most} characters`);
  if (new Set(said).size < 5) throw no("more than the same few characters again and again");
  const plain = said.toLowerCase().replace(/[^\p{L}]/gu, "");
  if ([name.toLowerCase().replace(/[^\p{L}]/gu, ""), "password", "fettle"].includes(plain))
    throw no("something that nobody guesses from your name or this program's");
}
