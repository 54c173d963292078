import type { Kysely } from "kysely";
import type { Keeping } from "./store";
import type { Tables } from "./tables";
import type { Transactions } from "./transactions";

/** What was made of a job, and of which version of it. */
export interface Made<T> {
  readonly revision: number;
  readonly made: T;
}
/** JSON has no word for nothing, so what was made stands in a list. */
const written = (made: unknown): string => JSON.stringify(made === undefined ? [] : [made]);
function readBack<T>(text: string, keeping: Keeping<T>): { readonly made: T } | undefined {
  try {
    const list: unknown = JSON.parse(text);
    return Array.isArray(list) ? keeping.read(list[0]) : undefined;
  } catch {
    // damaged: made again
    return undefined;
  }
}

/** What is kept of jobs by this version of the program, by their ids; what can't be read is left out. */
export async function madeBefore<T>(db: Kysely<Tables>, keeping: Keeping<T>): Promise<ReadonlyMap<string, Made<T>>> {
  const { work, madeBy } = keeping;
  const rows = await db
    .selectFrom("made")
    .select(["job_id", "revision", "body_json"])
    .where("work", "=", work)
    .where("made_by", "=", madeBy)
    .execute();
  return new Map(
    rows.flatMap(({ job_id, revision, body_json }) => {
      const back = readBack(body_json, keeping);
      return back ? [[job_id, { revision, ...back }] as const] : [];
    }),
  );
}
const rowsAtOnce = 100;
/** Keeps what was made, beside its jobs. Where it can't be kept (the store may only be read, is full, or another holds it) it is made again the next time. */
export async function keepMade<T>(
  on: Pick<Transactions, "transact">,
  { work, madeBy }: Keeping<T>,
  all: ReadonlyMap<string, Made<T>>,
): Promise<void> {
  const rows = [...all].map(([job_id, { revision, made }]) => ({ job_id, work, made_by: madeBy, revision, body_json: written(made) }));
  for (let i = 0; i < rows.length; i += rowsAtOnce) await keepRows(on, rows.slice(i, i + rowsAtOnce));
}
/** Keeps some rows of what was made, in place of those of before; false where they can't be kept. */
export const keepRows = ({ transact }: Pick<Transactions, "transact">, rows: readonly Tables["made"][]): Promise<boolean> =>
  transact((tx) =>
    tx
      .insertInto("made")
      .values(rows)
      .onConflict((c) =>
        c.columns(["job_id", "work"]).doUpdateSet((eb) => ({
          made_by: eb.ref("excluded.made_by"),
          revision: eb.ref("excluded.revision"),
          body_json: eb.ref("excluded.body_json"),
        })),
      )
      .execute(),
  ).then(
    () => true,
    () => false,
  );
