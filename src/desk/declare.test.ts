import { describe, expect, it } from "vitest";
import { z } from "zod";
import { InputError } from "../units/issue";
import { type At, declare, field, nothing } from "./declare";

const never = () => Promise.reject(new Error("nobody asks it here"));
const at: At = { desk: never, errands: { run: never } };
const mended = declare({
  name: "x",
  says: "x",
  records: false,
  takes: z.object({
    rated: field(z.string().default(""), "--in-rated <volts>", "voltage rating of the new part"),
    label: field(z.string().default(""), "--label <name>", "its name on the diagram, such as C14; for a tube its socket"),
    fault: field(z.string().default(""), "--fault <id>", "the fault that it mends (fettle faults lists them)"),
  }),
  here: nothing,
  act: () =>
    Promise.reject(
      new InputError(
        ["--in-rated", "--label", "--fault", "row 3"].map((path) => ({ path, code: "not-said", read: "", expected: "another" })),
      ),
    ),
  routes: [{ method: "POST", may: "bench", path: "/x", body: "json", gives: () => ({ json: {} }) }],
});
const refused = async (work: Promise<unknown>): Promise<readonly string[]> =>
  work.then(
    () => [],
    (e: unknown) => (e instanceof InputError ? e.issues.map((i) => i.path) : [String(e)]),
  );

describe("a command that refuses what was said", () => {
  it("names the field in words to whoever has no command line", async () =>
    expect(await refused(mended.served[0].answer({}, at))).toEqual([
      "voltage rating of the new part",
      "its name on the diagram",
      "the fault that it mends",
      "row 3",
    ]));
  it("names the option at a terminal", async () =>
    expect(await refused(mended.act({ rated: "", label: "", fault: "" }, at))).toEqual(["--in-rated", "--label", "--fault", "row 3"]));
});
