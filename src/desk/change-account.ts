import { type AccountRole, type Accounts, knownAs } from "../store/accounts/accounts";
import { InputError } from "../units/issue";

/** What is wanted of an account. */
export interface Wanted {
  readonly role?: AccountRole | undefined;
  readonly code?: boolean;
  readonly shut?: boolean;
  readonly reopen?: boolean;
}
/** What came of it: in words, and the code, which is told this once. */
export interface Changed {
  readonly says: string;
  readonly code?: string;
}

/**
 * Makes an account, or changes one; at a terminal and on a keeper's page alike.
 *
 * @param accounts the shop's
 * @param name as typed
 * @param wanted what of it; a name that is not there is made an account of that role
 * @param who does it, for the trail
 * @throws {InputError} where there is nothing to do, or no such account and no role for it
 */
export async function changeAccount(accounts: Accounts, name: string, wanted: Wanted, who: string): Promise<Changed> {
  const { role, code, shut, reopen } = wanted;
  const there = (await accounts.list()).find((a) => knownAs(a.name) === knownAs(name));
  if (!there && role !== undefined) {
    const made = await accounts.make(name, role, who);
    return { says: `Account made: ${name.trim()}, ${role}.`, code: made };
  }
  if (!role && !code && !shut && !reopen)
    throw new InputError([
      { path: "account", code: "nothing", read: name, expected: "what to change: --role, --code, --shut or --reopen" },
    ]);
  const changed = (role !== undefined && role !== there?.role) || shut || reopen;
  if (changed || !there) {
    const closed = shut ? { shut: true } : reopen ? { shut: false } : {};
    await accounts.change(name, { ...(role === undefined ? {} : { role }), ...closed }, who);
  }
  if (code) return { says: `A new code for ${name}. The old password is gone.`, code: await accounts.codeFor(name, who) };
  return { says: changed ? `Changed: ${name}. Whoever was signed in by it signs in again.` : `${name} is that already.` };
}
