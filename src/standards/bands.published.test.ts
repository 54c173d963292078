import { expect, it } from "vitest";
import { bandOver, bandsOf, licences } from "./bands";

/** Edges as regulation texts have them: 47 CFR 97.301 (limits) and 97.305(c) (emissions), text current through 31 May 2024; ITU Radio Regulations 5.142 and the IARU Region 1 page. */
it.each([
  ["ITU Region 1", 3500, 3800],
  ["ITU Region 1", 7000, 7200],
  ["ITU Region 2", 7000, 7300],
  ["ITU Region 2", 3500, 4000],
  ["ITU Region 3", 3500, 3900],
  ["US Part 97, CW", 3500, 4000],
  ["US Part 97, phone", 3600, 4000],
  ["US Part 97, data", 7000, 7125],
  ["US Part 97, phone", 14150, 14350],
  ["US Part 97, phone", 21200, 21450],
] as const)("%s has %f to %f kHz", (licence, low, high) => {
  const b = bandOver(licence, low * 1e3, high * 1e3)!;
  expect([b.lowHz, b.highHz]).toEqual([low * 1e3, high * 1e3]);
});
it("is in order, without overlaps, and names a source for each row", () => {
  for (const l of licences) {
    const bands = bandsOf(l);
    for (const [i, b] of bands.entries()) {
      expect(b.highHz).toBeGreaterThan(b.lowHz);
      expect(b.source.length).toBeGreaterThan(10);
      if (i > 0) expect(b.lowHz).toBeGreaterThan(bands[i - 1].highHz);
    }
  }
  expect(bandOver("ITU Region 1", 5.9e6, 6.2e6)).toBeUndefined();
});
