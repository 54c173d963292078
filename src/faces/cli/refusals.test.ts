/** What is typed wrongly is refused by field, what was read and what was expected; what can be told from the words is taken. */
import { beforeAll, describe, expect, it } from "vitest";
import { commandLineIn } from "./command-line.testdata";

const { run } = commandLineIn("cli-refusals", { columns: 200 });
beforeAll(async () => void (await run("new", "Mill", "--pattern", "nine-tube-bandspread")), 60_000);

describe("a refusal", () => {
  it.each([
    [
      ["zero-beat", "Mill"],
      ["<reading>: nothing given", "<frequency>: nothing given", "--band: nothing given, expected band of the set"],
    ],
    [["zero-beat", "Mill", "3.5", "3500 kHz"], ["--band: nothing given"]],
    [["set", "Mill", "line.today=118 V", "--origin", "guessed"], ['--origin: read "guessed", expected one of measured, stated, assumed']],
    [
      ["sheet", "cable-load", "--tri", "x=1"],
      ['read "--tri"', "--try"],
    ],
    [["sheet", "cable-load", "--try"], ["--try: nothing given"]],
    [["jobs", "a", "b"], ['jobs: read "a b", expected nothing']],
    [["--foo"], ['fettle: read "--foo"']],
    [["new", "Mill", "--pattern", "five-tube-live"], ['name: read "Mill", expected another name']],
    [["copy", "Mill", "Mill"], ['name: read "Mill", expected another name']],
    [["sheet", "cable-load", "Mill", "--record"], ['--record: read "nothing tried"']],
    [["sheet", "cable-load", "--try", "cableLength=1 m", "--record"], ['--record: read "no job"']],
    // a bare figure: the command to type, its likeliest unit filled in
    [
      ["sheet", "cable-load", "Mill", "--try", "cableLength=90", "--record"],
      ["a unit: 90 cm or 90 ft", 'Type: fettle sheet cable-load Mill --try cableLength="90 cm" --record'],
    ],
    [
      ["sheet", "q-multiplier", "--try", "tankQ=90", "--try", "tankCapacitance=1500"],
      ["either 1500 µF or 1500 pF", 'Type: fettle sheet q-multiplier --try tankQ=90 --try tankCapacitance="1500 pF"'],
    ],
    [["set", "Mill", "strip.can1.primaryQQ=60"], ["strip.can1.primaryQ (Q of the primary alone)"]],
    [["work", "Mill", "filter-capacitor-replaced", "--now", "firstCapacitence=22 uF"], ["supplies.firstCapacitance"]],
  ])("of %s names what is wrong", async (argv, said) => {
    const r = await run(...argv);
    expect([r.code, r.out]).toEqual([2, ""]);
    for (const s of said) expect(r.err).toContain(s);
  });
  it("is what words that name no meter get, on every field for one; what names its load alone is taken", async () => {
    const odd = ["Meter=the old one", "row 1: Meter=gizmo", "Chart's meter and line=the old one, 117 V"];
    const r = await run("fill", "Mill", "voltage-chart", ...odd, "row 1: Tube=V1");
    expect(r.code).toBe(1);
    for (const at of ["Meter", "row 1, Meter", "Chart's meter and line"]) expect(r.err).toContain(`card voltage-chart, ${at}: read `);
    const said = ["Meter=50 kohm/V", "row 1: Meter=VTVM", "Chart's meter and line=117 V line"];
    expect(await run("fill", "Mill", "voltage-chart", ...said)).toMatchObject({ code: 0, err: "" });
  });
});

describe("what work changed", () => {
  it("is taken by path or by a name that one path alone has, and said with its place in the history", async () => {
    expect(await run("work", "Mill", "filter-capacitor-replaced", "--now", "firstCapacitance=22 uF")).toMatchObject({ code: 0, err: "" });
    expect((await run("show", "Mill", "--entries")).out).toContain("supplies.firstCapacitance=22 ±4 µF, stated (as it is after: Filter");
  });
});

describe("the command under an input", () => {
  it("records where the value comes from", async () => {
    await run("set", "Mill", "fittings.qm.cableLength=95 cm ±1 cm", "--origin", "measured");
    const { out } = await run("sheet", "cable-load", "Mill", "--inputs");
    expect(out).toMatch(/set Mill fittings\.qm\.cableLength="950 ±10 mm" --origin measured$/m);
    expect(out).toMatch(/set Mill \S+="[^"]+" --origin assumed$/m);
  });
});
