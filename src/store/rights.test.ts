/** What a server's account can't do to a shop's tables, whoever holds it, and what is said where it could. Source: PostgreSQL 15 documentation, appendix A: 42501 is what is not allowed. */
import { expect, it } from "vitest";
import { bothHomes } from "./both-homes.testdata";
import { openHome } from "./home";
import { done, job } from "./jobs.testdata";
import { upgradeShop } from "./postgres";
import { onlyAddedTo } from "./rights";
import { setUpShop } from "./set-up-shop";
import { byRuler } from "./shop.testdata";
import { warningOf } from "./upgrade";

const { inShop, shop, database, file } = bothHomes("rights");
const server = "shop_server";
/** A shop that is set up, with a job, an entry and a row of the trail. */
async function setUp() {
  const urls = await shop().accounts();
  expect(await setUpShop(urls.owner, server)).toEqual({ made: true, warning: undefined });
  const home = { kind: "shop" as const, url: urls.server };
  const s = await openHome(home);
  await s.create(job("a", [done("e1")]));
  await s.keeping().audit.tell({ who: "t", what: "looked", about: "a" });
  await s.close();
  const all = async () => {
    const rows = await Promise.all(["entry", "audit"].map((t) => shop().query(urls.owner, `select * from fettle.${t} order by 1, 2`)));
    return JSON.stringify(rows.map((r) => r.rows));
  };
  return { ...urls, home, all, ask: (text: string) => shop().query(urls.server, text) };
}

inShop("a shop's server, by an account of its own,", () => {
  it("changes and removes no entry and no row of the trail, and alters nothing that keeps others from it", async () => {
    const { ask, all, owner } = await setUp();
    const before = await all();
    const refused = [
      ...["entry", "audit"].flatMap((t) => [
        `update fettle.${t} set who = 'somebody else'`,
        `update fettle.${t} set seq = seq + 1`,
        `delete from fettle.${t}`,
        `truncate fettle.${t} cascade`,
        `drop table fettle.${t} cascade`,
        `alter table fettle.${t} disable trigger all`,
        `alter table fettle.${t} alter column who drop not null`,
        `alter table fettle.${t} owner to ${server}`,
        `alter table fettle.${t} rename to gone`,
        `grant update on fettle.${t} to ${server} with grant option; update fettle.${t} set who = 'x'`,
        `create trigger mine before insert on fettle.${t} for each row execute function fettle.audit_only_grows()`,
        `create rule mine as on insert to fettle.${t} do instead nothing`,
        `select * from fettle.${t} for update`,
      ]),
      ...["audit_changed", "audit_emptied"].flatMap((t) => [
        `drop trigger ${t} on fettle.audit`,
        `alter trigger ${t} on fettle.audit rename to gone`,
        `alter table fettle.audit disable trigger ${t}`,
      ]),
      "create or replace function fettle.audit_only_grows() returns trigger language plpgsql as $$ begin return new; end $$",
      "drop function fettle.audit_only_grows() cascade",
      "set session_replication_role = replica",
      "alter schema fettle rename to gone",
      "drop schema fettle cascade",
      "create table fettle.mine (a int)",
      "set role shop_owner",
      "update fettle.job set set_json = '{}'",
      "update fettle.job set name = 'another'",
      "update fettle.kysely_migration set name = 'x'",
      "delete from fettle.audit_head",
    ];
    for (const text of refused) await expect(ask(text), text).rejects.toMatchObject({ code: "42501" });
    expect(await all()).toBe(before);
    // the account that owns the tables is held by the trail's own triggers, for as long as it leaves them there
    for (const text of ["update fettle.audit set who = 'x'", "delete from fettle.audit"])
      await expect(shop().query(owner, text), text).rejects.toMatchObject({ message: "the audit trail only grows" });
  });
  it("is the same account's that the shop's own tests are run by, and may take out a whole job", async () => {
    const { home } = await setUp();
    const s = await openHome(home);
    expect(await s.erase("a", 1, "t")).toMatchObject({ entriesCount: 1 });
    expect((await s.keeping().audit.verify()).wrong).toEqual([]);
    await s.close();
  });
  it("keeps to what is added to alone: entries, what was set aside, the trail", () => {
    expect([...onlyAddedTo].sort()).toEqual(["aside", "audit", "entry", "file_aside"]);
  });
  it("has nothing said of it, and one that could alter the tables has, in plain words with why", async () => {
    const { home, owner } = await setUp();
    expect(await warningOf(home)).toBeUndefined();
    expect(await warningOf(file())).toBeUndefined();
    const laptop = await database();
    await (await openHome(laptop)).close();
    expect(await warningOf(laptop)).toContain("it rules the whole database server");
    expect(await warningOf({ kind: "shop", url: owner })).toContain("it owns the database; it owns the tables");
    const given: readonly (readonly [string, string, string])[] = [
      [`grant shop_owner to ${server}`, `revoke shop_owner from ${server}`, "it owns the tables"],
      [`grant update (who) on fettle.entry to ${server}`, `revoke update (who) on fettle.entry from ${server}`, "may change or remove"],
      [`grant delete on fettle.audit to public`, "revoke delete on fettle.audit from public", "may change or remove"],
      [`grant trigger on fettle.audit to ${server}`, `revoke trigger on fettle.audit from ${server}`, "it owns the tables"],
      [`grant pg_write_all_data to ${server}`, `revoke pg_write_all_data from ${server}`, "may change or remove"],
      [`grant pg_execute_server_program to ${server}`, `revoke pg_execute_server_program from ${server}`, "it rules the whole"],
    ];
    const all = byRuler(owner);
    for (const [give, take, says] of given) {
      await shop().query(all, give);
      expect(await warningOf(home), give).toContain(says);
      await shop().query(all, take);
    }
    expect(await warningOf(home)).toBeUndefined();
  });
  it("loses by a second set-up what it was given too much", async () => {
    const { home, owner, ask } = await setUp();
    await shop().query(owner, `grant all on all tables in schema fettle to ${server}; grant create on schema fettle to ${server}`);
    expect(await warningOf(home)).toContain("may change or remove");
    expect(await setUpShop(owner, server)).toEqual({ made: false, warning: undefined });
    await expect(ask("delete from fettle.entry")).rejects.toMatchObject({ code: "42501" });
    await expect(ask("create table fettle.mine (a int)")).rejects.toMatchObject({ code: "42501" });
  });
  it("makes no tables where there are none, and doesn't bring them up to date: who does is named", async () => {
    const { owner, server: url } = await shop().accounts();
    await expect(openHome({ kind: "shop", url })).rejects.toMatchObject({
      code: "read-only",
      message: expect.stringContaining("fettle set-up-store ACCOUNT, by the account that owns the database"),
    });
    await setUpShop(owner, server);
    // as a version before the last step had it
    await shop().query(owner, "drop table fettle.made; drop table fettle.kept_for; alter table fettle.session drop column ended");
    await shop().query(owner, "delete from fettle.kysely_migration where name > '0008-content'");
    await expect(setUpShop(owner, server)).rejects.toMatchObject({ code: "earlier" });
    await expect(upgradeShop(url)).rejects.toMatchObject({ code: "read-only", message: expect.stringContaining("doesn't own its tables") });
    expect(await upgradeShop(owner)).toEqual(["0009-kept-for", "0010-made"]);
    const s = await openHome({ kind: "shop", url });
    await s.retention().keepFor("tries", { count: 1, unit: "years" }, "t");
    expect(await s.retention().spans()).toMatchObject({ tries: { count: 1 } });
    await s.close();
    expect(await warningOf({ kind: "shop", url })).toBeUndefined();
  });
  it("is none that isn't there, and not the account that sets up", async () => {
    const { owner } = await shop().accounts();
    for (const [account, code] of [
      ["nobody_here", "no-account"],
      ["shop_owner", "same-account"],
    ])
      await expect(setUpShop(owner, account)).rejects.toMatchObject({ issues: [{ path: "server", code, read: account }] });
    expect((await shop().query(owner, "select 1 from pg_namespace where nspname = 'fettle'")).rows).toEqual([]);
  });
  it("of a shop that it made itself, by an earlier version, gives the tables up to another account", async () => {
    const { owner, server: url } = await shop().accounts();
    const all = byRuler(url);
    const name = new URL(url).pathname.slice(1);
    await shop().query(all, `alter database ${name} owner to ${server}`);
    const home = { kind: "shop" as const, url };
    const s = await openHome(home);
    await s.create(job("a", [done("e1")]));
    await s.close();
    expect(await warningOf(home)).toContain("it owns the database; it owns the tables");
    await shop().query(all, `reassign owned by ${server} to shop_owner`);
    expect(await setUpShop(owner, server)).toEqual({ made: false, warning: undefined });
    const again = await openHome(home);
    await again.append("a", [done("e2")]);
    expect((await again.load("a"))!.document.entries).toHaveLength(2);
    await again.close();
  });
});
