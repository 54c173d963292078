import type { Hono, MiddlewareHandler } from "hono";
import { z } from "zod";
import type { Desk } from "../../desk/actions";
import { checked } from "../../desk/declare";
import type { JobDocument } from "../../job/document";
import { stepCounts } from "../../job/open-steps";
import { viewOf } from "../../job/view";
import { orThrow } from "../../units/issue";
import { readJson } from "../../units/json";

const mostRemembered = 2000;
const statesBody = z.object({ names: z.array(z.string()).max(1000) });

/** A job's state in a few words, for the list. */
function stateInWords(document: JobDocument | undefined): string {
  if (!document) return "";
  const { proved, due, all } = stepCounts(viewOf(document));
  return due > 0 ? `${due} due again, ${proved} proven` : proved === all ? "all proven" : `${proved} of ${all} proven`;
}

const anybody: MiddlewareHandler = (_, next) => next();
/** The route that says how the jobs of a list stand: it remembers them from one asking to the next, as no command does. `first` may refuse. */
export function stateRoute(app: Hono, desk: () => Pick<Desk, "store">, first = anybody): void {
  const states = new Map<string, { readonly revision: number; readonly state: string }>();
  app.post("/api/states", first, async (c) => {
    const { names } = checked(statesBody, orThrow(readJson(await c.req.text(), "body")));
    const { store } = desk();
    const out: Record<string, string> = {};
    for (const name of names) {
      // a list that is being searched has its turn between two jobs, and drops what it no longer shows
      await new Promise((r) => setImmediate(r));
      if (c.req.raw.signal.aborted) break;
      const revision = await store.revision(name);
      const known = states.get(name);
      const state = known && known.revision === revision ? known.state : stateInWords((await store.load(name))?.document);
      out[name] = state;
      // only jobs that are there are remembered, and of them no more than a few pages of the list
      states.delete(name);
      if (revision === undefined) continue;
      states.set(name, { revision, state });
      if (states.size > mostRemembered) states.delete(states.keys().next().value ?? "");
    }
    return c.json(out);
  });
  // another job may take the name of one that is erased
  app.use("/api/jobs/:name/erase", async (c, next) => {
    await next();
    states.delete(c.req.param("name"));
  });
}
