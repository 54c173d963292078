/** A name that nobody knows is answered by one rule: all names while they are few, else the nearest three. Nobody lists them by hand. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { closest, oneOf } from "../src/units/nearest";

const sources = readdirSync("src", { recursive: true, encoding: "utf8" })
  .filter((f) => /\.tsx?$/.test(f) && !/\.(test|testdata)\.ts$/.test(f))
  .map((f) => ({ file: `src/${f}`, text: readFileSync(`src/${f}`, "utf8") }));
/** An issue of a name that is not there, with the names joined where it stands. */
const listed = /["`]no-[a-z-]+["`][^;]{0,200}?\bone of (?!its options, such as)[^;]{0,60}?\$\{[^;]{0,80}?\.join\(/g;
/** Names of a closed set that is no longer than one line, or told with more than the name: kinds of marks, bands with their labels, SCPI words. */
const told = [
  "src/standards/marks/tell-mark.ts",
  "src/desk/read-in/zero-beat.ts",
  "src/desk/read-in/beat-row.ts",
  "src/readings/scpi/commands.ts",
];

describe("a name that is not there", () => {
  it("is answered by the one rule wherever it is asked for", () => {
    const byHand = sources.filter(({ file, text }) => !told.includes(file) && text.match(listed)).map(({ file }) => file);
    expect(byHand, "use oneOf of src/units/nearest.ts").toEqual([]);
  });
  it("and what is told with more than the name is still so: the list only shrinks", () =>
    expect(told.filter((f) => !sources.find((s) => s.file === f)?.text.match(listed))).toEqual([]));
  it("names the nearest of many, and says how many there are", () => {
    const jobs = Array.from({ length: 40 }, (_, i) => `Set ${i}`).concat("Harbour radio");
    expect(closest("Harbor radio", jobs, 1)).toEqual(["Harbour radio"]);
    expect(oneOf("Harbor radio", jobs, "jobs")).toMatch(/^one of 41 jobs, such as Harbour radio or Set \d+ or Set \d+$/);
    expect(oneOf("x", ["a", "b"], "jobs")).toBe("one of the jobs a, b");
  });
});
