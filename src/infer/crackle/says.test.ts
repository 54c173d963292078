import { describe, expect, it } from "vitest";
import type { BandName, CrackleTold } from "../../readings/sound/crackle";
import { type CrackleHeard, crackleSays, perMinute } from "./says";

const bursts = (
  count: number,
  secondsCount = 60,
  bands: readonly BandName[] = ["high", "middle"],
  more: Partial<CrackleTold> = {},
): CrackleTold => ({
  secondsCount,
  events: Array.from({ length: count }, (_, i) => ({ kind: "burst" as const, atS: i, bands, db: 20, lastsS: 0.02 })),
  ...more,
});
const ids = (heard: CrackleHeard) => crackleSays(heard).map((f) => f.id);

describe("crackle", () => {
  it("asks for the other recording where there is one alone, and says nothing of silence", () => {
    expect(ids({ normal: bursts(20) })).toContain("crackle-without-next");
    expect(ids({ normal: bursts(0) })).toEqual(["crackle-none"]);
    expect(perMinute(bursts(20, 30))).toBeCloseTo(40, 9);
  });
  it.each([
    [0, "crackle-antenna"],
    [18, "crackle-set"],
    [22, "crackle-set"],
    [6, "crackle-both"],
  ])("with %i of 20 left without the antenna says %s", (left, id) => {
    expect(ids({ normal: bursts(20), without: bursts(left) })).toContain(id);
    // by the minute, where the other is half as long
    expect(ids({ normal: bursts(80), without: bursts(2 * left, 30) })).toContain(id);
  });
  it("compares no handful", () => expect(ids({ normal: bursts(4), without: bursts(0) })).toContain("crackle-few"));
  it("tells by the volume control which side of it", () => {
    expect(ids({ normal: bursts(20), without: bursts(20), atZero: bursts(0) })).toContain("crackle-before-volume");
    expect(ids({ normal: bursts(20), without: bursts(20), atZero: bursts(20) })).toContain("crackle-after-volume");
  });
  it.each([
    [["low"], "crackle-low"],
    [["high", "middle"], "crackle-high"],
    [["low", "middle", "high"], "crackle-all"],
  ] as const)("bursts in %j say %s, and that the stage can't be told", (bands, id) => {
    const says = crackleSays({ normal: bursts(20, 60, bands), without: bursts(20, 60, bands) }).find((f) => f.id === id)!;
    expect(says.says).toContain("does not tell which stage");
  });
  it("tells of evenness and of jumps", () => {
    const jump = { kind: "jump" as const, atS: 1, bands: ["high"] as const, db: 6, lastsS: 0 };
    expect(ids({ normal: { secondsCount: 60, events: [jump], evenlyHz: undefined } })).toContain("crackle-jumps");
    expect(ids({ normal: bursts(20, 60, ["high"], { evenlyHz: 2.5 }) })).toContain("crackle-even");
  });
});
