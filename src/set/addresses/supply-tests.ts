import { supplyTestTakes } from "../../standards/minutes";
import { addresses, list } from "./declare";

export const supplyTests = addresses("supplies", {
  tests: list(
    {
      test: { options: [...supplyTestTakes.keys()], meaning: "which test" },
      ohm: { dimension: "resistance", meaning: "ohms found, of a test that reads ohms", optional: true },
      volts: { dimension: "voltage", bare: "V", meaning: "volts found, of a test that reads volts", optional: true },
      farad: { dimension: "capacitance", meaning: "capacitance found", optional: true },
      part: { dimension: "ratio", meaning: "1 for silicon in the rectifier's place, 0 for the tube", optional: true },
    },
    "tests made at the supply beyond B+, with the power off or the meter clipped on; gone once a part of the supply was changed",
    "as the sheet on B+ asks for them",
    20,
  ),
});
