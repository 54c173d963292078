import { z } from "zod";
import { backupStore } from "../../store/backup";
import { upgradeHome } from "../../store/upgrade";
import { declare, field, nothing } from "../declare";
import { homeGiven } from "../home-given";

/** At a terminal only, which says where the store is: the store as a whole is no page's. */
export const upgradeStore = declare({
  name: "upgrade-store",
  says: "bring a shop's database up to date for everybody, after a backup; a store in a file needs no such thing",
  example: "fettle upgrade-store before-upgrade.db",
  records: true,
  takes: z.object({ store: homeGiven(), file: field(z.string(), "<file>", "backup to write first") }),
  here: nothing,
  act: async ({ store, file }) => ({ jobsCount: await backupStore(store, file), upgrade: () => upgradeHome(store) }),
});
