import { z } from "zod";
import { declare, field, nothing } from "../declare";
import { sayClearedOut, sayListed } from "../keep-for";

export const clearOut = declare({
  name: "clear-out",
  says: "list what has been kept as long as fettle keep-for says; once confirmed by the digits of that list, remove it for good",
  example: "fettle clear-out",
  records: true,
  takes: z.object({
    confirm: field(
      z.string().max(20).optional(),
      "--confirm <digits>",
      "the digits that the list ended with; it is only listed if not given",
    ),
  }),
  here: nothing,
  act: ({ confirm }, { desk }) =>
    desk(async (d) => {
      const kept = d.store.retention();
      return confirm === undefined ? sayListed(await kept.list()) : sayClearedOut(await kept.clearOut(confirm, d.stamp.who));
    }),
  routes: [{ method: "POST", may: "keeper", path: "/api/clear-out", body: "json", gives: (says) => ({ json: { says } }) }],
});
