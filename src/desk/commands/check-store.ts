import { z } from "zod";
import { checkHome } from "../../store/check-home";
import { mendHome } from "../../store/mend";
import { declare, flag } from "../declare";
import { homeGiven } from "../home-given";

/** At a terminal only, which says where the store is: the store as a whole is no page's. */
export const checkStore = declare({
  name: "check-store",
  says: "check the whole store: the database, every job, every entry, every file; exits with 1 if anything is wrong",
  example: "fettle check-store",
  records: true,
  takes: z.object({ store: homeGiven() }),
  here: z.object({ mend: flag("--mend", "after a backup, set aside what can't be read: nothing is deleted, and exports carry it along") }),
  act: async ({ store }) => ({ found: await checkHome(store), mended: (now: () => string) => mendHome(store, now) }),
});
