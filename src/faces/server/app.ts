import { type Context, Hono } from "hono";
import { streamSSE } from "hono/streaming";
import type { Desk } from "../../desk/actions";
import { guard, pathBehind } from "./guard";
import type { Door } from "./joining/door";
import { doorRoutes } from "./joining/door-routes";
import { pageFiles } from "./page-files";
import { commandRoutes, joinedRoutes, takesUploads } from "./routes";
import { stateRoute } from "./states";

export interface Serving {
  /** a fresh stamp for each request, over one store */
  readonly desk: () => Desk;
  /** folder of the built page */
  readonly page: string;
  /** `host:port` names that this server answers to; anything else is somebody else's page */
  readonly hosts: () => readonly string[];
  /** what every address of it begins with: who doesn't know it gets nothing */
  readonly secret: string;
}

/** Tells the page whenever anything is recorded in the store, until the page is closed or may no longer see it. */
function eventsRoute(app: Hono, desk: () => Desk, may: () => boolean): void {
  app.get("/api/events", (c) => events(c, desk, async () => may()));
}
/** The stream of one page, until it is closed or may no longer see; `ended` hears of that. */
export const events = (c: Context, desk: () => Desk, may: () => Promise<boolean>, ended = (): void => undefined): Response =>
  streamSSE(c, async (stream) => {
    let last = -1;
    try {
      while (!stream.aborted && (await may())) {
        const now = await desk().store.changeCount();
        if (now !== last) await stream.writeSSE({ event: "change", data: String(now) });
        last = now;
        await stream.sleep(500);
      }
    } finally {
      ended();
    }
  });

/** The server's routes over one store. It answers this machine and the page of its own address only, and asks nothing of any other. */
export function serve({ desk, page, hosts, secret, door }: Serving & { readonly door?: Door }): Hono {
  const app = new Hono({ getPath: pathBehind(secret) });
  guard(app, { hosts, takesUploads });
  stateRoute(app, desk);
  commandRoutes(app, desk);
  eventsRoute(app, desk, () => true);
  if (door) doorRoutes(app, door);
  pageFiles(app, page, "here");
  return app;
}

/** What a device that joined is served: one job, and of it what its rights allow; every other route is refused by name. */
export function serveJoined(s: Serving & { readonly job: string; readonly may: () => boolean }): Hono {
  const app = new Hono({ getPath: pathBehind(s.secret) });
  guard(app, { hosts: s.hosts, takesUploads });
  joinedRoutes(app, s.desk, s.job);
  eventsRoute(app, s.desk, s.may);
  app.all("/api/*", (c) =>
    c.json(
      {
        issues: [
          { path: "this device", code: "not-here", read: "", expected: "Fettle's own machine for that: here you see, read and listen" },
        ],
      },
      403,
    ),
  );
  pageFiles(app, s.page, "chassis");
  return app;
}
