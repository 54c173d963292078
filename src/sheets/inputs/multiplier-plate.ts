import { StripResponse } from "../../physics/if-strip";
import type { StripModel } from "../../physics/if-strip-numbers";
import { type BandBeside, BandPowers } from "../../physics/noise-band";
import { type Peak, peakOf } from "../../physics/passband";
import { type OscillationPoint, oscillationPoint, PlateSeen, TankLoad } from "../../physics/q-multiplier";
import type { Gains, Response } from "../../physics/response";

/** What hangs on the plate, and the strip that it hangs on; plain inputs of a question, SI. */
export interface TankInputs {
  readonly strip: StripModel;
  readonly couplingCapacitance: number;
  readonly cableLength: number;
  readonly cableCapacitancePerLength: number;
  readonly coilQ: number;
  readonly tankCapacitance: number;
  readonly tankQ: number;
}
/** What is listened for. */
export interface AudioInputs {
  readonly audioLow: number;
  readonly audioHigh: number;
  readonly cwPitch: number;
}

/** The strip alone, or with the accessory's tank on its first plate. */
export class Plate implements Response {
  re = 0;
  im = 0;
  readonly strip = new StripResponse();
  private readonly tank = new TankLoad();
  private readonly seen = new PlateSeen();
  private readonly ssb = new BandPowers();
  private readonly cw = new BandPowers();
  private on = false;
  /** where the tank is tuned to that was hung there last */
  private tunedHz = Number.NaN;
  /** where the tank that hangs there starts to oscillate */
  private start: OscillationPoint = { criticalS: Number.NaN, hz: Number.NaN, slopeS: Number.NaN };

  at(hz: number): number {
    if (!this.on) return this.strip.at(hz);
    this.tank.at(hz);
    return this.strip.at(hz, this.tank.re, this.tank.im);
  }
  complexAt(hz: number): void {
    if (this.on) {
      this.tank.at(hz);
      this.strip.complexAt(hz, this.tank.re, this.tank.im);
    } else this.strip.complexAt(hz);
    this.re = this.strip.re;
    this.im = this.strip.im;
  }
  fillPower(hz: Float64Array, into: Float64Array, count: number): void {
    this.strip.fill(hz, into, this.on ? this.tank.asSeries() : undefined, count);
  }
  fillGain(g: Gains, count: number): void {
    this.strip.fillComplex(g, this.on ? this.tank.asSeries() : undefined, count);
  }

  /** Takes a strip over, and with it what a tank behind this capacitor will see of it. */
  load({ strip, couplingCapacitance }: Pick<TankInputs, "strip" | "couplingCapacitance">): void {
    this.strip.load(strip);
    this.seen.load(this.strip, couplingCapacitance, strip.intermediateFrequency);
    this.on = false;
    this.tunedHz = Number.NaN;
  }
  /** Takes the tank off. */
  bare(): void {
    this.on = false;
  }
  /**
   * Puts the tank on with regeneration as a part of the oscillation point; gives that point. The rest of what it is told is of the strip that was
   * loaded: a tank that hangs there already, tuned alike, starts where it did.
   */
  hang(x: TankInputs, tunedHz: number, part: number): OscillationPoint {
    if (tunedHz !== this.tunedHz) this.tune(x, tunedHz);
    this.regenerate(part);
    this.on = true;
    return this.start;
  }
  private tune(x: TankInputs, tunedHz: number): void {
    this.tank.load(
      {
        tankCapacitance: x.tankCapacitance,
        tankQ: x.tankQ,
        couplingCapacitance: x.couplingCapacitance,
        cableCapacitance: x.cableLength * x.cableCapacitancePerLength,
        cableCoilQ: x.coilQ,
      },
      tunedHz,
      x.strip.intermediateFrequency,
    );
    this.start = oscillationPoint(this.tank, this.seen);
    this.tunedHz = tunedHz;
  }
  /** Another part of the oscillation point. */
  regenerate(part: number): void {
    this.tank.regenerationS = part * this.start.criticalS;
  }

  /** The highest point, of the strip alone near the IF, with the tank near its own too. */
  peak(ifHz: number): Peak {
    return peakOf(this, this.on ? [this.start.hz, ifHz] : [ifHz]);
  }

  /**
   * SSB noise for one unit of signal: speech spread evenly over the stated audio band on the upper side of the beat oscillator, against white
   * noise of both sides in that band. The beat oscillator sits half the band below the pass band's middle. At best, one side's noise goes: 3 dB.
   */
  ssbNoise(middleHz: number, x: AudioInputs): number {
    const beat = -(x.audioLow + x.audioHigh) / 2;
    this.ssb.over(this, middleHz, above(beat, x), below(beat, x));
    return (this.ssb.wanted + this.ssb.other) / this.ssb.wanted;
  }
  /** CW noise for one unit of signal: a carrier on the peak, one pitch above the beat oscillator, against noise of both sides in the audio band. */
  cwNoise(peak: Peak, x: AudioInputs): number {
    this.cw.over(this, peak.hz, above(-x.cwPitch, x), below(-x.cwPitch, x));
    return (this.cw.wanted + this.cw.other) / peak.power;
  }
}
/** The audio band above and below a beat oscillator that lies so far from a centre. */
const above = (beatHz: number, x: AudioInputs): BandBeside => ({ fromHz: beatHz + x.audioLow, toHz: beatHz + x.audioHigh });
const below = (beatHz: number, x: AudioInputs): BandBeside => ({ fromHz: beatHz - x.audioHigh, toHz: beatHz - x.audioLow });
