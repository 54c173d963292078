import { beforeAll, describe, expect, it } from "vitest";
import { historyKinds } from "../../job/history/kinds";
import { stepById } from "../../job/steps";
import { historyNames } from "../../set/addresses/history";
import { addressAt } from "../../set/addresses/index";
import { sheets } from "../../sheets/index";
import { commandLineIn } from "./command-line.testdata";

const { run } = commandLineIn("cli-history", { columns: 200 });
const asked = async (sheet: string) => JSON.parse((await run("sheet", sheet, "Barn", "--json", "--draws", "300")).out);
const width = (a: { results: Record<string, { low: number; high: number }> }, name: string) => a.results[name].high - a.results[name].low;
interface Told {
  readonly name: string;
  readonly word: string;
  readonly words: string;
  readonly next?: { readonly path?: string; readonly step?: string };
  readonly cautions: readonly { readonly says: string }[];
}
const past = async (name: string): Promise<Told> =>
  JSON.parse((await run("history", "Barn", "--json")).out).find((p: Told) => p.name === name);

describe("what others did", () => {
  it("leads by each of its rows to a step, a path and a question that there are", () => {
    for (const name of historyNames)
      for (const l of historyKinds[name].leads) {
        expect(l.path ?? l.step, `${name}: ${l.says}`).toBeDefined();
        if (l.step !== undefined) expect(stepById(l.step), l.step).toBeDefined();
        if (l.path !== undefined) expect(addressAt(l.path), l.path).toBeDefined();
        if (l.sheet !== undefined) expect(sheets.map((s) => s.id)).toContain(l.sheet);
      }
  });
  it("does what is dead before what is live, of each", () => {
    for (const name of historyNames) {
      const states = historyKinds[name].leads.filter((l) => l.step !== "35").map((l) => l.state);
      const live = states.indexOf("open-live");
      if (live >= 0 && name !== "capacitorsReplaced") expect(states.slice(live), name).not.toContain("open-dead");
    }
  });
});
describe("a set with a past", () => {
  beforeAll(async () => void (await run("describe", "Barn", "--say", "6SG7 6SA7 6SK7 6SK7 6SQ7 6V6 5Y3", "--say", "IF 455 kHz", "--yes")));
  it("asks what is known, and refuses what is no word for it", async () => {
    expect((await run("history", "Barn")).out).toContain("Not known yet. Ask the owner; look, with the set unplugged");
    expect(await run("history", "Barn", "slugsTurned=maybe")).toMatchObject({ code: 2 });
    expect((await run("history", "Barn", "slugsTurnt=seen")).err).toContain("slugsTurned");
    expect((await run("fill", "Barn", "history", "row 1: Seen, told or not so=perhaps")).err).toContain(
      "one of unknown, seen, told, not so",
    );
  });
  it("takes what was seen or told with its words, and shows the measurements in order with their cautions", async () => {
    const before = await asked("if-response");
    const supply = await asked("b-plus");
    expect(before.inputs.slugsTouched.value).toBe("perhaps");
    const r = await run(
      "history",
      "Barn",
      "rectifierChanged=seen: two diodes under the socket",
      "slugsTurned=told",
      "shieldsMissing=not so",
    );
    expect(r.code).toBe(0);
    expect(r.out).toMatch(/1\.\s+\[open, dead\] which rectifier is there now/);
    expect(r.out).toContain("Checked, and not so: shields missing");
    const rectifier = await past("rectifierChanged");
    expect(rectifier).toMatchObject({ word: "seen", words: "two diodes under the socket", next: { path: "supplies.rectifierType" } });
    expect(rectifier.cautions.map((c) => c.says).join(" ")).toMatch(/unplug.*MEASURE/s);
    // what is in doubt by it is wider than it was
    const after = await asked("if-response");
    expect(after.inputs.slugsTouched.value).toBe("yes");
    expect(width(after, "centre")).toBeGreaterThan(2 * width(before, "centre"));
    expect((await run("sheet", "b-plus", "Barn", "--draws", "300")).out).toMatch(
      /supplies\.rectifierType = 5Y3GT or 80 .*with silicon about/,
    );
    await run("history", "Barn", "transformerReplaced=told: by the last owner");
    expect(width(await asked("b-plus"), "bPlusFirst")).toBeGreaterThan(1.5 * width(supply, "bPlusFirst"));
  });
  it("stands in what is next, in where things stand, and on its card", async () => {
    expect((await run("next", "Barn", "--all")).out).toContain(
      "Others: rectifier changed from what the set was made for (seen: two diodes under the socket)",
    );
    const where = (await run("where", "Barn")).out;
    expect(where).toContain("From its past, not settled: rectifier changed");
    expect(where).toContain("no power except behind a bulb");
    expect((await run("fill", "Barn", "history", "row 4: Seen, told or not so=seen", "row 4: In words=foil")).code).toBe(0);
    expect(await past("fuseBridged")).toMatchObject({ word: "seen", words: "foil", next: { step: "03" } });
  });
  it("goes on to the next measurement as each is recorded; what was measured is not widened again", async () => {
    await run("set", "Barn", "supplies.rectifierType=silicon", "--origin", "measured");
    expect(await past("rectifierChanged")).toMatchObject({ next: { path: "supplies.addedResistance" } });
    expect((await run("sheet", "b-plus", "Barn", "--draws", "300")).out).not.toContain("supplies.rectifierType =");
    await run("set", "Barn", "supplies.addedResistance=100 ohm", "--origin", "measured");
    expect(await past("rectifierChanged")).toMatchObject({ next: { step: "04" } });
    await run("set", "Barn", "supplies.secondaryVoltage=285 V ±3 V", "--origin", "measured");
    await run("history", "Barn", "transformerOverheated=seen");
    expect((await asked("b-plus")).inputs.secondaryVoltage).toMatchObject({ value: 285, origin: "measured" });
  });
  it("is taken back like anything that was said", async () => {
    await run("history", "Barn", "slugsTurned=not so: wax whole");
    expect((await asked("if-response")).inputs.slugsTouched.value).toBe("not");
    await run("undo", "Barn");
    expect((await asked("if-response")).inputs.slugsTouched.value).toBe("yes");
  });
});
