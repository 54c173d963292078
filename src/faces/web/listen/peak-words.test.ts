/** What the ear may have instead of the eye: a pitch that rises with the level, and the level as it is spoken. */
import { describe, expect, it } from "vitest";
import type { TopNow } from "../../../readings/sound/top";
import { levelText, pitchHz, spokenLevel } from "./peak-words";

const top = (underDb: number): TopNow => ({
  underDb,
  bestDb: -20,
  bestAtS: 1,
  slopeDbPerS: 0,
  trend: "steady",
  place: "at the top",
  scatterDb: 0,
});

describe("the rising tone", () => {
  it.each([
    [0, 880],
    [-6, 440],
    [-12, 220],
    [-18, 110],
    [-60, 110],
    [3, 880 * Math.SQRT2],
  ])("at %f dB is %f Hz: an octave for 6 dB, the top at the best, and never below what is heard", (db, hz) => {
    expect(pitchHz(top(db))).toBeCloseTo(hz, 6);
  });
});
describe("the spoken level", () => {
  it.each([
    [{ db: 0, digits: 1 }, "best", "0.0"],
    [{ db: -0.04, digits: 1 }, "best", "0.0"],
    [{ db: -6, digits: 1 }, "minus 6", "−6.0"],
    [{ db: -2.5, digits: 1 }, "minus 2.5", "−2.5"],
    [{ db: 1, digits: 0 }, "plus 1", "+1"],
  ] as const)("%j is said %s and shown %s", (shown, says, text) => {
    expect(spokenLevel(shown)).toBe(says);
    expect(levelText(shown)).toBe(text);
  });
  it("is silent before there is one", () => expect(spokenLevel(undefined)).toBe(""));
});
