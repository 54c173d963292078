import { html } from "hono/html";
import { momentInWords } from "../../../units/day";

/** A piece of a page in which whatever was typed by anybody stands as text. */
export type Piece = ReturnType<typeof html>;

/** A page of the server's own, which needs nothing of a browser but its fields; `who` is signed in. */
export const plainPage = (title: string, body: Piece, who = ""): Piece => html`<!doctype html>
<html lang="en">
  <head>
    <meta charset="utf-8" />
    <meta name="viewport" content="width=device-width, initial-scale=1" />
    <title>${title} – Fettle</title>
    <link rel="icon" href="data:," />
    <link rel="stylesheet" href="/shop.css" />
  </head>
  <body>
    <header class="top">${who === "" ? html`<span class="home">Fettle</span>` : html`<a class="home" href="/">Fettle</a><span class="spacer"></span><a class="home" href="/account">${who}</a>`}</header>
    <main class="plainpage"><h1>${title}</h1>${body}</main>
    <footer class="quiet">B+ kills. No value on this page makes anything safe to touch: measure first. Local code and licensed practice prevail.</footer>
  </body>
</html>`;

/** What went wrong or was done, where a person looks first. */
export const said = (text: string, wrong = true): Piece =>
  text === "" ? html`` : wrong ? html`<p class="warn" role="alert">${text}</p>` : html`<p role="status"><strong>${text}</strong></p>`;

/** A field with its words above it. */
export const typed = (
  label: string,
  name: string,
  more: { readonly type?: string; readonly value?: string; readonly fill?: string } = {},
): Piece =>
  html`<label class="field">${label}<input name="${name}" type="${more.type ?? "text"}" value="${more.value ?? ""}" autocomplete="${more.fill ?? "off"}" required /></label>`;

/** Fields that are sent together, with the button that sends them. */
export const sending = (to: string, button: string, fields: Piece | readonly Piece[], plain = false): Piece =>
  html`<form method="post" action="${to}">${fields}<button type="submit" class="${plain ? "plain" : ""}">${button}</button></form>`;

export const day = (iso: string): string => `${momentInWords(iso)} UTC`;
