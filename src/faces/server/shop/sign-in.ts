import type { Context, Hono } from "hono";
import { html } from "hono/html";
import { checked } from "../../../desk/declare";
import { changePasswordSaid, setPasswordSaid, signInSaid } from "../../../desk/shop-said";
import type { Account } from "../../../store/accounts/accounts";
import { bodyOf } from "../guard";
import { orShown, own, tooOften } from "./own-route";
import { ownRoutes } from "./own-routes";
import { type Piece, plainPage, said, sending, typed } from "./plain-page";
import { asked, type ShopServing } from "./serving";
import { giveToken, takeToken, tokenOf } from "./who-asks";

const signInPage = (told: Piece = html``): Piece =>
  plainPage(
    "Sign in",
    html`${told}
      ${sending("/sign-in", "Sign in", [
        typed("Name", "name", { fill: "username" }),
        typed("Password", "password", { type: "password", fill: "current-password" }),
      ])}
      <p class="quiet">No password yet, or forgotten? A keeper of this shop makes a code for you; <a href="/password">set a password by it</a>.</p>`,
  );
const passwordPage = (told: Piece = html``): Piece =>
  plainPage(
    "Set a password",
    html`${told}
      <p>The code is good once, for 24 hours.</p>
      ${sending("/password", "Set it", [
        typed("Code", "code"),
        html`<label class="field">Your name, as entries will show it: only the first keeper says it<input name="name" autocomplete="username" maxlength="40" /></label>`,
        typed("Password, 12 characters or more", "password", { type: "password", fill: "new-password" }),
      ])}
      <p class="quiet">Three or four words that don't belong together are easy to keep and hard to guess.</p>`,
  );
const accountPage = ({ name, role }: Account, told: Piece = html``): Piece =>
  plainPage(
    name,
    html`${told}
      <p>You are signed in, to ${role === "keeper" ? html`work on jobs and to keep the shop: <a href="/people">accounts, owners' links and what was done</a>` : "work on jobs"}. What you record carries this name.</p>
      <div class="row">${sending("/account/sign-out", "Sign out", [])}${sending("/account/sign-out-everywhere", "Sign out everywhere", [], true)}</div>
      <h2>Another password</h2>
      ${sending("/account/password", "Change it", [
        typed("The old password", "before", { type: "password", fill: "current-password" }),
        typed("The new one, 12 characters or more", "password", { type: "password", fill: "new-password" }),
      ])}`,
    name,
  );

/** Routes by which one comes in. */
export function signInRoutes(app: Hono, of: ShopServing): void {
  const { sessions, accounts } = of.keeping;
  own(app, of, ownRoutes.signInPage, (c) => c.html(signInPage()));
  own(app, of, ownRoutes.signIn, (c) =>
    orShown(
      async () => {
        const { name, password } = checked(signInSaid, await bodyOf(c));
        const r = await sessions.signIn({ name, password, from: of.from(c), before: tokenOf(c) });
        of.metrics.signIn(r.is);
        if (r.is === "later") return c.html(signInPage(said(tooOften(c, r.minutes))), 429);
        if (r.is === "no") return c.html(signInPage(said("Name or password is wrong.")), 401);
        giveToken(c, r.token);
        return c.redirect("/", 303);
      },
      (words, status) => c.html(signInPage(said(words)), status),
    ),
  );
  own(app, of, ownRoutes.passwordPage, (c) => c.html(passwordPage()));
  own(app, of, ownRoutes.password, (c) =>
    orShown(
      async () => {
        const { code, name, password } = checked(setPasswordSaid, await bodyOf(c));
        const minutes = await sessions.count("address", of.from(c));
        if (minutes !== undefined) return c.html(passwordPage(said(tooOften(c, minutes))), 429);
        const account = await accounts.setPassword(code, password, name);
        return c.html(signInPage(said(`Set. Sign in as ${account.name} now.`, false)));
      },
      (words, status) => c.html(passwordPage(said(words)), status),
    ),
  );
}
/** Routes of one's own account. */
export function accountRoutes(app: Hono, of: ShopServing): void {
  const { sessions } = of.keeping;
  const self = (c: Context): Account => {
    const account = asked.account(c);
    if (!account) throw new Error("no account");
    return account;
  };
  const out = (c: Context): Response => {
    takeToken(c);
    // what this browser has kept of the shop's pages goes too. Source: W3C Clear Site Data
    c.header("clear-site-data", '"cache"');
    return c.redirect("/sign-in", 303);
  };
  own(app, of, ownRoutes.account, (c) => c.html(accountPage(self(c))));
  own(app, of, ownRoutes.signOut, async (c) => {
    await sessions.signOut(tokenOf(c) ?? "");
    return out(c);
  });
  own(app, of, ownRoutes.signOutEverywhere, async (c) => {
    await sessions.signOutEverywhere(self(c));
    return out(c);
  });
  own(app, of, ownRoutes.changePassword, (c) =>
    orShown(
      async () => {
        const { before, password } = checked(changePasswordSaid, await bodyOf(c));
        const minutes = await sessions.count("account", `change ${self(c).id}`);
        if (minutes !== undefined) return c.html(accountPage(self(c), said(tooOften(c, minutes))), 429);
        if (await sessions.changePassword(self(c), before, password)) return out(c);
        return c.html(accountPage(self(c), said("The old password is wrong.")), 401);
      },
      (words, status) => c.html(accountPage(self(c), said(words)), status),
    ),
  );
}
