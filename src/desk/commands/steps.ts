import { steps as all } from "../../job/steps";
import { declare, nothing } from "../declare";

export const steps = declare({
  name: "steps",
  says: "list the steps of the job, in the order that causes least rework",
  example: "fettle steps",
  records: false,
  takes: nothing,
  here: nothing,
  act: async () => all,
});
