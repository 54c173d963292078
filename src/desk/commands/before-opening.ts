import { beforeOpening as page } from "../../standards/before-opening";
import { declare, nothing } from "../declare";

export const beforeOpening = declare({
  name: "before-opening",
  says: "the page to read before you open the case, and to sign for on the safety card",
  example: "fettle before-opening",
  records: false,
  takes: nothing,
  here: nothing,
  act: async () => page,
});
