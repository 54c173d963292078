import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { unzipSync } from "fflate";
import { beforeAll, describe, expect, it } from "vitest";
import { demoName, demoSweepCsv } from "../../desk/demo";
import { safetyIn } from "../../job/proved.testdata";
import { commandLineIn } from "./command-line.testdata";

const { folder, run } = commandLineIn("cli", { columns: 90 });
const file = (name: string, text: string | Uint8Array) => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};

describe("without a job", () => {
  it("lists sheets, patterns, works, steps, cables, jobs", async () => {
    for (const [command, word] of [
      ["sheets", "cable-load"],
      ["patterns", "five-tube-live"],
      ["works", "cable-fitted"],
      ["steps", "Final safety test"],
      ["cables", "RG-62A/U"],
      ["jobs", "No jobs yet"],
    ]) {
      const r = await run(command);
      expect(r.code).toBe(0);
      expect(r.out).toContain(word);
    }
  });
  it("answers a sheet on defaults, with the live-chassis danger first, and judges it with exit code 1", async () => {
    const r = await run("sheet", "cable-load", "--try", "cableLength=3 ft", "--draws", "200", "--judge");
    expect(r.code).toBe(1);
    expect(r.out).toContain("Stop: nobody has proved this chassis isolated");
    expect(r.out).toContain("tried here: cableLength");
    expect(r.out).toMatch(/DANGER {2}Whether the chassis/);
  });
  it("prints JSON in the shape of the contract", async () => {
    const r = await run("sheet", "dc-block", "--json", "--draws", "200", "--try", "chassis=isolated");
    const a = JSON.parse(r.out);
    expect(Object.keys(a)).toEqual(
      expect.arrayContaining(["sheet", "version", "seed", "draws", "inputs", "results", "curves", "tables", "findings", "cautions"]),
    );
    expect(a.results.noLoadBPlus).toMatchObject({ unit: "V", origin: "computed", weakest: "tried" });
    expect(a.inputs.cableLength).toMatchObject({ value: 1, unit: "m", origin: "assumed" });
  });
  it("lists inputs with unit, origin and how each is measured; prints the theory", async () => {
    expect((await run("sheet", "q-multiplier", "--inputs")).out).toMatch(/tankQ = 130 ±20 {2}\(assumed\)\s+Q of the tank/);
    expect((await run("sheet", "q-multiplier", "--theory")).out).toContain("## Worked example");
  });
  it("takes a cable by its type and an input by its other name", async () => {
    const a = JSON.parse(
      (await run("sheet", "cable-load", "--try", "cableType=RG-59B/U", "--try", "primaryCapacitance=130 pF", "--json", "--draws", "200"))
        .out,
    );
    expect(a.inputs.cableCapacitancePerLength).toMatchObject({ origin: "stated" });
    expect(a.inputs.cableCapacitancePerLength.value * 0.3048e12).toBeCloseTo(21, 9);
    expect(a.inputs["strip.can1.primaryCapacitance"]).toMatchObject({ value: 130e-12, origin: "tried" });
  });
  it.each([
    [["sheet", "cable-load", "--try", "cableLength=3 kHz"], "cableLength"],
    [["sheet", "cable-load", "--try", "cableLength"], "--try"],
    [["sheet", "cable-load", "--try", "cabelLength=3 ft"], "cableLength"],
    [["sheet", "if-respons"], "such as if-response"],
    [["sheet", "dc-block", "--draws", "many"], "whole number"],
    [["sheet", "dc-block", "nobody"], "fettle new"],
    [["new", "x", "--pattern", "nope"], "nine-tube-bandspread"],
    [["new", "../x", "--pattern", "five-tube-live"], "a name that begins with a letter"],
    [["next", "nobody"], "nobody"],
    [["import", "/nowhere.zip"], "no such file"],
    [["frobnicate"], "a command, such as"],
  ])("%s is refused with exit code 2 and says what was expected", async (argv, said) => {
    const r = await run(...argv);
    expect(r.code).toBe(2);
    expect(r.err).toContain(said);
  });
  it("counts every assumed input of an answer, as its own list of them does", async () => {
    const listed = (await run("sheet", "band-edge", "--inputs")).out.match(/\(assumed\)/g)!.length;
    const said = /(\d+) inputs are assumed/.exec((await run("sheet", "band-edge")).out.replace(/\s+/g, " "))!;
    expect(Number(said[1])).toBe(listed);
    expect(listed).toBeGreaterThan(15);
  });
  it("has help with an example on every command", async () => {
    for (const c of [
      "sheet",
      "read",
      "work",
      "next",
      "report",
      "export",
      "import",
      "new",
      "set",
      "done",
      "correct",
      "instrument",
      "demo",
    ]) {
      const r = await run(c, "--help");
      expect(r.code).toBe(0);
      expect(r.out).toContain("Example:");
    }
  });
});

describe("the main job", () => {
  const sweep = file("sweep.csv", demoSweepCsv());
  beforeAll(async () => void (await run("new", "Bench set", "--pattern", "nine-tube-bandspread")));
  it("states and measures values of the set", async () => {
    expect(
      (
        await run(
          "set",
          "Bench set",
          "strip.intermediateFrequency=465 kHz ±0.5 kHz",
          "line.today=121 V",
          "--origin",
          "measured",
          "--why",
          "counter and meter",
        )
      ).code,
    ).toBe(0);
    expect((await run("set", "Bench set", "line.colour=red")).err).toContain("a path that a question reads");
    expect((await run("set", "Bench set", "chassis.state=isolated")).err).toContain("the act that proves it");
    expect((await run("set", "Bench set", "fittings.qm.cableLength=5 ft")).code).toBe(0);
  });
  it("reads a sweep, fits the strip, and shows what the sweep can't tell", async () => {
    const dry = await run("read", "Bench set", sweep, "--as", "if-sweep", "--state", "as-found", "--dry-run");
    expect(dry.out).toContain("Nothing was recorded");
    const r = await run("read", "Bench set", sweep, "--as", "if-sweep", "--state", "as-found", "--line", "121 V");
    expect(r.code).toBe(0);
    expect(r.out).toContain("can't be told apart");
    const a = JSON.parse((await run("sheet", "if-response", "Bench set", "--json", "--draws", "300")).out);
    expect(a.inputs["strip.can1.coupling"].origin).toBe("fitted");
    expect(Math.abs(a.results.width6dB.value - 6012)).toBeLessThan(80);
    expect(a.results.width6dB.high - a.results.width6dB.low).toBeLessThan(250);
  });
  it("refuses damaged sweeps with the line, and records nothing of them", async () => {
    const before = (await run("show", "Bench set", "--entries")).out;
    for (const [name, text, said] of [
      ["bad.csv", "kHz,dB\n450,1\n451,x\n452,1\n453,1\n454,1\n", "line 3"],
      ["empty.csv", "", "nothing"],
      ["bin.csv", Uint8Array.of(0, 1, 2, 3), "a text file"],
      ["twice.csv", "kHz,dB\n450,1\n450,1\n452,1\n453,1\n454,1\n", "each frequency once"],
    ] as const) {
      const r = await run("read", "Bench set", file(name, text), "--as", "sweep", "--state", "as-found");
      expect(r.code, name).toBe(2);
      expect(r.err).toContain(said);
    }
    expect((await run("show", "Bench set", "--entries")).out).toBe(before);
  });
  it("proves the chassis by what was measured, said twice, and by nothing less", async () => {
    const ohms = ["--ohms", "22 Mohm", "--meter", "insulation tester", "--how", "each blade to chassis, switch on"];
    expect((await run("sheet", "cable-load", "Bench set", "--draws", "200")).out).toContain(
      "Stop: nobody has proved this chassis isolated",
    );
    expect((await run("chassis", "Bench set", "isolated")).err).toMatch(/ohms[\s\S]*meter[\s\S]*how[\s\S]*confirm/);
    expect((await run("chassis", "Bench set", "isolated", ...ohms)).err).toContain('"isolated" said once more');
    expect((await run("chassis", "Bench set", "isolated", ...ohms, "--ohms", "0 ohm", "--confirm", "isolated")).err).toContain(
      "at least 2 MΩ",
    );
    expect((await run("chassis", "Bench set", "isolated", ...ohms, "--confirm", "isolated")).code).toBe(0);
    expect((await run("sheet", "cable-load", "Bench set", "--draws", "200")).out).not.toContain("Stop:");
    expect((await run("before-opening")).out).toMatch(/asbestos[\s\S]*isolation transformer|isolation transformer[\s\S]*asbestos/i);
  });
  it("takes no safety step as done before its record holds, and names what is missing", async () => {
    const refused = (await run("done", "Bench set", "03")).err;
    for (const field of ["Page before opening read, signed", "Fuse rating and type", "Insulation line to chassis, MΩ", "Date and sign"])
      expect(refused).toContain(field);
    const write = (card: string, fields: Readonly<Record<string, string>>) =>
      run("fill", "Bench set", card, ...Object.entries(fields).map(([k, v]) => `${k}=${v}`));
    expect((await write("safety-in", { ...safetyIn, "Insulation line to chassis, MΩ": "0.5" })).code).toBe(0);
    expect((await run("done", "Bench set", "02")).code).toBe(0);
    expect((await run("done", "Bench set", "03")).err).toMatch(/Insulation line to chassis, MΩ: read "0.5", expected at least 2 MΩ/);
    await write("safety-in", safetyIn);
    for (const step of ["03", "04"]) expect((await run("done", "Bench set", step)).code).toBe(0);
    expect((await run("done", "Bench set", "36")).err).toContain("step 35");
  });
  it("records work, asks for what it changed, and says what comes next with its cautions", async () => {
    const dry = await run("work", "Bench set", "cable-fitted", "--dry-run");
    expect(dry.out).toContain("Re-peak the first can");
    expect(dry.out).toContain("length of the cable as fitted");
    expect((await run("work", "Bench set", "cable-fitted")).err).toContain("fittings.qm.cableLength");
    const r = await run("work", "Bench set", "cable-fitted", "--note", "through the back", "--now", "fittings.qm.cableLength=5 ft");
    expect(r.out.indexOf("Final safety test")).toBeGreaterThan(0);
    const next = JSON.parse((await run("next", "Bench set", "--json")).out).steps.map((i: { step: string }) => i.step);
    expect(next.slice(0, 2)).toEqual(["01", "05"]);
    expect(next.slice(-2)).toEqual(["35", "36"]);
    expect((await run("next", "Bench set")).out).toMatch(/! Unplug it, discharge it, MEASURE before you touch[\s\S]* 2\. Capacitors/);
  });
  it("says danger before it lists what work on a live set disturbs, and takes no proof out of its order", async () => {
    await run("new", "Live set", "--pattern", "five-tube-live");
    expect((await run("done", "Live set", "08")).err).toMatch(/First prove step 02/);
    expect((await run("sheet", "cable-load", "Live set", "--try", "chassis=isolated")).err).toContain("never tried");
    const r = await run("work", "Live set", "converter-fitted");
    expect(r.out.indexOf("DANGER")).toBe(0);
    expect(r.out.toLowerCase().indexOf("unplug")).toBeGreaterThan(0);
    expect((await run("done", "Live set", "35")).err).toContain("First prove");
  });
  it("takes back a reading with the fit that was made of it, and refuses values out of range with the file as it was", async () => {
    await run("new", "Undone", "--pattern", "nine-tube-bandspread");
    await run("set", "Undone", "strip.intermediateFrequency=465 kHz");
    await run("read", "Undone", file("u.csv", demoSweepCsv()), "--as", "if-sweep", "--state", "as-found");
    const entries = async () => (await run("show", "Undone", "--entries")).out;
    const id = /^ {2}(\S+) .* reading /m.exec(await entries())![1];
    const said = (await run("correct", "Undone", id, "--why", "another set's sweep")).out;
    expect(said.match(/Superseded/g)).toHaveLength(3);
    const before = await entries();
    for (const [text, word] of [
      ["line.voltage=-50 V", "above 0"],
      ["line.voltage=12000 V", "at most 300 V"],
      ["supplies.secondaryVoltage=9 kV", "at most 1500 V"],
      ["strip.can1.primaryQ=-3", "above 0"],
      ["fittings.qm.cableLength=1.5M", "small m"],
    ])
      expect((await run("set", "Undone", text)).err).toContain(word);
    expect(await entries()).toBe(before);
    expect((await run("done", "Undone", "3")).err).toContain("03, Isolation");
    expect((await run("read", "Undone", join(folder, "none.csv"), "--as", "sweep", "--state", "as-left")).err).toContain("no such file");
  });
  it("corrects an entry, proves a step, registers an instrument that a reading may name", async () => {
    const id = /^ {2}(\S+) .* values /m.exec((await run("show", "Bench set", "--entries")).out)![1];
    expect((await run("correct", "Bench set", id, "--why", "mistyped")).code).toBe(0);
    expect((await run("show", "Bench set", "--entries")).out).toContain("superseded");
    expect((await run("done", "Bench set", "16", "--note", "half a millimetre")).out).toContain("is proved");
    expect((await run("read", "Bench set", sweep, "--as", "sweep", "--state", "as-left", "--instrument", "gen")).err).toContain(
      "fettle instrument",
    );
    await run("instrument", "Bench set", "gen", "--kind", "generator");
    expect((await run("read", "Bench set", sweep, "--as", "sweep", "--state", "as-left", "--instrument", "gen")).code).toBe(0);
    expect((await run("show", "Bench set")).out).toContain("Readings");
  });
  it("exports, imports back equal, and refuses an unwritable file", async () => {
    const zip = join(folder, "j.zip");
    expect((await run("export", "Bench set", zip)).code).toBe(0);
    expect((await run("import", zip)).err).toContain("there is already a job with that name");
    expect((await run("import", zip, "--name", "Copy")).code).toBe(0);
    const again = join(folder, "k.zip");
    await run("export", "Copy", again);
    const entriesIn = (path: string) =>
      JSON.parse(Buffer.from(unzipSync(readFileSync(path))["job.json"]).toString()).entries.map(
        ({ broughtIn: _, ...e }: { broughtIn?: unknown }) => e,
      );
    expect(entriesIn(again)).toEqual(entriesIn(zip));
    expect((await run("show", "Copy", "--entries")).out).toContain("brought in");
    expect((await run("export", "Bench set", join(folder, "no", "such", "folder.zip"))).err).toContain("can be written");
  });
  it("writes the same report twice, byte for byte, with text that can be selected and fonts inside", async () => {
    const [one, two] = [join(folder, "1.pdf"), join(folder, "2.pdf")];
    expect((await run("report", "Bench set", "-o", one)).code).toBe(0);
    await run("report", "Bench set", "-o", two);
    const bytes = readFileSync(one);
    expect(readFileSync(two).equals(bytes)).toBe(true);
    expect(bytes.subarray(0, 5).toString()).toBe("%PDF-");
    expect(bytes.includes("/FontFile2")).toBe(true);
    expect(bytes.includes("/ToUnicode")).toBe(true);
  });
});

describe("the demo", () => {
  it("does the main job from end to end", async () => {
    const r = await run("demo", "--folder", join(folder, "demo"));
    expect(r.code).toBe(0);
    for (const said of [
      "An invented scenario",
      "Strip fitted",
      "What the IF passes",
      "Keeping B+ off a connector",
      "A cable on the mixer plate",
      "A Q multiplier on this strip",
      "Re-peak the first can",
      "report.pdf",
    ])
      expect(r.out).toContain(said);
    // every question of the demo is answered of its set: none of its readings went astray
    expect(r.out).not.toMatch(/Not enough recorded|EXAMPLE/);
    expect(readFileSync(join(folder, "demo", "report.pdf")).length).toBeGreaterThan(50_000);
    expect((await run("jobs")).out).toContain(demoName);
  });
});
