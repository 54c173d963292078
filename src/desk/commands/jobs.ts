import { z } from "zod";
import { declare, nothing, unseen } from "../declare";

/** a page of the list; the search finds the others */
const mostListed = 60;

export const jobs = declare({
  name: "jobs",
  says: "list the jobs in the store",
  example: "fettle jobs",
  records: false,
  takes: z.object({ search: unseen(z.string().default(""), ""), asPage: unseen(z.boolean().default(true), false) }),
  here: nothing,
  act: ({ search, asPage }, { desk }) => desk((d) => (asPage ? d.store.list(search, mostListed) : d.store.list(search))),
  routes: [{ method: "GET", may: "bench", path: "/api/jobs", gives: (list) => ({ json: list }) }],
});
