/** Warm-ups from a simulation in another language, laws more general than what is fitted here: how often the end that is told holds. */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { tellWarmUp, toComeHz } from "./warm-up";

interface Log {
  readonly id: string;
  readonly timeMin: readonly number[];
  readonly frequencyHz: readonly number[];
  readonly roomC?: readonly number[];
  readonly lineV?: readonly number[];
  readonly truth: { readonly stillToComeHz: number };
}
const { logs } = JSON.parse(readFileSync("samples/worlds/drift.json", "utf8")) as { logs: Log[] };

it("every twelfth log: an end that is told holds the truth, and a third of them have one", () => {
  let [told, held, inside] = [0, 0, 0];
  const some = logs.filter((_, i) => i % 12 === 0);
  for (const log of some) {
    const timeS = Float64Array.from(log.timeMin, (m) => 60 * m);
    const t = tellWarmUp({
      timeS,
      hz: Float64Array.from(log.frequencyHz),
      ...(log.lineV ? { lineV: Float64Array.from(log.lineV) } : {}),
      ...(log.roomC ? { roomK: Float64Array.from(log.roomC) } : {}),
    });
    const left = t.possible.map((w) => -toComeHz(w, timeS[timeS.length - 1])).sort((a, b) => a - b);
    const holds =
      left[Math.floor(0.025 * left.length)] <= log.truth.stillToComeHz && log.truth.stillToComeHz <= left[Math.floor(0.975 * left.length)];
    if (holds) inside++;
    if (t.noEnd) continue;
    told++;
    if (holds) held++;
  }
  expect(told).toBeGreaterThanOrEqual(some.length / 3);
  expect(told - held).toBeLessThanOrEqual(1);
  expect(some.length - inside).toBeLessThanOrEqual(1);
});
