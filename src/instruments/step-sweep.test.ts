import { afterEach, describe, expect, it } from "vitest";
import { generator as generatorKind, voltmeter as voltmeterKind } from "../readings/scpi/commands";
import { planSteps, type SteppedPlan, type SteppedSaid } from "../readings/stepped/plan";
import type { SteppedPoint } from "../readings/stepped/table";
import { orThrow } from "../units/issue";
import { Generator } from "./generator";
import { Instrument } from "./instrument";
import { type BenchSaid, type SimulatedBench, startSimulatedBench } from "./simulated-bench";
import { type StepsBeside, stepSweep } from "./step-sweep";
import { overTcp, readAddress } from "./tcp";

const said: SteppedSaid = {
  fromHz: 455e3,
  toHz: 475e3,
  pointsCount: 21,
  levelDbm: -60,
  mostDbm: -20,
  settleS: 0.04,
  readingsCount: 4,
  holds: "level",
  avc: "off",
  narrowestHz: 2000,
  betweenPointsDb: 0.05,
};
const plan = (more: Partial<SteppedSaid> = {}): SteppedPlan => orThrow(planSteps({ ...said, ...more }));
let bench: SimulatedBench | undefined;
afterEach(async () => {
  await bench?.close();
  bench = undefined;
});

/** A sweep of the simulated bench, with what a person was told meanwhile. */
async function swept(
  what: BenchSaid,
  of: SteppedPlan,
  more: Partial<StepsBeside> & { done?: readonly SteppedPoint[]; patienceMs?: number } = {},
) {
  bench = await startSimulatedBench(what);
  const notices: string[] = [];
  const patienceMs = more.patienceMs ?? 4000;
  const lead = (at: string) => overTcp(orThrow(readAddress(at, "at")), patienceMs);
  const by = {
    generator: new Generator(
      new Instrument(lead(bench.at.generator), "generator", generatorKind.standard, patienceMs),
      of.mostDbm,
      { mayBeOn: (t) => void notices.push(t), isOff: () => void notices.push("off") },
      20,
    ),
    voltmeter: new Instrument(lead(bench.at.voltmeter), "voltmeter", voltmeterKind.standard, patienceMs),
    reads: "acVolts" as const,
  };
  const points: SteppedPoint[] = [];
  const run = stepSweep(of, by, more.done ?? [], { point: (p) => void points.push(p), ...more });
  const out = await run.then(
    (value) => ({ value, error: undefined }),
    (error: unknown) => ({ value: undefined, error: error instanceof Error ? error.message : String(error) }),
  );
  return { bench, points, notices, ...out };
}
const errorsDb = (b: SimulatedBench, points: readonly SteppedPoint[]) => {
  const top = points.reduce((best, p) => (p.levelDb > best.levelDb ? p : best));
  const offset = top.levelDb - b.bench.gainDb(top.frequencyHz);
  return points.map((p) => ({ p, off: p.levelDb - offset - b.bench.gainDb(p.frequencyHz) }));
};

describe("a stepped sweep", () => {
  it("with the level held finds the set's own curve, each level within its interval, and leaves the output off", async () => {
    const r = await swept({}, plan());
    expect(r.value).toMatchObject({ broken: false, isOff: true });
    const own = errorsDb(r.bench, r.value!.points);
    expect(own.length + r.value!.missed.length).toBe(21);
    expect(own.length).toBeGreaterThan(12);
    // two uncertainties meet, that of the top and that of the point; 3 of them for 21 at once
    for (const { p, off } of own) expect(Math.abs(off), `${p.frequencyHz} Hz`).toBeLessThan(3 * Math.hypot(p.uDb, 0.05));
    expect(Math.max(...own.map(({ p }) => p.uDb))).toBeLessThan(1.5);
    expect([r.bench.bench.isOn, r.notices.at(-1)]).toEqual([false, "off"]);
    for (const m of r.value!.missed) expect(m.why).toContain("hum and noise");
  });
  it("with the output held, its AVC on, finds the same curve", async () => {
    const r = await swept(
      { receiver: { avc: "on", scatter: 0.0005 } },
      plan({ holds: "output", avc: "on", pointsCount: 9, settleS: 0.04 }),
    );
    expect(r.value?.isOff).toBe(true);
    const own = errorsDb(r.bench, r.value!.points);
    expect(own.length).toBeGreaterThanOrEqual(7);
    for (const { p, off } of own) expect(Math.abs(off), `${p.frequencyHz} Hz`).toBeLessThan(3 * Math.hypot(p.uDb, 0.15));
    for (const p of r.value!.points) expect(p.generatorDbm).toBeLessThanOrEqual(-20);
  });
  it("says how far down it can tell where the generator may go no higher", async () => {
    const r = await swept({}, plan({ holds: "output", mostDbm: -55, pointsCount: 5 }));
    expect(r.value!.missed.map((m) => m.why)).toContain("more than 5.0 dB down: the generator may go no higher");
    for (const line of r.bench.told.filter((t) => t.startsWith("POW"))) expect(Number(/-?[\d.]+/.exec(line)?.[0])).toBeLessThanOrEqual(-55);
  });
  it("takes answers that come in two pieces", async () => {
    const r = await swept({ fault: "split lines" }, plan({ pointsCount: 5 }));
    expect(r.value?.isOff).toBe(true);
    expect(r.points.length).toBeGreaterThan(2);
  });
  it.each([
    ["slow", /voltmeter: no answer to .* in 0\.2 s/],
    ["garbage", /voltmeter: /],
    ["overload", /overloaded at 3 steps in a row/],
  ] as const)("%s: tells it plainly, with the output confirmed off", async (fault, says) => {
    const r = await swept({ fault, wellFor: 40 }, plan(), { patienceMs: 200 });
    expect(r.error).toMatch(says);
    expect([r.bench.bench.isOn, r.notices.at(-1)]).toEqual([false, "off"]);
  });
  it("a link that drops: reaches the generator again and switches it off; says meanwhile that it may be on", async () => {
    const r = await swept({ fault: "drop", wellFor: 60 }, plan(), { patienceMs: 300 });
    expect(r.error).toMatch(/generator: the link was lost/);
    expect(r.notices).toEqual(["off", expect.stringContaining("may still be on. Trying again"), "off"]);
    expect([r.bench.told.filter((t) => t === "OUTP OFF").length, r.bench.bench.isOn]).toEqual([2, false]);
    expect(r.points.length).toBeGreaterThan(3);
  });
  it("a link that is gone: the output is never called off, and the person is told to do it by hand", async () => {
    const r = await swept({ fault: "gone", wellFor: 60 }, plan(), { patienceMs: 300 });
    expect(r.error).toMatch(/the link was lost/);
    expect(r.notices.slice(1)).not.toContain("off");
    expect(r.notices).toHaveLength(6);
    expect(r.notices.at(-1)).toContain("Switch it off by hand, now.");
  });
  it("an output that will not go off is never called off", async () => {
    const r = await swept({ fault: "will not go off" }, plan({ pointsCount: 5 }));
    expect(r.value?.isOff).toBe(false);
    expect(r.notices.slice(1)).not.toContain("off");
    expect(r.notices.at(-1)).toContain("Switch it off by hand, now.");
  });
  it("ended by the person keeps what it has; gone on with, it steps only what is missing", async () => {
    const stop = new AbortController();
    const first = await swept({}, plan(), { signal: stop.signal, point: (_, done) => done === 9 && stop.abort() });
    expect(first.value).toMatchObject({ broken: true, isOff: true });
    expect(first.value!.points.length).toBeLessThan(12);
    await first.bench.close();
    const done = first.value!.points;
    const second = await swept({}, plan(), { done });
    const stepped = second.bench.told.filter((t) => t.startsWith("FREQ")).length;
    expect(stepped).toBe(21 - done.length);
    expect(second.value!.points.length + second.value!.missed.length).toBe(21);
  });
  it("paused, it has the output off, and goes on where it was", async () => {
    let pauses = 0;
    const states: boolean[] = [];
    const r = await swept({}, plan({ pointsCount: 5 }), {
      paused: () =>
        pauses++ === 2
          ? new Promise((on) =>
              setTimeout(() => {
                states.push(bench!.bench.isOn);
                on();
              }, 30),
            )
          : undefined,
    });
    expect(states).toEqual([false]);
    expect(r.bench.told.filter((t) => t === "OUTP ON")).toHaveLength(2);
    expect(r.value!.points.length + r.value!.missed.length).toBe(5);
  });
  it("never sends a level above its limit, whoever asks for it", async () => {
    bench = await startSimulatedBench({});
    const lead = overTcp(orThrow(readAddress(bench.at.generator, "at")), 4000);
    const quiet = { mayBeOn: () => undefined, isOff: () => undefined };
    const guarded = new Generator(new Instrument(lead, "generator", generatorKind.standard, 4000), -30, quiet, 20);
    await guarded.begin();
    await expect(guarded.level(-29.9)).rejects.toThrow("at most -30 dBm");
    await guarded.level(-30);
    await guarded.end();
    expect(bench.told.filter((t) => t.startsWith("POW"))).toEqual(["POW -30 DBM"]);
  });
  it("sends nothing that the generator refuses, and says what it refused", async () => {
    const r = await swept({}, plan({ levelDbm: -140 }));
    expect(r.error).toMatch(/POW -140 DBM.*-222, Data out of range/);
    expect(r.bench.told).not.toContain("OUTP ON");
  });
});
