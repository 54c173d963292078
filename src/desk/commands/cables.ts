import { cables as all } from "../../standards/cables";
import { declare, nothing } from "../declare";

export const cables = declare({
  name: "cables",
  says: "list the cable types it knows",
  example: "fettle cables",
  records: false,
  takes: nothing,
  here: nothing,
  act: async () => all,
});
