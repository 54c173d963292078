/** Requests over the schema of every route of a shop's server, drawn by chance: who asks, what, and what is wrong with it. */
import type { z } from "zod";
import { commands } from "../../../src/desk/commands/index";
import { type Role, suffices } from "../../../src/desk/roles";
import * as shopSaid from "../../../src/desk/shop-said";
import { ownRoutes } from "../../../src/faces/server/shop/own-routes";
import type { Chance } from "../kit";
import { pickBy, said, schemaOf, shapeless } from "../over-schema";
import type { Wired } from "./wire";

/** So seldom is asked what takes seconds by itself: papers, and answers that are worked out. */
export const dearShare = 0.0005;
const dear =
  /\.(?:pdf|svg|csv|zip)|svg\|pdf|\/(?:worth|faults|parts|proof|sheet|sheets|ask|found-and-left|response|rehearse|known|where|describe|copy|demo|recognise|people)/;
export const host = "shop.example";
const ownSaid: Readonly<Record<string, z.ZodType>> = {
  [ownRoutes.signIn.path]: shopSaid.signInSaid,
  [ownRoutes.password.path]: shopSaid.setPasswordSaid,
  [ownRoutes.changePassword.path]: shopSaid.changePasswordSaid,
  [ownRoutes.changeAccount.path]: shopSaid.accountSaid,
  [ownRoutes.makeLink.path]: shopSaid.linkSaid,
  [ownRoutes.withdrawLink.path]: shopSaid.withdrawSaid,
  [ownRoutes.keep.path]: shopSaid.keepSaid,
  [ownRoutes.clearOut.path]: shopSaid.clearOutSaid,
};
interface Asked {
  readonly method: string;
  readonly path: string;
  readonly may: Role | "anyone";
  readonly comes: "json" | "upload" | "fields" | "query";
  readonly schema?: ReturnType<typeof schemaOf>;
}
/** Every route of the server but those that end the attackers' own sessions, the stream that never ends, and the demo, which only takes long. */
const routes: readonly Asked[] = [
  ...commands.flatMap((c) =>
    c.served.map(
      (r): Asked => ({
        ...r,
        comes: r.method === "GET" ? "query" : r.upload ? "upload" : "json",
        schema: schemaOf(c.takes),
      }),
    ),
  ),
  ...Object.values(ownRoutes).map((r): Asked => {
    const takes = ownSaid[r.path];
    const comes = r.method === "GET" ? "query" : r.path.startsWith("/api/") ? "json" : "fields";
    return { ...r, comes, ...(takes && r.method === "POST" ? { schema: schemaOf(takes) } : {}) };
  }),
].filter((r) => !/sign-out|\/api\/events|\/api\/demo/.test(r.path));
const [cheap, costly] = [routes.filter((r) => !dear.test(r.path)), routes.filter((r) => dear.test(r.path))];
export type Who = "nobody" | "planted" | "bench" | "keeper";
const roleOf: Readonly<Record<Who, Role | undefined>> = { nobody: undefined, planted: undefined, bench: "bench", keeper: "keeper" };

/** Fields as a form sends them, or as an upload does. */
const asText = (v: unknown): string => (typeof v === "string" ? v : (JSON.stringify(v) ?? ""));
const wellFormed = (text: string): string => Buffer.from(text, "utf8").toString("utf8");
function bodyOf(r: Asked, chance: Chance): readonly [type: string, body: string] {
  if (chance() < 0.04) return [pickBy(chance, ["application/json", "text/plain", "multipart/form-data", ""]), pickBy(chance, shapeless)];
  const fields = r.schema ? said(r.schema, chance) : {};
  if (r.comes === "json") return ["application/json", JSON.stringify(fields) ?? ""];
  const pairs = Object.entries(typeof fields === "object" && fields !== null ? fields : {}).map(([k, v]) => [
    wellFormed(k),
    wellFormed(asText(v)),
  ]);
  if (r.comes === "fields") return ["application/x-www-form-urlencoded", new URLSearchParams(pairs).toString()];
  const parts = [...pairs, ["file", pickBy(chance, shapeless).slice(0, 3000)]].map(
    ([k, v]) => `--x\r\nContent-Disposition: form-data; name="${k}"${k === "file" ? '; filename="a"' : ""}\r\n\r\n${v}\r\n`,
  );
  return ["multipart/form-data; boundary=x", `${parts.join("")}--x--\r\n`];
}
function pathOf(r: Asked, job: string, chance: Chance): string {
  const name = chance() < 0.95 ? job : encodeURIComponent(wellFormed(asText(said({}, chance))).slice(0, 200));
  const path = r.path
    .replace(":name", name)
    .replace(/\/:type\{.*?\}/, "/x.woff2")
    .replace(/:kind\{.*?\}/, "svg")
    .replace("/*", "/page.js")
    .replace(/:\w+/g, () => encodeURIComponent(wellFormed(asText(said({}, chance))).slice(0, 200)));
  if (r.comes !== "query" || !r.schema) return path;
  const { job: _, ...fields } = Object(said(r.schema, chance));
  const query = new URLSearchParams(Object.entries(fields).map(([k, v]) => [wellFormed(k), wellFormed(asText(v)).slice(0, 2000)]));
  return `${path}?${query}`;
}

type Headers = Readonly<Record<string, string>>;
/** Something to ask: whether it may be let in, and what it is, in words. */
export interface Drawn extends Wired {
  readonly who: Who;
  readonly letIn: boolean;
}
const whoAsks: readonly Who[] = ["nobody", "planted", "bench", "bench", "bench", "bench", "keeper", "keeper", "keeper", "keeper"];
const otherPlaces: readonly Headers[] = [{ host: "evil.example" }, { origin: "https://evil.example" }, { "sec-fetch-site": "cross-site" }];
/**
 * One request.
 *
 * @param chance what it is drawn by
 * @param job the job that it is about, mostly
 * @param cookies what each who is somebody comes with
 */
export function drawn(chance: Chance, job: string, cookies: Readonly<Record<Who, string>>): Drawn {
  const r = pickBy(chance, chance() < dearShare ? costly : cheap);
  const who = pickBy(chance, whoAsks);
  const [type, body] = bodyOf(r, chance);
  const wrongs: Headers = chance() < 0.05 ? pickBy(chance, otherPlaces) : {};
  const own: Headers = r.comes === "fields" ? { origin: `https://${host}` } : chance() < 0.97 ? { "x-fettle": "page" } : {};
  const headers: Headers = {
    ...own,
    ...(type && r.method === "POST" ? { "content-type": type } : {}),
    ...(cookies[who] ? { cookie: cookies[who] } : {}),
    ...wrongs,
  };
  const mayAsk = r.may === "anyone" || (roleOf[who] !== undefined && suffices(roleOf[who], r.may));
  return { method: r.method, path: pathOf(r, job, chance), headers, body, who, letIn: mayAsk && Object.keys(wrongs).length === 0 };
}
