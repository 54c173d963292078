import { expect, it } from "vitest";
import { meanAndDeviation } from "./mean";
import { hashOf, normalStream, uniformStream } from "./random";

// Source: FNV-1a 32-bit test vectors of the authors' reference code: "" 811c9dc5, "a" e40c292c, "foobar" bf9cf968 (from memory).
it("hashes as FNV-1a does", () => {
  expect(hashOf("").toString(16)).toBe("811c9dc5");
  expect(hashOf("a").toString(16)).toBe("e40c292c");
  expect(hashOf("foobar").toString(16)).toBe("bf9cf968");
});
it("nests: the first 200 of 2,000 are the 200, and names do not share a stream", () => {
  expect(normalStream(7, "strip.can1.primaryQ", 2000).slice(0, 200)).toEqual(normalStream(7, "strip.can1.primaryQ", 200));
  expect(uniformStream(7, "a", 5)).not.toEqual(uniformStream(7, "b", 5));
});
it("gives mean 0 and deviation 1, and streams do not correlate", () => {
  const a = normalStream(1, "one", 100_000);
  const b = normalStream(1, "two", 100_000);
  const { mean, deviation } = meanAndDeviation(a);
  expect(Math.abs(mean)).toBeLessThan(0.01);
  expect(Math.abs(deviation - 1)).toBeLessThan(0.01);
  expect(Math.abs(a.reduce((s, x, i) => s + x * b[i], 0) / a.length)).toBeLessThan(0.01);
});
