/** The worker that listens: how often it tells, in blocks of sound, whatever the clock on the wall does. */
import { afterEach, describe, expect, it, vi } from "vitest";
import { afresh } from "../../../numerics/afresh.testdata";
import type { LiveFor } from "../../../readings/sound/live";
import type { FromEar, ToEar } from "./messages";

/** Blocks of a stream, and after which of them the worker told. */
async function toldAfter(what: LiveFor, blocks: number): Promise<readonly number[]> {
  const said: number[] = [];
  let at = 0;
  const self: { onmessage?: (e: { data: ToEar }) => void; postMessage: (m: FromEar) => void } = {
    postMessage: (m) => void (m.is === "news" && said.push(at)),
  };
  vi.stubGlobal("self", self);
  await afresh(new URL("./ear-worker.ts", import.meta.url));
  const { port1, port2 } = new MessageChannel();
  self.onmessage?.({
    data: { is: "begin", ask: { sampleRateHz: 48_000, for: what, clock: 0, begun: "2026-01-01 00:00:00" }, port: port1 },
  });
  const x = Float32Array.from({ length: 128 }, (_, i) => 0.1 * Math.sin((2 * Math.PI * 1000 * i) / 48_000));
  for (at = 1; at <= blocks; at++) port1.onmessage?.(new MessageEvent("message", { data: [x, x] }));
  port1.close();
  port2.close();
  return said;
}
afterEach(() => vi.unstubAllGlobals());

describe("the worker tells", () => {
  it("a level with every second block of 2.7 ms: two hundred times a second or a little less", async () => {
    expect(await toldAfter({ what: "peak", of: "tone" }, 20)).toEqual([2, 4, 6, 8, 10, 12, 14, 16, 18, 20]);
  });
  it("a note's track with every thirty-eighth, ten times a second", async () => {
    expect(await toldAfter({ what: "note", everyS: 1, range: { fromHz: 20, toHz: 5000 } }, 120)).toEqual([38, 76, 114]);
  });
});
