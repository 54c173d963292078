import { sheets as all } from "../../sheets/index";
import { declare, nothing } from "../declare";

export const sheets = declare({
  name: "sheets",
  says: "list the questions it can answer",
  example: "fettle sheets",
  records: false,
  takes: nothing,
  here: nothing,
  act: async () => all,
});
