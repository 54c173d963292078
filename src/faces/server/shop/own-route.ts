import type { Context, Handler, Hono } from "hono";
import { tell } from "../../../desk/tell";
import type { OwnRoute } from "./own-routes";
import type { ShopServing } from "./serving";
import { may } from "./who-asks";

/** Adds a route of the server's own, asked of whoever may. */
export function own(app: Hono, of: ShopServing, route: OwnRoute, answer: Handler): void {
  app.on(route.method, route.path, may(of, route), answer);
}

/** Does what fields of a page ask; what is wrong with them is shown on that page. */
export async function orShown(
  work: () => Promise<Response>,
  show: (words: string, status: 400 | 409 | 429 | 503) => Response | Promise<Response>,
): Promise<Response> {
  try {
    return await work();
  } catch (e) {
    const told = tell(e);
    if (told.kind === "defect" || told.kind === "machine") throw e;
    return show(told.issues.map((i) => `Not done. Wanted: ${i.expected}.`).join(" "), told.kind === "store" ? 409 : 400);
  }
}
/** Says when to try again, in words and for programs. */
export function tooOften(c: Context, minutes: number): string {
  c.header("retry-after", String(minutes * 60));
  return `Too many tries. Try again in ${minutes} min.`;
}
