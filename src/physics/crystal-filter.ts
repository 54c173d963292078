import type { Response } from "./response";

/** A single crystal in a balanced bridge: its holder's capacitance is taken out by a phasing capacitor. SI. */
export interface CrystalFilter {
  readonly seriesHz: number;
  readonly motionalF: number;
  readonly crystalQ: number;
  readonly holderF: number;
  readonly phasingF: number;
  /** source and load that the crystal works between, together, ohm */
  readonly aroundOhm: number;
}
/**
 * Frequency at which the crystal and what is left of its holder's capacitance cancel.
 *
 * @param c the filter
 * @returns Hz; undefined where the phasing capacitor balances the holder, so that there is no notch
 * @source fs sqrt(1 + C1/(C0 - Cn)) of a crystal without loss; with Cn = 0 its parallel resonance
 */
export function notchHz(c: Pick<CrystalFilter, "seriesHz" | "motionalF" | "holderF" | "phasingF">): number | undefined {
  const left = c.holderF - c.phasingF;
  const under = 1 + c.motionalF / left;
  return Math.abs(left) < 1e-18 || under <= 0 ? undefined : c.seriesHz * Math.sqrt(under);
}
/**
 * The bridge's transfer, R (Ym + jw(C0 - Cn))/(1 + R (Ym + jw(Cn - C0))), Ym of the crystal's own branch; its output circuit is taken as tuned with the
 * phasing neutral. Source: nodes of a balanced bridge, both arms loading the output.
 */
export class CrystalResponse implements Response {
  re = 0;
  im = 0;
  private readonly seriesHz: number;
  /** reactance for each unit of hz/fs - fs/hz, and loss of the crystal's own branch, ohm */
  private readonly steepOhm: number;
  private readonly lossOhm: number;
  private readonly aroundOhm: number;
  /** susceptance of what is left of the holder, times the resistance around, for each Hz */
  private readonly leftPerHz: number;
  constructor({ seriesHz, motionalF, crystalQ, holderF, phasingF, aroundOhm }: CrystalFilter) {
    this.seriesHz = seriesHz;
    this.steepOhm = 1 / (2 * Math.PI * seriesHz * motionalF);
    this.lossOhm = this.steepOhm / crystalQ;
    this.aroundOhm = aroundOhm;
    this.leftPerHz = 2 * Math.PI * aroundOhm * (holderF - phasingF);
  }
  complexAt(hz: number): void {
    const x = (hz / this.seriesHz - this.seriesHz / hz) * this.steepOhm;
    const r = this.lossOhm;
    // admittance times the resistance around it
    const share = this.aroundOhm / (r * r + x * x);
    const a = share * r;
    const own = -share * x;
    const left = this.leftPerHz * hz;
    // numerator a + j p, denominator 1 + a + j q
    const p = own + left;
    const q = own - left;
    const n = (1 + a) * (1 + a) + q * q;
    this.re = (a * (1 + a) + p * q) / n;
    this.im = (p * (1 + a) - a * q) / n;
  }
  at(hz: number): number {
    this.complexAt(hz);
    return this.re * this.re + this.im * this.im;
  }
}
/** Time in which a note dies to 1/e after its signal has stopped, s. Source: single resonance of width B, envelope exp(-pi B t). */
export const ringingS = (widthHz: number): number => 1 / (Math.PI * widthHz);
