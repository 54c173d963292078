import type { Context, Hono } from "hono";
import { html } from "hono/html";
import { changeAccount } from "../../../desk/change-account";
import { checked } from "../../../desk/declare";
import { sayClearedOut } from "../../../desk/keep-for";
import { accountSaid, clearOutSaid, keepSaid, linkSaid, withdrawSaid } from "../../../desk/shop-said";
import type { Listed } from "../../../store/accounts/accounts";
import type { OwnerLink } from "../../../store/accounts/links";
import { readSpan } from "../../../store/kept/spans";
import { orThrow } from "../../../units/issue";
import { bodyOf } from "../guard";
import { keptPart } from "./kept";
import { orShown, own } from "./own-route";
import { ownRoutes } from "./own-routes";
import { day, type Piece, plainPage, said, sending, typed } from "./plain-page";
import { asked, type ShopServing } from "./serving";

const mostRows = 100;
const may = { bench: "works on jobs", keeper: "works on jobs and keeps the shop" } as const;
const hidden = (name: string, value: string): Piece => html`<input type="hidden" name="${name}" value="${value}" />`;

const onAccount = ({ name, role, shut, set, seen }: Listed): Piece => {
  const act = (what: string, button: string, more: readonly Piece[] = []): Piece =>
    sending("/people/account", button, [hidden("name", name), hidden("act", what), ...more], true);
  const other = role === "keeper" ? "bench" : "keeper";
  const state = shut
    ? "shut: nobody comes in by it"
    : set
      ? seen
        ? `last at work ${day(seen)}`
        : "not signed in"
      : "has set no password yet";
  return html`<li>
    <p><strong>${name}</strong>, ${may[role]}; ${state}.</p>
    <div class="row">
      ${act("role", role === "keeper" ? `Let ${name} work on jobs only` : `Let ${name} keep the shop too`, [hidden("role", other)])} ${act("code", `New code for ${name}`)}
      ${shut ? act("reopen", `Let ${name} in again`) : act("shut", `Shut ${name} out`)}
    </div>
  </li>`;
};
const onLink = ({ id, job, who, until, withdrawn }: OwnerLink, now: string): Piece => {
  const over = withdrawn || until <= now;
  const state = withdrawn ? "withdrawn" : over ? `ended ${day(until)}` : `until ${day(until)}`;
  const end = over ? html`` : sending("/people/withdraw", `Withdraw ${id}`, hidden("id", id), true);
  return html`<li><p><strong>${job}</strong>, ${state}; made by ${who}.</p>${end}</li>`;
};
const accountsPart = (all: readonly Listed[]): Piece =>
  html`<h2>Accounts</h2>
    <p>Whoever gets a new code sets another password by it; the old one ends at once.</p>
    <ul class="bare people">${all.map(onAccount)}</ul>
    <h3>Another account</h3>
    ${sending("/people/account", "Make the account", [
      hidden("act", "make"),
      typed("Name, as entries will show it", "name"),
      html`<label class="field">What it may do<select name="role"><option value="bench">Work on jobs</option><option value="keeper">Work on jobs and keep the shop</option></select></label>`,
    ])}`;
const linksPart = (all: readonly OwnerLink[], now: string): Piece =>
  html`<h2>Owners' links</h2>
    <p>By a link an owner reads the report of one job, with no account, until it ends.</p>
    <ul class="bare people">${all.map((l) => onLink(l, now))}</ul>
    ${sending("/people/link", "Make a link", [typed("Name of the job", "job"), typed("For how many days", "days", { type: "number", value: "30" })])}`;

/** The keeper's page: who may come in, which owners read what, what was done. */
async function peoplePage({ keeping, desk }: ShopServing, who: string, told: Piece): Promise<Piece> {
  const [all, links, rows, { wrong, rowsCount, head }] = await Promise.all([
    keeping.accounts.list(),
    keeping.links.list(),
    keeping.audit.rows(mostRows),
    keeping.audit.verify(),
  ]);
  const whole =
    wrong.length > 0
      ? html`<p class="warn" role="alert">This trail is not as it was written: ${wrong.join("; ")}.</p>`
      : html`<p>Whole: ${rowsCount} rows. The last one is ${head.seq}:${head.hash.slice(0, 16)}; write it down elsewhere: fettle audit shows by it, another time, that nothing was taken off the end.</p>`;
  const body = html`${told}${accountsPart(all)}${linksPart(links, desk(who).stamp.at)}
    ${await keptPart(desk(who).store.retention())}
    <h2>What was done</h2>
    ${whole}
    <div class="wide" tabindex="0" role="group" aria-label="What was done"><table>
      <thead><tr><th scope="col">when</th><th scope="col">who</th><th scope="col">what</th><th scope="col">about</th></tr></thead>
      <tbody>${[...rows].reverse().map((r) => html`<tr><td>${day(r.at)}</td><td>${r.who}</td><td>${r.what}</td><td>${r.about}</td></tr>`)}</tbody>
    </table></div>`;
  return plainPage("People", body, who);
}

/** Routes of a keeper. */
export function peopleRoutes(app: Hono, of: ShopServing): void {
  const { accounts, links } = of.keeping;
  const who = (c: Context): string => asked.account(c)?.name ?? "";
  const show = async (c: Context, told: Piece, status: 200 | 400 | 409 | 429 | 503 = 200): Promise<Response> =>
    c.html(await peoplePage(of, who(c), told), status);
  const act = (c: Context, work: (body: unknown) => Promise<Piece>): Promise<Response> =>
    orShown(
      async () => show(c, await work(await bodyOf(c))),
      (words, status) => show(c, said(words), status),
    );
  own(app, of, ownRoutes.people, (c) => show(c, html``));
  own(app, of, ownRoutes.changeAccount, (c) =>
    act(c, async (body) => {
      const { name, role, act: what } = checked(accountSaid, body);
      const wanted = what === "make" || what === "role" ? { role } : { [what]: true };
      const { says, code } = await changeAccount(accounts, name, wanted, who(c));
      if (code === undefined) return said(says, false);
      return html`${said(says, false)}<p>This code is for ${name} alone, and is shown only this once. It is good for 24 hours, at https://${c.req.header("host")}/password :</p><p class="code">${code}</p>`;
    }),
  );
  own(app, of, ownRoutes.makeLink, (c) =>
    act(c, async (body) => {
      const { job, days } = checked(linkSaid, body);
      const { secret, until } = await links.make(job, days, who(c));
      return html`${said("Link made.", false)}<p>For the owner of ${job} alone, until ${day(until)}. It is shown only this once:</p><p class="code">https://${c.req.header("host")}/view/${secret}</p>`;
    }),
  );
  const retention = (c: Context) => of.desk(who(c)).store.retention();
  own(app, of, ownRoutes.keep, (c) =>
    act(c, async (body) => {
      const { kind, time } = checked(keepSaid, body);
      await retention(c).keepFor(kind, orThrow(readSpan(time)), who(c));
      return said("Noted. Nothing goes by itself.", false);
    }),
  );
  own(app, of, ownRoutes.clearOut, (c) =>
    act(c, async (body) => {
      const done = await retention(c).clearOut(checked(clearOutSaid, body).confirm, who(c));
      return said(sayClearedOut(done).join(" "), false);
    }),
  );
  own(app, of, ownRoutes.withdrawLink, (c) =>
    act(c, async (body) => {
      await links.withdraw(checked(withdrawSaid, body).id, who(c));
      return said("Withdrawn: it opens nothing any more.", false);
    }),
  );
}
