import type { Transactions } from "../transactions";
import { type Accounts, accountsIn } from "./accounts";
import { type Audited, type AuditHead, type AuditRow, rowsOf, type Told, tell, verified } from "./audit";
import { type OwnerLinks, ownerLinksIn } from "./links";
import { type Passwords, passwords } from "./passwords";
import { type Sessions, sessionsIn } from "./sessions";

/** What a store holds of a shop's people, beside its jobs. */
export interface ShopKeeping {
  readonly accounts: Accounts;
  readonly sessions: Sessions;
  readonly links: OwnerLinks;
  readonly audit: {
    readonly tell: (told: Told) => Promise<void>;
    readonly rows: (most: number) => Promise<readonly AuditRow[]>;
    readonly verify: (noted?: AuditHead) => Promise<Audited>;
  };
}

/**
 * A shop's people in a store.
 *
 * @param on how it is asked
 * @param hashed how passwords are; the usual way where not given
 */
export function shopKeeping(on: Transactions, hashed: Passwords = passwords()): ShopKeeping {
  const { db, now, guard, writeOnce, transact } = on;
  return {
    accounts: accountsIn(on, hashed),
    sessions: sessionsIn(on, hashed),
    links: ownerLinksIn(on),
    audit: {
      tell: (told) => writeOnce(() => transact((tx) => tell(tx, now(), told))),
      rows: (most) => guard(() => rowsOf(db, most)),
      verify: (noted) => guard(() => verified(db, noted)),
    },
  };
}
