import type { Method } from "../../../desk/declare";
import type { Role } from "../../../desk/roles";

/** A route of the shop's server that is no command's. Like a command's it says who may ask it, at least; anyone is who has not said who he is. */
export interface OwnRoute {
  readonly method: Method;
  readonly path: string;
  readonly may: Role | "anyone";
  readonly says: string;
}
const route = (method: Method, path: string, may: OwnRoute["may"], says: string): OwnRoute => ({ method, path, may, says });

/** All of them; a test holds that the server has no other. */
export const ownRoutes = {
  health: route("GET", "/health", "anyone", "whether the server and its store answer, and nothing else"),
  signInPage: route("GET", "/sign-in", "anyone", "the page to sign in"),
  signIn: route("POST", "/sign-in", "anyone", "sign in"),
  passwordPage: route("GET", "/password", "anyone", "the page to set a password by a code"),
  password: route("POST", "/password", "anyone", "set a password by a code"),
  style: route("GET", "/shop.css", "anyone", "how those pages look"),
  type: route("GET", "/:type{[\\w-]+\\.woff2}", "anyone", "their type"),
  view: route("GET", "/view/:secret", "owner", "the owner's view of one job"),
  events: route("GET", "/api/events", "bench", "tell a page that something was recorded"),
  states: route("POST", "/api/states", "bench", "how the jobs of a list stand"),
  account: route("GET", "/account", "bench", "one's own account"),
  changePassword: route("POST", "/account/password", "bench", "change one's own password"),
  signOut: route("POST", "/account/sign-out", "bench", "sign out"),
  signOutEverywhere: route("POST", "/account/sign-out-everywhere", "bench", "sign out wherever one is signed in"),
  people: route("GET", "/people", "keeper", "the keeper's page: accounts, owners' links, what was done"),
  changeAccount: route("POST", "/people/account", "keeper", "make an account or change one"),
  makeLink: route("POST", "/people/link", "keeper", "make an owner's link"),
  withdrawLink: route("POST", "/people/withdraw", "keeper", "withdraw an owner's link"),
  keep: route("POST", "/people/keep", "keeper", "say how long something is kept"),
  clearOut: route("POST", "/people/clear-out", "keeper", "remove for good what was listed as past its time"),
  page: route("GET", "/*", "bench", "the page itself"),
} as const satisfies Readonly<Record<string, OwnRoute>>;
