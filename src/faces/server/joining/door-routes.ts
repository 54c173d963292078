import type { Hono } from "hono";
import { checked } from "../../../desk/declare";
import { awaySaid, codeSaid } from "../../../desk/join-said";
import { orThrow } from "../../../units/issue";
import { readJson } from "../../../units/json";
import type { Door } from "./door";

/** What this machine's own page may do at the door: have a code made, see who is joined, send one away. No joined device has these routes. */
export function doorRoutes(app: Hono, door: Door): void {
  app.get("/api/joined", (c) => c.json(door.state()));
  app.post("/api/joined/code", async (c) => {
    const { job, address } = checked(codeSaid, orThrow(readJson(await c.req.text(), "body")));
    return c.json(await door.open(job, address));
  });
  app.post("/api/joined/away", async (c) => {
    const { id } = checked(awaySaid, orThrow(readJson(await c.req.text(), "body")));
    return c.json(await door.sendAway(id));
  });
}
