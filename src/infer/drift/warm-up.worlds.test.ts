/** Warm-ups from a simulation in another language, laws more general than what is fitted here: how often the end that is told holds. */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { normalStream } from "../../numerics/random";
import { tellWarmUp } from "./tell-warm-up";
import { toComeHz } from "./warm-up";

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

it("a power-law tail after 100 minutes: an end that is told holds what is still to come, however slow", () => {
  // invented: 6.3 kHz in all as (1 + t / 10.7 min)^-1.3, read each minute to 3 Hz
  const noise = normalStream(7, "tail", 99);
  const leftHz = (minute: number): number => 6343 * (1 + minute / 10.65) ** -1.311;
  const timeS = Float64Array.from({ length: 99 }, (_, i) => 60 * (i + 1));
  const t = tellWarmUp({ timeS, hz: timeS.map((s, i) => 7e6 - leftHz(s / 60) + 3.1 * noise[i]) });
  const left = t.possible.map((w) => -toComeHz(w, timeS[98])).sort((a, b) => a - b);
  expect(left[Math.floor(0.025 * left.length)]).toBeLessThan(leftHz(99));
  expect(left[Math.floor(0.975 * left.length)]).toBeGreaterThan(leftHz(99));
});
