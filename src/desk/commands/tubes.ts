import { converterPoints, diodePairs, tubePoints } from "../../standards/receiving-tubes";
import { rectifiers } from "../../standards/rectifiers";
import { declare, nothing } from "../declare";

export const tubes = declare({
  name: "tubes",
  says: "list the tubes and rectifiers it knows, and where each one's data come from",
  example: "fettle tubes",
  records: false,
  takes: nothing,
  here: nothing,
  act: async () => ({ tubePoints, converterPoints, diodePairs, rectifiers }),
});
