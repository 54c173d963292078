import { type Kysely, sql } from "kysely";
import { shopSchema } from "./schema-history";
import type { Tables } from "./tables";

/** What a server does to a table's rows besides reading them. */
interface Done<Column> {
  readonly adds?: true;
  readonly changes?: readonly Column[];
  readonly removes?: true;
}
/**
 * What a server's account may do, table by table: what the program does, and no more. Entries and the trail are added to alone; entries go with the whole job
 * that they belong to, and with nothing else.
 */
const serverMay: { readonly [T in keyof Tables]: Done<keyof Tables[T] & string> } = {
  job: { adds: true, changes: ["updated", "revision", "next_seq", "extra_json"], removes: true },
  entry: { adds: true },
  aside: { adds: true },
  file: { adds: true, removes: true },
  file_aside: { adds: true },
  content: { adds: true, changes: ["bytes"], removes: true },
  kept_for: { adds: true, removes: true },
  made: { adds: true, changes: ["made_by", "revision", "body_json"] },
  account: { adds: true, changes: ["role", "password", "shut"] },
  session: { adds: true, changes: ["seen", "ended"], removes: true },
  set_code: { adds: true, removes: true },
  owner_link: { adds: true, changes: ["withdrawn"], removes: true },
  sign_in_try: { adds: true, changes: ["since", "tries"], removes: true },
  audit: { adds: true },
  audit_head: { changes: ["seq", "hash"] },
};
/** Tables whose rows nobody but the schema's own steps changes or removes. */
export const onlyAddedTo = Object.entries(serverMay).flatMap(([table, { changes, removes }]) => (changes || removes ? [] : [table]));

/**
 * Gives an account what a server needs, and takes from it whatever else it was given in the shop's own schema.
 *
 * @param db asked by the account that owns the tables
 * @param account whose rights they are
 */
export async function giveRights(db: Kysely<Tables>, account: string): Promise<void> {
  const [schema, to] = [sql.id(shopSchema), sql.id(account)];
  await db.transaction().execute(async (tx) => {
    const all = sql`all tables in schema ${schema}`;
    await sql`revoke all on schema ${schema} from ${to}`.execute(tx);
    await sql`revoke all on ${all} from ${to}`.execute(tx);
    await sql`grant usage on schema ${schema} to ${to}`.execute(tx);
    await sql`grant select on ${all} to ${to}`.execute(tx);
    for (const [name, { adds, changes, removes }] of Object.entries<Done<string>>(serverMay)) {
      const rights = [
        ...(adds ? [sql`insert`] : []),
        ...(changes ? [sql`update (${sql.join(changes.map((c) => sql.id(c)))})`] : []),
        ...(removes ? [sql`delete`] : []),
      ];
      await sql`grant ${sql.join(rights)} on ${sql.table(`${shopSchema}.${name}`)} to ${to}`.execute(tx);
    }
  });
}

/** Accounts that were given the right to come in to the shop's schema, its owner left out. */
export async function accountsLetIn(db: Kysely<Tables>): Promise<readonly string[]> {
  const { rows } = await sql<{ name: string }>`
    select distinct r.rolname as name
    from pg_namespace n cross join lateral aclexplode(n.nspacl) a join pg_roles r on r.oid = a.grantee
    where n.nspname = ${shopSchema} and a.privilege_type = 'USAGE' and a.grantee <> n.nspowner
    order by 1`.execute(db);
  return rows.map((r) => r.name);
}

/** What an account could do to the tables that it should not. */
interface Could {
  readonly rules: boolean;
  readonly promotes: boolean;
  readonly database: boolean;
  readonly tables: boolean;
  readonly rows: boolean;
}
const reasons: Readonly<Record<keyof Could, string>> = {
  rules: "it rules the whole database server",
  promotes: "it may give itself other accounts' rights",
  database: "it owns the database",
  tables: "it owns the tables",
  rows: "it may change or remove entries, or rows of the trail",
};
/**
 * Why an account could change the tables themselves, or take out what is only added to; by being a member of another as well. Source: PostgreSQL 15
 * documentation, "Database Roles", "Privileges" and "Access Privilege Inquiry Functions".
 *
 * @param db the shop's database
 * @param account whose rights are looked at; the one that asks where none is named
 * @returns each reason in words; none where it could not
 */
export async function couldAlter(db: Kysely<Tables>, account?: string): Promise<readonly string[]> {
  const named = account === undefined ? sql`current_user` : sql`${account}`;
  const is = (role: ReturnType<typeof sql>) => sql`pg_has_role(r.oid, ${role}, 'MEMBER')`;
  const guarded = sql.join(onlyAddedTo.map((t) => sql`${t}`));
  const { rows } = await sql<Could>`
    select
      r.rolsuper or exists (select 1 from pg_roles p
        where p.rolname in ('pg_execute_server_program', 'pg_write_server_files') and ${is(sql`p.oid`)}) as rules,
      r.rolcreaterole and current_setting('server_version_num')::int < 160000 as promotes,
      exists (select 1 from pg_database d where d.datname = current_database() and ${is(sql`d.datdba`)}) as database,
      exists (select 1 from pg_namespace n where n.nspname = ${shopSchema} and ${is(sql`n.nspowner`)})
        or exists (select 1 from pg_class c join pg_namespace n on n.oid = c.relnamespace
          where n.nspname = ${shopSchema} and (${is(sql`c.relowner`)} or has_table_privilege(r.oid, c.oid, 'TRIGGER')))
        or exists (select 1 from pg_proc f join pg_namespace n on n.oid = f.pronamespace
          where n.nspname = ${shopSchema} and ${is(sql`f.proowner`)}) as tables,
      exists (select 1 from pg_class c join pg_namespace n on n.oid = c.relnamespace
        where n.nspname = ${shopSchema} and c.relname in (${guarded}) and c.relkind = 'r'
        and (has_table_privilege(r.oid, c.oid, 'UPDATE, DELETE, TRUNCATE') or has_any_column_privilege(r.oid, c.oid, 'UPDATE'))) as rows
    from pg_roles r where r.rolname = ${named}`.execute(db);
  const found = rows[0];
  if (found === undefined) return [];
  // who rules it all could do the rest too, which tells nothing more
  if (found.rules) return [reasons.rules];
  return (Object.keys(reasons) as (keyof Could)[]).filter((k) => found[k]).map((k) => reasons[k]);
}
