/** Sums over columns two at a time (WebAssembly) against the same in plain arithmetic: they differ by the order of the sums alone. */
import { afterEach, describe, expect, it, vi } from "vitest";
import { afresh } from "./afresh.testdata";
import { normalStream } from "./random";
import { firstOrderShares } from "./shares";
import { roomFor, wide } from "./vectors";

afterEach(() => vi.unstubAllGlobals());
describe("sums over columns", () => {
  it.each([8, 64, 2000, 10_000])("are those of plain arithmetic, %i long", (n) => {
    const [x, y] = ["x", "y"].map((k) => normalStream(3, k, n));
    const [got, want] = [false, true].map((plain) => {
      const room = roomFor(2 * n, plain);
      room.numbers.set(x, 0);
      room.numbers.set(y, n);
      const before = room.dot(0, n, n);
      room.subtract(0, n, 0.3, n);
      return { before, after: room.dot(0, n, n), first: [...room.numbers.subarray(0, n)] };
    });
    expect(n % wide).toBe(0);
    expect(Math.abs(got.before - want.before)).toBeLessThan(1e-15 * n);
    expect(Math.abs(got.after - want.after)).toBeLessThan(1e-15 * n);
    expect(got.first).toEqual(want.first);
  });
  it("are zero in a room that was in use before", () => {
    roomFor(64).numbers.fill(7);
    expect(roomFor(64).dot(0, 32, 32)).toBe(0);
  });
  it("give the same shares where WebAssembly is absent", async () => {
    const [x, z] = ["x", "z"].map((k) => normalStream(5, k, 2001));
    const results = [x.map((v, i) => v ** 3 + z[i]), x.map((v, i) => (i % 7 ? v + z[i] : Number.NaN))];
    const want = firstOrderShares([[x], [z], [x, z]], results);
    vi.stubGlobal("WebAssembly", undefined);
    const again = await afresh<typeof import("./shares")>(new URL("./shares.ts", import.meta.url));
    const got = again.firstOrderShares([[x], [z], [x, z]], results);
    for (const [i, shares] of got.entries()) for (const [k, s] of shares.entries()) expect(s).toBeCloseTo(want[i][k], 12);
  });
});
