import { z } from "zod";
import { backupStore } from "../../store/backup";
import { declare, field, replace, unseen } from "../declare";
import { homeGiven } from "../home-given";

/** At a terminal only, which says where the store is: the store as a whole is no page's. */
export const backup = declare({
  name: "backup",
  says: "copy the whole store, with every job and file, and check the copy; a checksum is written beside it",
  example: "fettle backup jobs-backup.db",
  records: false,
  takes: z.object({
    store: homeGiven(),
    file: field(z.string(), "<file>", "copy to write"),
    damagedToo: unseen(z.boolean(), false),
  }),
  here: z.object({ replace: replace() }),
  /** how many jobs the copy holds */
  act: ({ store, file, damagedToo }) => backupStore(store, file, damagedToo),
});
