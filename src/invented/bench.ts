import { normalStream } from "../numerics/random";
import { StripResponse } from "../physics/if-strip";
import { peakOf } from "../physics/passband";
import { headerOf, parameterOf } from "../readings/scpi/header";
import { mediumStrip } from "../set/patterns/strips";
import { plainStrip } from "../set/strip";

/** A receiver that exists nowhere, with a generator at its mixer, a voltmeter at its output and a counter at the generator. */
export interface InventedReceiver {
  readonly intermediateHz: number;
  readonly avc: "off" | "on";
  /** output at the top of the strip for so much from the generator, V and dBm */
  readonly outputV: number;
  readonly atDbm: number;
  /** hum and noise at the output, V */
  readonly floorV: number;
  /** share by which one reading scatters */
  readonly scatter: number;
  /** where the meter's range ends, V */
  readonly rangeV: number;
  /** time constant of the output, s */
  readonly settleS: number;
  /** share by which the generator's own clock is off */
  readonly clock: number;
}
export const inventedReceiver: InventedReceiver = {
  intermediateHz: 465e3,
  avc: "off",
  outputV: 1,
  atDbm: -60,
  floorV: 0.004,
  scatter: 0.003,
  rangeV: 12,
  settleS: 0.005,
  clock: 2e-6,
};
/** AVC of the invented set: above its threshold so many dB of input come out as one. */
const avcRatio = 8;
const avcThresholdDb = -20;

type Kind = "generator" | "voltmeter" | "counter";
interface Known {
  readonly meant: (header: string) => boolean;
  /** answers, or sets something; undefined where it asks nothing; a number is an error's */
  readonly act: (parameter: string) => string | number | undefined;
}
const errors: Readonly<Record<number, string>> = {
  [-109]: "Missing parameter",
  [-113]: "Undefined header",
  [-131]: "Invalid suffix",
  [-222]: "Data out of range",
  [-224]: "Illegal parameter value",
};

/**
 * The bench's instruments, each told a line at a time at a given moment.
 *
 * @source invented; the strip by this project's own model
 */
export class InventedBench {
  private readonly strip: StripResponse;
  private readonly topPower: number;
  readonly peakHz: number;
  frequencyHz = 1e6;
  levelDbm = -120;
  isOn = false;
  private modulation = { percent: 30, toneHz: 400, on: false };
  private output = { volts: 0, at: 0 };
  private readonly scatter = normalStream(7, "bench readings", 20_000);
  private read = 0;
  private readonly waiting: Readonly<Record<Kind, number[]>> = { generator: [], voltmeter: [], counter: [] };

  constructor(readonly receiver: InventedReceiver = inventedReceiver) {
    this.strip = new StripResponse(plainStrip(mediumStrip(receiver.intermediateHz)));
    this.peakHz = peakOf(this.strip, [receiver.intermediateHz]).hz;
    this.topPower = this.strip.at(this.peakHz);
  }

  /** Gain of the strip at a frequency against its top, dB: what a sweep of it should find. */
  gainDb(hz: number): number {
    return 10 * Math.log10(this.strip.at(hz * (1 + this.receiver.clock)) / this.topPower);
  }

  /** What the output is on its way to, V. */
  private get goesTo(): number {
    const { receiver: r } = this;
    if (!this.isOn) return 0;
    const inDb = this.levelDbm - r.atDbm + this.gainDb(this.frequencyHz);
    const out = r.avc === "on" && inDb > avcThresholdDb ? avcThresholdDb + (inDb - avcThresholdDb) / avcRatio : inDb;
    return r.outputV * 10 ** (out / 20);
  }
  private volts(now: number): number {
    const to = this.goesTo;
    const volts = to + (this.output.volts - to) * Math.exp(-Math.max(0, now - this.output.at) / this.receiver.settleS);
    this.output = { volts, at: now };
    return volts;
  }

  private readonly known: Readonly<Record<Kind, (now: number) => readonly Known[]>> = {
    generator: () => [
      this.sets("[SOURce:]FREQuency[:CW]", "HZ", [1, 50e6], (hz) => {
        this.frequencyHz = hz;
      }),
      this.sets("[SOURce:]POWer[:LEVel][:IMMediate][:AMPLitude]", "DBM", [-130, 13], (dBm) => {
        this.levelDbm = dBm;
      }),
      this.sets("[SOURce:]AM[:DEPTh]", "PCT", [0, 100], (percent) => {
        this.modulation.percent = percent;
      }),
      this.sets("[SOURce:]AM:INTernal:FREQuency", "HZ", [10, 20e3], (toneHz) => {
        this.modulation.toneHz = toneHz;
      }),
      this.switches("[SOURce:]AM:STATe", (on) => {
        this.modulation.on = on;
      }),
      this.switches("OUTPut[:STATe]", (on) => {
        this.isOn = on;
      }),
      { meant: headerOf("OUTPut[:STATe]?"), act: () => (this.isOn ? "1" : "0") },
    ],
    voltmeter: (now) => [
      { meant: headerOf("MEASure:VOLTage:AC?"), act: () => this.reading(Math.hypot(this.volts(now), this.receiver.floorV)) },
      { meant: headerOf("MEASure:VOLTage[:DC]?"), act: () => this.reading(-this.volts(now)) },
    ],
    counter: () => [
      {
        meant: headerOf("MEASure:FREQuency?"),
        act: () => (this.isOn ? (this.frequencyHz * (1 + this.receiver.clock)).toExponential(9) : "9.91E+37"),
      },
    ],
  };
  private sets(header: string, unit: string, [least, most]: readonly [number, number], set: (value: number) => void): Known {
    return {
      meant: headerOf(header),
      act: (p) => {
        if (p === "") return -109;
        const value = parameterOf(p, unit);
        if (value === undefined) return -131;
        if (!(value >= least && value <= most)) return -222;
        set(value);
        return undefined;
      },
    };
  }
  private switches(header: string, set: (on: boolean) => void): Known {
    return {
      meant: headerOf(header),
      act: (p) => {
        if (!/^(?:ON|OFF|0|1)$/i.test(p)) return -224;
        set(/^(?:ON|1)$/i.test(p));
        return undefined;
      },
    };
  }
  private reading(volts: number): string {
    if (Math.abs(volts) > this.receiver.rangeV) return "9.90000000E+37";
    const scattered = volts * (1 + this.receiver.scatter * this.scatter[this.read++ % this.scatter.length]);
    return scattered.toExponential(6).toUpperCase();
  }

  /**
   * Tells one instrument a line.
   *
   * @param kind which
   * @param line as sent, without its end
   * @param now s, of any clock that goes forward
   * @returns its answer; undefined where the line asks nothing, or is not understood
   */
  hear(kind: Kind, line: string, now: number): string | undefined {
    const [header, ...rest] = line.trim().split(/\s+/);
    const waiting = this.waiting[kind];
    if (headerOf("*IDN?")(header)) return `Invented,Bench ${kind},0,1`;
    if (headerOf("*CLS")(header)) {
      waiting.length = 0;
      return undefined;
    }
    if (headerOf("SYSTem:ERRor[:NEXT]?")(header)) {
      const code = waiting.shift() ?? 0;
      return `${code},"${errors[code] ?? "No error"}"`;
    }
    // the output goes on from where it is now
    this.volts(now);
    const known = this.known[kind](now).find((k) => k.meant(header));
    const answer = known ? known.act(rest.join(" ")) : -113;
    if (typeof answer !== "number") return answer;
    waiting.push(answer);
    return undefined;
  }
}
