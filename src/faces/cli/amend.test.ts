import { beforeAll, describe, expect, it } from "vitest";
import { commandLineIn } from "./command-line.testdata";

const { run } = commandLineIn("cli-amend");
const shown = async () => (await run("show", "Loft")).out;

describe("a description corrected", () => {
  beforeAll(
    async () => void (await run("describe", "Loft", "--say", "6SG7 6SA7 6SK7 6SK7 6SQ7 6V6 5Y3", "--say", "V4 cathode 3 V 330", "--yes")),
  );
  it("shows what hangs on a tube, and puts it at the stage of its new duty", async () => {
    const dry = await run("amend", "Loft", "tubes", "V4", "type=6K7", "--dry-run");
    expect(dry.out).toContain("was type 6SK7, function IF, stage if2; is type 6K7");
    expect(dry.out).toContain("rows of its charts: 1");
    expect(dry.out).toContain("No step you have begun rests on it");
    expect(await shown()).not.toContain("6K7");
    expect((await run("amend", "Loft", "tubes", "V8", "type=6J5", "function=BFO")).err).toBe("");
    expect((await run("amend", "Loft", "tubes", "V2", "function=mixer", "--why", "it has an oscillator of its own")).code).toBe(0);
    expect((await run("amend", "Loft", "tubes", "V9", "type=6J5", "function=oscillator")).out).toContain("stage oscillator");
    expect(await shown()).toMatch(/V9\s+6J5, oscillator/);
  });
  it("makes due again what was begun and rests on it, and is taken back whole", async () => {
    await run("work", "Loft", "if-aligned");
    const before = await shown();
    const dry = await run("amend", "Loft", "cans", "can4", "--dry-run");
    expect(dry.out).toMatch(/20\s+IF alignment\s+the strip was worked out with other cans/);
    expect((await run("amend", "Loft", "cans", "can4")).code).toBe(0);
    expect(await shown()).toMatch(/stages\.can4/);
    const inputs = (await run("sheet", "if-response", "Loft", "--inputs")).out;
    expect(inputs).toContain("strip.can4.primaryQ");
    await run("undo", "Loft");
    expect(await shown()).toBe(before);
  });
  it("adds, changes and takes out a band", async () => {
    expect((await run("amend", "Loft", "bands", "z", "range=7 - 7.3 MHz spread")).code).toBe(0);
    expect(await shown()).toContain("7 - 7.3 MHz bandspread");
    expect((await run("amend", "Loft", "bands", "z", "label=40 m bandspread")).code).toBe(0);
    expect((await run("amend", "Loft", "bands", "z", "--out")).code).toBe(0);
    expect(await shown()).not.toContain("40 m bandspread");
  });
  it.each([
    [["valves", "V4", "type=6K7"], "one of stages, tubes, bands"],
    [["tubes", "V4", "colour=red"], "one of type, function, stage"],
    [["tubes", "V4", "function=mixxer"], "what the tube does, such as mixer"],
    [["tubes", "V4", "stage=nowhere"], "at something that the set has"],
    [["stages", "if2", "--out"], "tubes V4 at if2"],
    [["stages", "new", "kind=valve"], "kind"],
    [["bands", "y", "label=40 m"], "bands y"],
    [["cans", "can9"], "can1 to can3"],
    [["nodes", "b2", "volts=many"], "volts"],
  ])("refuses %j, and leaves the job as it was", async (words, said) => {
    const before = await shown();
    const r = await run("amend", "Loft", ...words);
    expect(r).toMatchObject({ code: 2 });
    expect(r.err).toContain(said);
    expect(await shown()).toBe(before);
  });
});
