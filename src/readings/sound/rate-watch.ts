import { Hum } from "./hum";
import type { Listener } from "./listener";

/** Rates at which sound is commonly held, one taken for the other. */
const mistaken = 48 / 44.1;
/** No mains is further off than this, and the comb is known to it. */
const within = 0.01;
/** So much of a sound tells it. */
const enoughS = 60;

/**
 * Watches for hum at a frequency that no mains has, which it would have if the sample rate in the head were wrong.
 *
 * @source 44.1 and 48 kHz as the rates of AES5, from memory; the comb by Hum
 */
export class RateWatch implements Listener {
  private readonly hum: Hum;
  private left: number;

  /** @param sampleRateHz as the head has it */
  constructor(sampleRateHz: number) {
    this.hum = new Hum(sampleRateHz);
    this.left = enoughS * sampleRateHz;
  }
  push(x: Float64Array): void {
    if (this.left <= 0) return;
    this.left -= x.length;
    this.hum.push(x);
  }
  /** What is to be warned of; nothing where hum lies where it belongs, or there is none. */
  get warnings(): readonly string[] {
    const hz = this.hum.strangeHz;
    if (hz === undefined) return [];
    const mains = [50, 60].flatMap((at) => [at * mistaken, at / mistaken]);
    return mains.some((at) => Math.abs(hz / at - 1) < within)
      ? [
          `lines at multiples of ${hz.toFixed(1)} Hz, which no mains has: the file's header may give the wrong sample rate (44.1 kHz for 48 kHz, or the other way round), and then every frequency here is off by 9 %`,
        ]
      : [];
  }
}
