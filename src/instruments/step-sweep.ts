import type { VoltmeterCommands } from "../readings/scpi/commands";
import { nextLevel, slopeOf, type Tried } from "../readings/stepped/hold";
import { meanOf, type SteppedPlan } from "../readings/stepped/plan";
import type { SteppedPoint } from "../readings/stepped/table";
import { InputError } from "../units/issue";
import type { Generator } from "./generator";
import type { Instrument } from "./instrument";
import { WireError } from "./wire";

/** A frequency at which nothing could be read, and why. */
export interface Missed {
  readonly frequencyHz: number;
  readonly why: string;
}
export interface Stepped {
  readonly points: readonly SteppedPoint[];
  readonly missed: readonly Missed[];
  /** what the meter read with the output off, V */
  readonly floorV: number;
  /** ended before its last frequency by the person */
  readonly broken: boolean;
}
export interface SteppedBy {
  readonly generator: Generator;
  readonly voltmeter: Instrument<VoltmeterCommands>;
  readonly reads: "acVolts" | "dcVolts";
}
export interface StepsBeside {
  /** each point as soon as it is read, with how far the sweep has come */
  readonly point: (p: SteppedPoint, doneCount: number) => void;
  readonly signal?: AbortSignal;
  /** waits as long as the person has it paused; undefined where he has not */
  readonly paused?: () => Promise<void> | undefined;
}

const mostOverloads = 3;
const mostTries = 12;
/** A level that is held is known to so much, dB. */
const closeDb = 0.05;
const dbOf = (volts: number): number => 20 * Math.log10(volts);
const dbPerPart = 20 / Math.LN10;
const wait = (ms: number, signal?: AbortSignal): Promise<void> =>
  new Promise((done) => {
    if (signal?.aborted) return done();
    const ended = (): void => {
      clearTimeout(late);
      signal?.removeEventListener("abort", ended);
      done();
    };
    const late = setTimeout(ended, ms);
    signal?.addEventListener("abort", ended);
  });

/** The meter at one step: a few readings, or why there are none. */
async function readSome(by: SteppedBy, count: number): Promise<{ readonly mean: number; readonly u: number } | string> {
  const { voltmeter, reads } = by;
  const volts: number[] = [];
  for (let again = false; volts.length < count; ) {
    try {
      const r = await voltmeter.number(voltmeter.commands[reads]);
      if (r.kind === "overload") return "the meter is overloaded: take a higher range or a lower level";
      if (r.kind === "nothing") return "the meter has no reading";
      volts.push(Math.abs(r.value));
    } catch (e) {
      // garbled or silent once: asked again over a new link; twice is a fault
      if (again || !(e instanceof WireError || e instanceof InputError)) throw e;
      again = true;
      await voltmeter.connect();
    }
  }
  return meanOf(volts);
}

class Sweep {
  readonly points: SteppedPoint[];
  readonly missed: Missed[] = [];
  private overloads = 0;
  floorV = 0;
  private floorU = 0;

  constructor(
    private readonly plan: SteppedPlan,
    private readonly by: SteppedBy,
    done: readonly SteppedPoint[],
    private readonly beside: StepsBeside,
  ) {
    this.points = [...done];
  }

  get ended(): boolean {
    return this.beside.signal?.aborted ?? false;
  }
  private settle(): Promise<void> {
    return wait(1000 * this.plan.settleS, this.beside.signal);
  }
  private keep(p: SteppedPoint): void {
    this.points.push(p);
    this.beside.point(p, this.points.length + this.missed.length);
  }
  private miss(frequencyHz: number, why: string): void {
    this.missed.push({ frequencyHz, why });
    this.overloads = /overloaded/.test(why) ? this.overloads + 1 : 0;
    if (this.overloads >= mostOverloads)
      throw new InputError([
        {
          path: "voltmeter",
          code: "overload",
          read: `overloaded at ${mostOverloads} steps in a row`,
          expected: "a higher range, or a lower --level",
        },
      ]);
  }

  /** What the meter reads of hum and noise, the output being off. */
  async readFloor(): Promise<void> {
    await this.settle();
    const floor = await readSome(this.by, this.plan.readingsCount);
    if (typeof floor === "string") return;
    this.floorV = floor.mean;
    this.floorU = floor.u;
  }

  /** One step with the generator's level held. */
  async atLevel(hz: number): Promise<void> {
    await this.settle();
    if (this.ended) return;
    const read = await readSome(this.by, this.plan.readingsCount);
    if (typeof read === "string") return this.miss(hz, read);
    // hum and noise add to the tone as powers do
    const power = this.by.reads === "acVolts" ? read.mean ** 2 - this.floorV ** 2 : read.mean ** 2;
    if (!(power > 0.2 * read.mean ** 2)) return this.miss(hz, "nothing rises above hum and noise there");
    const volts = Math.sqrt(power);
    this.overloads = 0;
    this.keep({
      frequencyHz: hz,
      levelDb: dbOf(volts),
      uDb: Math.hypot((dbPerPart * Math.hypot(read.u * read.mean, this.floorU * this.floorV)) / power, this.plan.betweenPointsDb),
      volts: read.mean,
      generatorDbm: this.plan.levelDbm,
    });
  }

  /** One step with the output held: the generator is raised until the meter reads what it read at the first. */
  async atOutput(hz: number): Promise<void> {
    const { plan, by } = this;
    const [first] = this.points;
    const tries: Tried[] = [];
    let dBm = this.nearest(hz)?.generatorDbm ?? plan.levelDbm;
    for (let i = 0; i < mostTries; i++) {
      await by.generator.level(dBm);
      await this.settle();
      if (this.ended) return;
      const read = await readSome(by, plan.readingsCount);
      if (typeof read === "string") return this.miss(hz, read);
      if (!(read.mean > 0)) return this.miss(hz, "no output at all");
      tries.push({ dBm, outputDb: dbOf(read.mean) });
      const slope = slopeOf(tries);
      const offDb = first === undefined ? 0 : (dbOf(first.volts) - dbOf(read.mean)) / slope;
      const next = first === undefined ? dBm : nextLevel(tries, dbOf(first.volts), plan.mostDbm);
      // the slope is known only after two tries, but a level that fits needs none
      if (first === undefined || (Math.abs(offDb) <= closeDb && (tries.length > 1 || plan.avc !== "on"))) {
        const uDb = Math.hypot((dbPerPart * read.u) / read.mean / slope, plan.betweenPointsDb);
        return this.keep({
          frequencyHz: hz,
          levelDb: (first?.generatorDbm ?? dBm) - dBm - offDb,
          uDb,
          volts: read.mean,
          generatorDbm: dBm,
        });
      }
      if (next >= plan.mostDbm && dBm >= plan.mostDbm - 1e-9)
        return this.miss(hz, `more than ${(plan.mostDbm - first.generatorDbm).toFixed(1)} dB down: the generator may go no higher`);
      // a second try must differ, or it tells no slope
      dBm = Math.abs(next - dBm) < 0.5 && tries.length === 1 ? Math.min(plan.mostDbm, dBm + (next < dBm ? -0.5 : 0.5)) : next;
    }
    this.miss(hz, "the output did not come to rest there");
  }
  private nearest(hz: number): SteppedPoint | undefined {
    return this.points.reduce<SteppedPoint | undefined>(
      (best, p) => (best === undefined || Math.abs(p.frequencyHz - hz) < Math.abs(best.frequencyHz - hz) ? p : best),
      undefined,
    );
  }

  async run(): Promise<void> {
    const { plan, by, beside } = this;
    const { generator } = by;
    const done = new Set(this.points.map((p) => p.frequencyHz));
    let on = false;
    for (const hz of plan.frequencyHz) {
      if (this.ended) return;
      if (done.has(hz)) continue;
      const paused = beside.paused?.();
      if (paused) {
        await generator.off();
        on = false;
        await paused;
        if (this.ended) return;
      }
      await generator.frequency(hz);
      if (!on) {
        await generator.level(plan.levelDbm);
        await generator.on();
        on = true;
      }
      await (plan.holds === "level" ? this.atLevel(hz) : this.atOutput(hz));
    }
  }
}

/**
 * Steps a generator through a plan, waits, and reads the meter at each step. Whatever happens, the output is switched off before it returns or throws.
 *
 * @param plan frequencies, levels, what is held
 * @param by generator and meter, not yet connected
 * @param done points of the same plan that were read before it was broken off
 * @param beside who is told, and may pause or end it
 * @returns points in order of frequency; whether the output was confirmed off is the generator's notice
 * @throws {InputError} where an instrument refuses or overloads
 * @throws {WireError} where one can't be reached
 */
export async function stepSweep(
  plan: SteppedPlan,
  by: SteppedBy,
  done: readonly SteppedPoint[],
  beside: StepsBeside,
): Promise<Stepped & { readonly isOff: boolean }> {
  const sweep = new Sweep(plan, by, done, beside);
  let isOff = false;
  try {
    await by.voltmeter.connect();
    await by.generator.begin();
    await by.generator.modulation(plan.modulation);
    if (plan.holds === "level" && by.reads === "acVolts") await sweep.readFloor();
    await sweep.run();
  } finally {
    isOff = await by.generator.end();
    await by.voltmeter.close();
  }
  const { points, missed, floorV } = sweep;
  return { points: points.sort((a, b) => a.frequencyHz - b.frequencyHz), missed, floorV, broken: sweep.ended, isOff };
}
