import { z } from "zod";
import { restoreStore } from "../../store/restore";
import { declare, field, nothing } from "../declare";
import { homeGiven } from "../home-given";

/** At a terminal only, which says where the store is: the store as a whole is no page's. */
export const restore = declare({
  name: "restore",
  says: "bring in every job of a backup, or of any store, all of them or none; each is compared by its checksum",
  example: "fettle restore jobs-backup.db",
  records: true,
  takes: z.object({ store: homeGiven(), file: field(z.string(), "<file>", "the backup; it stays as it is") }),
  here: nothing,
  act: ({ store, file }) => restoreStore(store, file),
});
