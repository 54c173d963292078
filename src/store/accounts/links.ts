import { randomBytes } from "node:crypto";
import { InputError } from "../../units/issue";
import { StoreError } from "../store-error";
import type { Transactions } from "../transactions";
import { later } from "./accounts";
import { tell } from "./audit";
import { digestOf, newSecret } from "./secrets";

const dayMs = 24 * 3600_000;

/** A link by which an owner reads the report of one job, with no account; its secret is nowhere but in the link. */
export interface OwnerLink {
  readonly id: string;
  readonly job: string;
  readonly who: string;
  readonly made: string;
  readonly until: string;
  readonly withdrawn: boolean;
}
export interface OwnerLinks {
  /** @returns the secret that the link ends with, told this once */
  readonly make: (
    job: string,
    days: number,
    who: string,
  ) => Promise<{ readonly id: string; readonly secret: string; readonly until: string }>;
  readonly list: () => Promise<readonly OwnerLink[]>;
  readonly withdraw: (id: string, who: string) => Promise<void>;
  /** the link that a secret belongs to, while it is good */
  readonly of: (secret: string) => Promise<OwnerLink | undefined>;
}

/**
 * The owners' links of a store.
 *
 * @param on how it is asked
 */
export function ownerLinksIn({ db, now, guard, writeOnce, transact }: Transactions): OwnerLinks {
  const all = () =>
    db
      .selectFrom("owner_link as l")
      .innerJoin("job", "job.id", "l.job_id")
      .select(["l.id", "job.name as job", "l.who", "l.made", "l.until", "l.withdrawn"]);
  return {
    make: (job, days, who) =>
      writeOnce(() =>
        transact(async (tx) => {
          const [at, secret, id] = [now(), newSecret(), randomBytes(4).toString("hex")];
          await tell(tx, at, { who, what: `owner's link ${id} made for ${days} days`, about: job });
          const found = await tx.selectFrom("job").select("id").where("name", "=", job).executeTakeFirst();
          if (!found) throw new StoreError("no-job", `there is no job called "${job}"`);
          const until = later(at, days * dayMs);
          const row = { id, hash: digestOf(secret), job_id: found.id, who, made: at, until, withdrawn: null };
          await tx.insertInto("owner_link").values(row).execute();
          return { id, secret, until };
        }),
      ),
    list: () => guard(async () => (await all().orderBy("l.made").execute()).map((l) => ({ ...l, withdrawn: l.withdrawn !== null }))),
    withdraw: (id, who) =>
      writeOnce(() =>
        transact(async (tx) => {
          const at = now();
          await tell(tx, at, { who, what: "owner's link withdrawn", about: id });
          const done = await tx.updateTable("owner_link").set({ withdrawn: at }).where("id", "=", id).returning("id").executeTakeFirst();
          if (!done) throw new InputError([{ path: "link", code: "no-link", read: id, expected: "the id of a link, as they are listed" }]);
        }),
      ),
    of: (secret) =>
      guard(async () => {
        const found = await all().where("l.hash", "=", digestOf(secret)).executeTakeFirst();
        if (!found || found.withdrawn !== null || now() >= found.until) return undefined;
        return { ...found, withdrawn: false };
      }),
  };
}
