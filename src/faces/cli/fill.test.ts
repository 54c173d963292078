import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { commandLineIn } from "./command-line.testdata";

const { folder, run } = commandLineIn("cli-fill");
const file = (name: string, text: string): string => {
  writeFileSync(join(folder, name), text);
  return join(folder, name);
};
beforeAll(async () => {
  await run("new", "Mill", "--pattern", "nine-tube-bandspread");
});

describe("a card from the command line", () => {
  it("keeps what can be read, names what can't, and says by its exit code that something is missing", async () => {
    const first = file("first.csv", "Tube,Measured V\nV1,190\nV2,many\nV3,88");
    const r = await run("fill", "Mill", "voltage-chart", "--rows", first);
    expect(r.code).toBe(1);
    expect(r.err).toContain('card voltage-chart, row 2, Measured V: read "many", expected a voltage such as');
    expect(r.err).toContain("Kept 5, not kept 1");
  });
  it("says how many rows are replaced by how many, and what fell can still be read", async () => {
    const r = await run("fill", "Mill", "voltage-chart", "--rows", file("second.csv", "Tube,Measured V\nV1,191"));
    expect(r).toMatchObject({ code: 0, err: "" });
    expect(r.out).toContain("3 rows of its table replaced by 1.");
    const lines = (await run("show", "Mill", "--entries")).out;
    expect(lines).toMatch(/superseded in part/);
    expect(lines).toMatch(/row 3: Measured V\s+"88"/);
  });
  it("alone is told what it holds: unit, how it is measured, what stands", async () => {
    const r = await run("fill", "Mill", "voltage-chart");
    expect(r.code).toBe(0);
    expect(r.out).toMatch(/row 1: Measured V +V +meter clipped on/);
    expect(r.out).toContain("On the card: 191");
    expect(r.out.split("\n").length).toBeGreaterThan(13);
    // what is only words says so once
    const intake = (await run("fill", "Mill", "intake")).out.split("\n").filter((l) => l.includes("words"));
    expect(intake.length).toBeGreaterThan(5);
    expect(intake.filter((l) => !/\S {2,}in words$/.test(l) || /words.*words/.test(l))).toEqual([]);
  });
});
it("lists the fields of a new job's description without a name", async () => {
  expect(await run("new", "--fields")).toMatchObject({ code: 0, out: expect.stringContaining("lineVoltage") });
  expect(await run("new", "--pattern", "nine-tube-bandspread")).toMatchObject({
    code: 2,
    err: expect.stringContaining("a name for the job"),
  });
});
it("says of a copy that it proves nothing", async () => {
  expect((await run("copy", "Mill", "Mill again")).out).toContain("proves nothing about safety here");
  expect((await run("show", "Mill again")).out.replace(/\s+/g, " ")).toContain('Copied from the job "Mill"');
});
