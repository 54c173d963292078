import { z } from "zod";
import { setUpHome } from "../../store/upgrade";
import { declare, field, nothing } from "../declare";
import { homeGiven } from "../home-given";

/** At a terminal only, which says where the store is, by the account that owns the database. */
export const setUpStore = declare({
  name: "set-up-store",
  says: "make a shop's tables, owned by the account that asks, and let a server's account read them and add to them; it can't alter them, nor change or remove an entry or a row of the trail",
  example: "fettle set-up-store fettle",
  records: true,
  takes: z.object({
    store: homeGiven(),
    server: field(z.string(), "<account>", "account of the database that the server comes in by"),
  }),
  here: nothing,
  act: ({ store, server }) => setUpHome(store, server),
});
