import type { Hono } from "hono";
import { html } from "hono/html";
import { ownerRoutes } from "../routes";
import { ownRoutes } from "./own-routes";
import { day, plainPage } from "./plain-page";
import { asked, type ShopServing } from "./serving";
import { linked } from "./who-asks";

/** The owner's view: one report of one job, as the job is now. Returns the papers' addresses. */
export function ownerView(app: Hono, of: ShopServing): readonly string[] {
  const { path } = ownRoutes.view;
  app.get(path, linked(of, path), async (c) => {
    const found = await of.desk("an owner").store.load(asked.job(c));
    const last = found?.document.entries.at(-1)?.at;
    const body = html`<p>${found?.document.set.title ?? ""}</p>
      <p>What was wrong with this set, what was done, what was read before and after, how to use it, and what to watch.${last === undefined ? "" : ` Last worked on ${day(last)}.`}</p>
      <p><a class="button" href="${c.req.path.replace(/\/$/, "")}/report.pdf">Read the report (PDF)</a></p>
      <p class="warn">Reading it makes nothing safe to open. Inside, a set holds voltages that kill, for a while after it is unplugged as well: leave that to somebody trained for it.</p>
      <p class="quiet">This link is yours alone: whoever has it can read the report. It is good until ${day(asked.link(c)?.until ?? "")}.</p>`;
    return c.html(plainPage(asked.job(c), body));
  });
  const paper = "/view/:secret/report.pdf";
  return ownerRoutes(app, {
    desk: (c) => of.desk(`owner of ${asked.job(c)}`),
    first: linked(of, paper),
    job: asked.job,
  });
}
