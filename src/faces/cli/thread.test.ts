/** What a practitioner says by the command line comes back to him: his own words, the sitting as it stands, a value that will not do. */
import { expect, it } from "vitest";
import { commandLineIn } from "./command-line.testdata";

const { run } = commandLineIn("cli-thread", { columns: 2000 });
const job = "Mill";
const ok = async (...argv: string[]): Promise<string> => {
  const r = await run(...argv);
  expect(r, r.err).toMatchObject({ code: 0 });
  return r.out;
};
const chart = [
  "Chart's meter and line=20 kΩ/V, 117 V",
  "Line volts=117",
  "Meter=20 kΩ/V",
  ...["plate 225 2200 222", "screen 100 30k 31", "cathode 1.05 68 0.4"].flatMap((row, i) => {
    const [electrode, volts, ohms, measured] = row.split(" ");
    const cells = { Tube: "V3", Electrode: electrode, "Chart V": volts, "Part Ω if known": ohms, "Measured V": measured };
    return Object.entries(cells).map(([column, text]) => `row ${i + 1}: ${column}=${text}`);
  }),
];

it("a sitting is said as it stands, with what was carried on, and its line is in volts", async () => {
  await ok("new", job, "--pattern", "nine-tube-bandspread");
  const first = await ok("sitting", job, "--initials", "JM", "--meter", "20 kohm/V", "--grid-meter", "11 Mohm", "--line", "121");
  expect(first).toContain("JM sits down");
  expect(first).toContain("20 kohm/V, grids by 11 Mohm, line 121 V");
  expect(await ok("sitting", job, "--thermal", "warm")).toContain('JM sits down at "Mill": 20 kohm/V, grids by 11 Mohm, warm');
  expect((await run("sitting", job, "--line", "121 ohm")).code).toBe(2);
});
it("what will not do as proof is said as it is written, and so is a reading off its chart", async () => {
  const said = await ok(
    "fill",
    job,
    "safety-in",
    "Page before opening read, signed=JM",
    "Insulation line to chassis, MΩ=0.4",
    "Bond, Ω=0.05",
  );
  expect(said).toMatch(/signed: JM, does not do: expected the day and who signs/);
  expect(said).toMatch(/Insulation line to chassis, MΩ: 0.4, does not do: expected at least 2 MΩ/);
  expect(said).not.toContain("Bond");
  expect(await ok("fill", job, "voltage-chart", ...chart)).toMatch(/row 2: Measured V: 31, low: this meter should read/);
});
it("every word that is said of a fault is told again, each once, with the reading that shows it", async () => {
  const [place] = /^stages\.\w+/m.exec(await ok("faults", job)) ?? [""];
  const said: Readonly<Record<string, readonly string[]>> = {
    notice: ["--words", "weak when warm"],
    trace: ["--words", "screen tried with the can shorted"],
    cause: ["--cause", "screen resistor drifted", "--words", "84 kilohm, one lead lifted"],
    leave: ["--words", "owner wants it back on Friday"],
  };
  for (const [act, words] of Object.entries(said)) await ok("fault", job, act, place, ...words);
  const told = await ok("faults", job);
  for (const text of [
    ...Object.values(said)
      .flat()
      .filter((w) => !w.startsWith("--")),
    "V3, screen is low: 31 V",
  ]) {
    const times = told.split(text).length - 1;
    // a cause is told of the fault and at the act that found it
    expect(times, text).toBe(text === "screen resistor drifted" ? 2 : 1);
  }
});
it("a symptom with no place is of the whole set, one on record is not noticed twice, and nothing said is refused", async () => {
  await ok("fault", job, "notice", "--words", "hum on one band");
  const [id] = /^f\d+-\w+/m.exec(await ok("faults", job)) ?? [""];
  expect(await ok("faults", job)).toMatch(new RegExp(`${id} {2}The whole set: noticed`, "i"));
  expect((await run("fault", job, "notice", id, "--words", "louder")).err).toContain("trace, to add what you see");
  expect((await run("fault", job, "notice")).err).toContain("what you see, hear or smell");
});
