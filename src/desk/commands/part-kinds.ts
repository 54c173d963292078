import { z } from "zod";
import { partKinds } from "../../job/mending/kinds";
import { declare, nothing } from "../declare";

export const partKindsCommand = declare({
  name: "part-kinds",
  says: "list the kinds of part that mend knows, where each can be, and what changes in the record with it",
  example: "fettle part-kinds",
  records: false,
  takes: z.object({}),
  here: nothing,
  act: async () => partKinds,
  routes: [{ method: "GET", may: "bench", path: "/api/part-kinds", gives: (kinds) => ({ json: { kinds } }) }],
});
