/** Whatever a question asks for and a job stores is recorded by the very command that `--inputs` prints under it. */
import { beforeAll, describe, expect, it } from "vitest";
import { sheets } from "../../sheets/index";
import { commandLineIn } from "./command-line.testdata";

const { run } = commandLineIn("cli-recorded", { columns: 200 });
/** Words of a command as a shell would take them. */
const words = (line: string): string[] =>
  [...line.matchAll(/(?:[^\s"]|"(?:[^"\\]|\\.)*")+/g)].map((m) =>
    m[0].replace(/"((?:[^"\\]|\\.)*)"/g, (_, t: string) => t.replace(/\\(.)/g, "$1")),
  );
beforeAll(async () => {
  expect(await run("new", "Mill", "--pattern", "nine-tube-bandspread")).toMatchObject({ code: 0 });
});

/** Commands that were run: many questions ask for the same address, and print the same command under it. */
const ran = new Set<string>();

describe("every input that a job stores", () => {
  it.each(sheets.map((s) => s.id))("of %s is recorded by the command that is printed under it", async (id) => {
    const listed = await run("sheet", id, "Mill", "--inputs");
    expect(listed.err).toBe("");
    const commands = listed.out.split("\n").flatMap((l) => (/^ {4}fettle set /.test(l) ? [words(l.trim()).slice(1)] : []));
    expect(commands.length).toBeGreaterThan(0);
    const given = commands.filter((c) => !/=(?:VALUE|ROW; ROW)$/.test(c[2]));
    for (const c of given.filter((c) => !ran.has(c.join(" ")))) {
      expect(await run(...c), c.join(" ")).toMatchObject({ code: 0, err: "" });
      ran.add(c.join(" "));
    }
  });
  it("is listed even where the question refuses one of them", async () => {
    const refused = ["sheet", "converter-setting", "Mill", "--try", "crystal=0"];
    expect((await run(...refused)).err).toContain("the frequency that is marked on the converter's crystal");
    expect((await run(...refused, "--inputs")).out).toContain("crystal = 0 Hz");
  });
  it("is kept by --record as it was tried, and answered with from then on", async () => {
    const tried = ["--try", "turns=31", "--try", "diameter=19 mm"];
    expect(await run("sheet", "coil", "Mill", ...tried, "--record", "--origin", "measured", "--why", "calipers")).toMatchObject({
      code: 0,
    });
    const { inputs } = JSON.parse((await run("sheet", "coil", "Mill", "--json")).out);
    expect(inputs.turns).toMatchObject({ value: 31, origin: "measured" });
    expect(inputs.diameter.value).toBeCloseTo(0.019, 9);
    expect(await run("sheet", "coil", "--try", "turns=31", "--record")).toMatchObject({ code: 2 });
    const live = await run("sheet", "safety", "Mill", "--try", "chassis=live", "--record");
    expect(live.err).toContain("the act that proves it");
  });
});
