import type { Context } from "hono";
import type { Desk } from "../../../desk/actions";
import type { Account } from "../../../store/accounts/accounts";
import type { OwnerLink } from "../../../store/accounts/links";
import type { ShopKeeping } from "../../../store/accounts/shop-keeping";
import type { LogLine } from "./log";
import type { Metrics } from "./metrics";

/** What the shop's server is made of. */
export interface ShopServing {
  /** a fresh stamp for each request, by whom it is asked */
  readonly desk: (who: string) => Desk;
  readonly keeping: ShopKeeping;
  /** folder of the built page */
  readonly page: string;
  /** `host:port` names that it answers to */
  readonly hosts: () => readonly string[];
  /** the address of the network that a request comes from */
  readonly from: (c: Context) => string;
  readonly log: (line: LogLine) => void;
  readonly metrics: Metrics;
}
const held = { account: "account", route: "route", link: "link" } as const;
/** What was found out of a request, kept with it while it is answered. */
export const asked = {
  account: (c: Context): Account | undefined => c.get(held.account),
  setAccount: (c: Context, a: Account): void => c.set(held.account, a),
  route: (c: Context): string => c.get(held.route) ?? "none",
  setRoute: (c: Context, route: string): void => c.set(held.route, route),
  link: (c: Context): OwnerLink | undefined => c.get(held.link),
  setLink: (c: Context, link: OwnerLink): void => c.set(held.link, link),
  /** the job that a link is for */
  job: (c: Context): string => asked.link(c)?.job ?? "",
};
