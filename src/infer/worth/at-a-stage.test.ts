import { describe, expect, it } from "vitest";
import { studiedStage, toldTolerances } from "../../invented/stage";
import { solveStage } from "../../physics/tube-stage";
import { usualTakes } from "../../set/addresses/minutes";
import { middle, testTakes } from "../../standards/minutes";
import { faults } from "../stage/faults";
import { rankCauses } from "../stage/rank-causes";
import { tests } from "../stage/tests";
import { mendOf, mends, type StageMinutes, worthAtStage } from "./at-a-stage";

const takes: StageMinutes = {
  test: (t) => middle(usualTakes("test", t.id).hands),
  mend: (m) => middle(usualTakes("mend", m).hands),
};
const supply = { supply: 250 };
/** What is worth doing at the studied stage with one fault of one size, read at its pins by the ranking's own law. */
const at = (id: string, size: number, made: Readonly<Record<string, number>> = {}) => {
  const volts = solveStage(faults.find((f) => f.id === id)!.apply(studiedStage, size))!;
  const evidence = { volts: { ...volts, ...supply }, meterOf: () => 1e-7, meterShare: 0.01, meterFloorV: 0.02, tests: made };
  return worthAtStage(rankCauses(studiedStage, evidence, toldTolerances)!, toldTolerances, made, takes);
};

describe("a screen that is low, by its resistor or by its bypass", () => {
  const worth = at("screen-bypass-leaky", 20e3);
  const of = (id: string) => worth.tests.find((t) => t.test.id === id)!;
  it("is a tie of two mends, and the two tests at the screen tell nearly all of it; those elsewhere tell nothing", () => {
    expect(
      worth.mends
        .slice(0, 2)
        .map((m) => m.mend)
        .sort(),
    ).toEqual(["screenBypass", "screenResistor"]);
    for (const id of ["screen-ohm", "screen-leak-ohm"]) expect(of(id).share, id).toBeGreaterThan(0.9);
    for (const id of ["cathode-ohm", "plate-ohm", "return-volts", "tester"]) expect(of(id).share, id).toBeLessThan(0.02);
  });
  it("says what the bypass's tester should read by each: next to no leak, or the leak that the volts tell of", () => {
    const reads = new Map(of("screen-leak-ohm").foretells.map((f) => [f.cause, f.reads]));
    expect(reads.get("screen-resistor-drifted")).toBeGreaterThan(1e7);
    expect(reads.get("screen-bypass-leaky")).toBeGreaterThan(14e3);
    expect(reads.get("screen-bypass-leaky")).toBeLessThan(28e3);
  });
  it("falls to one mend once its test is made", () => {
    const known = at("screen-bypass-leaky", 20e3, { "screen-ohm": 33e3 });
    expect(known.mends[0].mend).toBe("screenBypass");
    expect(known.mends[0].chance).toBeGreaterThan(0.95);
    expect(known.minutes).toBeLessThan(worth.minutes);
    expect(known.tests.some((t) => t.test.id === "screen-ohm")).toBe(false);
  });
});

describe("what mends what", () => {
  it("is known of every fault but of none at all, and takes minutes", () => {
    expect(faults.filter((f) => mendOf(f.id) === undefined).map((f) => f.id)).toEqual(["none-visible"]);
    expect([...testTakes.keys()], "in their order, as they are stored").toEqual(tests.map((t) => t.id));
    for (const m of mends) expect(takes.mend(m)).toBeGreaterThan(0);
    for (const t of tests) expect(takes.test(t)).toBeGreaterThan(0);
  });
});
