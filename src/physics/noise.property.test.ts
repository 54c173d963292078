/** Laws and limiting cases. */
import { describe, expect, it } from "vitest";
import { cascadeFactor, dbOf, gainForLoss, ratioOf } from "./noise";

const stage = (nfDb: number, gainDb: number) => ({ factor: ratioOf(nfDb), gain: ratioOf(gainDb) });

describe("stages in a row", () => {
  it("limits: a pad before a receiver adds its loss to the decibel, a large gain leaves the first stage alone", () => {
    expect(dbOf(cascadeFactor([stage(3, -3), stage(6.5, 10)]))).toBeCloseTo(9.5, 9);
    expect(cascadeFactor([stage(2, 90), stage(30, 0)])).toBeCloseTo(ratioOf(2), 5);
  });
});

describe("against external noise", () => {
  it("says so where its own noise spends the loss already", () => {
    expect(gainForLoss(ratioOf(12.2), ratioOf(6), ratioOf(15), 0.5)).toBeUndefined();
  });
});
