/** A sweep with somebody at the terminal: paused and gone on with by keys, ended by one, and what is urgent in a frame of capitals. */
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { type BenchFault, startSimulatedBench } from "../../instruments/simulated-bench";
import { commandLineIn } from "./command-line.testdata";

let keys: ((key: string) => void) | undefined;
const said: string[] = [];
const { folder, run } = commandLineIn("sweep-keys", {
  columns: 100,
  hands: ({ key }) => {
    keys = key;
    return () => {
      keys = undefined;
    };
  },
  err: (t) => void said.push(t),
});
const points = 21;
const asked = (at: { readonly generator: string; readonly voltmeter: string }, file: string, ...more: string[]) =>
  run(
    ...["sweep", at.generator, "--meter", at.voltmeter],
    ...`--from 455kHz --to 475kHz --points ${points} --level -60dBm --avc off --settle 0.05s --output-on`.split(" "),
    ...["-o", join(folder, file), ...more],
  );
const rows = (file: string): number =>
  existsSync(join(folder, file))
    ? readFileSync(join(folder, file), "utf8")
        .split("\n")
        .filter((l) => /^\d/.test(l)).length
    : 0;
const atLeast = (file: string, count: number) => expect.poll(() => rows(file)).toBeGreaterThanOrEqual(count);

describe("a sweep with somebody at the terminal", () => {
  it("p pauses it with the output off, any key goes on, and it comes to its end without a point twice", async () => {
    const { bench, at, close } = await startSimulatedBench({});
    said.length = 0;
    const done = asked(at, "paused.csv");
    await atLeast("paused.csv", 3);
    expect(bench.isOn).toBe(true);
    keys?.("p");
    expect(said.at(-1)).toBe("Paused after this step, with the output off. Any key goes on, q ends.");
    await expect.poll(() => bench.isOn).toBe(false);
    const before = rows("paused.csv");
    await new Promise((on) => setTimeout(on, 500));
    expect([rows("paused.csv"), bench.isOn]).toEqual([before, false]);
    keys?.(" ");
    await expect.poll(() => bench.isOn).toBe(true);
    const { code, out } = await done;
    expect(code).toBe(0);
    expect(out).toContain("paused.csv");
    const hz = readFileSync(join(folder, "paused.csv"), "utf8")
      .split("\n")
      .flatMap((l) => (/^\d/.test(l) ? [l.split(",")[0]] : []));
    expect(new Set(hz).size).toBe(hz.length);
    expect([bench.isOn, keys]).toEqual([false, undefined]);
    await close();
  });
  it("q ends it, from a pause as well, with the output off; --go-on takes it up", async () => {
    const { bench, at, close } = await startSimulatedBench({});
    const done = asked(at, "ended.csv");
    await atLeast("ended.csv", 2);
    keys?.("p");
    await expect.poll(() => bench.isOn).toBe(false);
    keys?.("q");
    const { code, out } = await done;
    expect([code, bench.isOn]).toEqual([0, false]);
    expect(out).toMatch(/\d+ points, broken off: .*ended\.csv/);
    expect(out).toContain("--go-on goes on with it.");
    const so = rows("ended.csv");
    expect(so).toBeLessThan(points);
    expect((await asked(at, "ended.csv", "--go-on")).code).toBe(0);
    expect(rows("ended.csv")).toBeGreaterThan(so);
    await close();
  });
  it.each([
    ["drop", /## THE GENERATOR'S OUTPUT MAY STILL BE ON\. TRYING AGAIN TO SWITCH IT OFF/, true],
    ["will not go off", /## THE GENERATOR'S OUTPUT MAY STILL BE ON.*SWITCH IT OFF BY HAND, NOW\./, false],
    ["gone", /## THE GENERATOR'S OUTPUT MAY STILL BE ON.*SWITCH IT OFF BY HAND, NOW\./, false],
  ] as const)(
    "%s: says in a frame of capitals that the output may be on, until the generator has said that it is off",
    async (fault, frame, ends) => {
      const { at, close } = await startSimulatedBench({ fault: fault as BenchFault, wellFor: 60 });
      said.length = 0;
      const { code } = await asked(at, `${fault.replace(/ /g, "-")}.csv`);
      expect(code).not.toBe(0);
      // an instrument that doesn't answer is no fault of Fettle's own
      expect(said.join("\n")).not.toContain("A fault in Fettle itself");
      const framed = said.findIndex((t) => frame.test(t.replace(/\n## /g, " ")));
      expect(framed).toBeGreaterThanOrEqual(0);
      expect(said[framed]).toMatch(/^#{60,}$/m);
      const off = said.indexOf("The output is off: the generator says so.");
      expect(off > framed).toBe(ends);
      await close();
    },
  );
});
