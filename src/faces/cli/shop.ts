import { account } from "../../desk/commands/account";
import { accounts } from "../../desk/commands/accounts";
import { audit } from "../../desk/commands/audit";
import { ownerLink } from "../../desk/commands/owner-link";
import { ownerLinks } from "../../desk/commands/owner-links";
import { momentInWords, shortMoment } from "../../units/day";
import { line } from "./line";
import { columnsOf, wrap } from "./render";

/** Who may come in. */
export const accountsLine = line(accounts, async ({ said, act, out, world: { page } }) => {
  const all = await act(said);
  if (all.length === 0) return out("No accounts yet. Make one: fettle account NAME --role keeper");
  const state = (a: (typeof all)[number]): string => (a.shut ? "shut" : a.set ? "" : "no password yet");
  const rows = all.map((a) => [a.name, a.role, state(a), a.seen ? `at work ${shortMoment(a.seen)} UTC` : "not signed in"]);
  out(columnsOf(rows, page.columns).join("\n"));
});

export const accountLine = line(account, async ({ said, act, out, world: { page } }) => {
  const { says, code } = await act(said);
  out(says);
  if (code === undefined) return;
  const how = `Give this code to its person alone: it is good once, for 24 hours, at the shop's own address with /password behind it.`;
  out(`\n  ${code}\n\n${wrap(how, page.columns).join("\n")}`);
});

export const ownerLinkLine = line(ownerLink, async ({ said, act, out, world: { page } }) => {
  const { id, link, until } = await act(said);
  out(`  ${link}\n`);
  const where = said.shop === "" ? " It stands behind the shop's own address." : "";
  const how = `The owner reads the report of "${said.job}" by it, and nothing else, until ${momentInWords(until)} UTC.${where} It is shown only this once: who has it has the report.`;
  out(wrap(how, page.columns).join("\n"));
  out(`To end it sooner: fettle owner-links --withdraw ${id}`);
});

export const ownerLinksLine = line(ownerLinks, async ({ said, act, out, world: { page, now } }) => {
  const all = await act(said);
  if (all.length === 0) return out("No owner has a link.");
  const state = (l: (typeof all)[number]): string =>
    l.withdrawn ? "withdrawn" : l.until <= now() ? "ended" : `until ${shortMoment(l.until)} UTC`;
  out(
    columnsOf(
      all.map((l) => [l.id, l.job, state(l), `made by ${l.who}`]),
      page.columns,
    ).join("\n"),
  );
});

export const auditLine = line(audit, async ({ said, act, out, judge, world: { page } }) => {
  const { rows, found } = await act(said);
  if (rows.length > 0)
    out(
      columnsOf(
        rows.map((r) => [String(r.seq), shortMoment(r.at), r.who, r.what, r.about]),
        page.columns,
      ).join("\n"),
    );
  if (found.wrong.length > 0) {
    judge(1);
    return out(`\nThis trail is not as it was written:\n${found.wrong.map((w) => `  ${w}`).join("\n")}`);
  }
  if (found.rowsCount === 0) return out("Nothing has been done in this shop yet.");
  const { seq, hash } = found.head;
  const told = `Whole: ${found.rowsCount} rows, each follows from the one before. Write the last one down where the shop's machine can't reach it, ${seq}:${hash.slice(0, 16)}, and give it to --noted another time: then not even whoever owns the database can take rows off the end unseen.`;
  out(`\n${wrap(told, page.columns).join("\n")}`);
});
