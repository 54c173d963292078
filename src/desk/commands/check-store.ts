import { z } from "zod";
import { checkStore as look } from "../../store/check";
import { mendStore } from "../../store/mend";
import { declare, flag, unseen } from "../declare";

/** At a terminal only, which says where the store is: the store as a whole is no page's. */
export const checkStore = declare({
  name: "check-store",
  says: "check the whole store: the database, every job, every entry, every file; exits with 1 if anything is wrong",
  example: "fettle check-store",
  records: true,
  takes: z.object({ store: unseen(z.string(), "") }),
  here: z.object({ mend: flag("--mend", "after a backup, set aside what can't be read: nothing is deleted, and exports carry it along") }),
  act: async ({ store }) => ({ found: look(store), mended: (now: () => string) => mendStore(store, now) }),
});
