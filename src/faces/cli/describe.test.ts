import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { commandLineIn } from "./command-line.testdata";

const { folder, run } = commandLineIn("cli-describe");
const file = (text: string): string => {
  const path = join(folder, "set.txt");
  writeFileSync(path, text);
  return path;
};

describe("a set described by its tubes", () => {
  it("is shown first, with what was guessed; recorded only at a yes", async () => {
    const from = file("IF 455 kc\n6SG7 6SA7 6SK7 6SK7 6SQ7 6V6 5Y3\nV3 plate 220 V 2.2k, reads 90");
    const shown = await run("describe", "Attic", "--from", from);
    expect(shown.code).toBe(0);
    for (const said of ["First IF tube", "455 kHz", "what tubes do", "strip.cans", "Nothing is recorded yet"])
      expect(shown.out).toContain(said);
    expect((await run("show", "Attic")).code).toBe(2);
    expect((await run("describe", "Attic", "--from", from, "--yes")).out).toContain('Made the job "Attic"');
    expect((await run("show", "Attic")).out).toContain("6SQ7");
    expect((await run("sheet", "volts", "Attic", "--draws", "200")).out).toContain("V3, plate is low");
  });
  it("is not recorded while a line is not understood", async () => {
    const r = await run("describe", "Cellar", "--say", "V1 6SK7 RF", "--say", "V2 6SA7 mixxer", "--yes");
    expect(r).toMatchObject({ code: 2 });
    expect(r.err).toContain('line 2: read "mixxer", expected what the tube does');
    expect((await run("jobs")).out).not.toContain("Cellar");
    const shown = await run("describe", "Cellar", "--say", "V1 6SK7 RF", "--say", "V2 6SA7 mixxer");
    expect(shown.code).toBe(2);
    expect(shown.out).toContain("Not understood:");
  });
  it("takes more rows of its chart afterwards, and nothing else", async () => {
    expect((await run("describe", "Attic", "--say", "V4 cathode 3 V 330, reads 3.1", "--yes")).out).toContain("Added to the voltage chart");
    expect((await run("sheet", "volts", "Attic", "--draws", "200")).out).toContain("V3, plate is low");
    const other = await run("describe", "Attic", "--say", "V4 6K7 IF", "--yes");
    expect(other.code).toBe(2);
    expect(other.err).toContain('fettle amend "Attic" tubes V4 type=6K7');
    expect((await run("describe", "Attic", "--say", "V14 plate 100 V", "--yes")).err).toContain("a socket of the list");
    expect((await run("describe", "Attic", "--say", "V4 pin 5 plate 100 V", "--yes")).err).toContain(
      "the cathode, which is at pin 5 of a 6SK7",
    );
  });
  it("has its guesses asked for where an answer leans on them, and no more once they were said", async () => {
    const asked = (await run("sheet", "b-plus", "Attic", "--draws", "200")).out;
    expect(asked).toContain("Guesses that this answer leans on");
    expect(asked).toContain("supplies.arrangement");
    expect(asked).not.toContain("supplies.heaters =");
    await run("set", "Attic", "supplies.arrangement=full-wave", "--why", "two plates, a tap to the chassis");
    expect((await run("sheet", "b-plus", "Attic", "--draws", "200")).out).not.toContain("leans on it");
  });
});
