import { Hono, type MiddlewareHandler } from "hono";
import type { Served } from "../../../desk/declare";
import { tell } from "../../../desk/tell";
import { events } from "../app";
import { guard, inJson } from "../guard";
import { pageFile } from "../page-files";
import { signedInRoutes, takesUploads } from "../routes";
import { stateRoute } from "../states";
import { own } from "./own-route";
import { ownRoutes } from "./own-routes";
import { ownerView } from "./owner-view";
import { peopleRoutes } from "./people";
import { asked, type ShopServing } from "./serving";
import { accountRoutes, signInRoutes } from "./sign-in";
import { may, tokenOf } from "./who-asks";

const entrances = ["/", ownRoutes.signInPage.path, ownRoutes.passwordPage.path];
const isEntrance = (path: string): boolean => entrances.includes(path) || /^\/view\/[\w-]+$/.test(path);
const fieldsSentTo: readonly string[] = Object.values(ownRoutes).flatMap((r) =>
  r.method === "POST" && !r.path.startsWith("/api/") ? [r.path] : [],
);

/** Every answer in the log and in the counts, by the pattern of its route. */
const counted =
  ({ log, metrics, from, desk }: ShopServing): MiddlewareHandler =>
  async (c, next) => {
    const began = performance.now();
    await next();
    const [route, ms, who] = [asked.route(c), performance.now() - began, asked.account(c)?.name];
    const { at } = desk("").stamp;
    metrics.answered(route, c.res.status, ms / 1000);
    log({ event: "request", at, route, status: c.res.status, ms: Math.round(ms), from: from(c), ...(who === undefined ? {} : { who }) });
    if (c.error && tell(c.error).kind === "defect") log({ event: "defect", at, route, kind: c.error.name });
  };
/** What only a keeper may do to a job is told to the trail before it is done, and when it is refused. */
const toldOf = ({ keeping }: ShopServing, route: Served, command: string): MiddlewareHandler => {
  const asks = may({ keeping }, route);
  if (route.may !== "keeper" || route.method === "GET") return asks;
  return (c, next) =>
    asks(c, async () => {
      const told = { who: asked.account(c)?.name ?? "", about: c.req.param("name") ?? "" };
      await keeping.audit.tell({ ...told, what: `${command} asked for` });
      await next();
      if (c.res.status >= 400) await keeping.audit.tell({ ...told, what: `${command} refused` });
    });
};
const soon = <T>(work: Promise<T>, within: number): Promise<T | undefined> =>
  Promise.race([work, new Promise<undefined>((done) => setTimeout(() => done(undefined), within).unref())]);
/** Whether the store answers. */
export const storeAnswers = ({ desk }: Pick<ShopServing, "desk">): Promise<boolean> =>
  soon(
    desk("")
      .store.changeCount()
      .then(
        () => true,
        () => false,
      ),
    3000,
  ).then((is) => is === true);

/**
 * The server of a shop: every route asks who one is, but for those that say that anyone may ask them. Whoever has not signed in gets the page to sign in, and
 * nothing else of it.
 */
export function serveShop(of: ShopServing): Hono {
  const app = new Hono();
  app.use("*", counted(of));
  guard(app, { hosts: of.hosts, takesUploads, plain: { isEntrance, takesFields: (path) => fieldsSentTo.includes(path) } });
  const desk = (who: string) => of.desk(who);
  own(app, of, ownRoutes.health, async (c) =>
    (await storeAnswers(of)) ? c.json({ status: "ok" }) : c.json({ status: "store away" }, 503),
  );
  signInRoutes(app, of);
  accountRoutes(app, of);
  peopleRoutes(app, of);
  ownerView(app, of);
  stateRoute(app, () => desk(""), may(of, ownRoutes.states));
  signedInRoutes(
    app,
    (c) => desk(asked.account(c)?.name ?? ""),
    (route, command) => toldOf(of, route, command),
  );
  own(app, of, ownRoutes.events, (c) => {
    const token = tokenOf(c) ?? "";
    of.metrics.listening(1);
    return events(
      c,
      () => desk(""),
      async () => (await of.keeping.sessions.of(token, false)) !== undefined,
      () => of.metrics.listening(-1),
    );
  });
  for (const route of [ownRoutes.style, ownRoutes.type]) own(app, of, route, (c) => pageFile(c, of.page, ""));
  own(app, of, ownRoutes.page, (c) => pageFile(c, of.page, ` data-who="${asked.account(c)?.name ?? ""}"`));
  app.all("*", may(of, { ...ownRoutes.page }), (c) =>
    inJson(c, { issues: [{ path: "address", code: "not-here", read: "", expected: "an address of this page" }] }, 404),
  );
  return app;
}
