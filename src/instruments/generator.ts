import { filledIn, type GeneratorCommands } from "../readings/scpi/commands";
import { readSwitch } from "../readings/scpi/replies";
import { InputError } from "../units/issue";
import type { Instrument } from "./instrument";

/** How a person hears what the output does. */
export interface OutputNotice {
  /** it may be on, and nobody can tell: said in large type until `isOff` */
  readonly mayBeOn: (says: string) => void;
  readonly isOff: () => void;
}
const triesCount = 5;
const wait = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));

/** A generator whose level can't go above a limit, and whose output is off again whatever happens. */
export class Generator {
  private maybeOn = false;

  constructor(
    private readonly at: Instrument<GeneratorCommands>,
    private readonly mostDbm: number,
    private readonly notice: OutputNotice,
    /** between tries to reach it again */
    private readonly againMs = 1000,
  ) {}

  /**
   * Reaches it, with its output off.
   *
   * @throws {InputError} where it was on already and will not go off
   */
  async begin(): Promise<void> {
    await this.at.connect();
    this.maybeOn = true;
    if (!(await this.off()))
      throw new InputError([
        { path: this.at.name, code: "stays-on", read: "on", expected: "an output that can be switched off: do it by hand" },
      ]);
  }

  async frequency(hz: number): Promise<void> {
    await this.at.tell(filledIn(this.at.commands.frequency, { Hz: hz }));
  }

  /**
   * @throws {InputError} above the limit; nothing is sent then
   */
  async level(dBm: number): Promise<void> {
    if (!(dBm <= this.mostDbm))
      throw new InputError([{ path: "level", code: "too-loud", read: `${dBm} dBm`, expected: `at most ${this.mostDbm} dBm` }]);
    await this.at.tell(filledIn(this.at.commands.level, { dBm: Math.round(dBm * 100) / 100 }));
  }

  async modulation(said: { readonly percent: number; readonly toneHz: number } | undefined): Promise<void> {
    const { commands: c } = this.at;
    if (!said) return this.at.tell(c.modulationOff);
    await this.at.tell(filledIn(c.modulationDepth, { percent: said.percent }));
    await this.at.tell(filledIn(c.modulationTone, { Hz: said.toneHz }));
    await this.at.tell(c.modulationOn);
  }

  async on(): Promise<void> {
    this.maybeOn = true;
    await this.at.tell(this.at.commands.outputOn);
    if (!(await this.at.ask(this.at.commands.isOutputOn, readSwitch)))
      throw new InputError([{ path: this.at.name, code: "stays-off", read: "off", expected: "an output that goes on when it is told to" }]);
  }

  /**
   * Switches the output off and has it confirmed, over a new link if the old one has gone.
   *
   * @returns whether the generator itself said that it is off
   */
  async off(): Promise<boolean> {
    if (!this.maybeOn) return true;
    for (let i = 0; i < triesCount; i++) {
      try {
        if (i > 0) {
          await wait(this.againMs);
          await this.at.connect();
        }
        await this.at.tell(this.at.commands.outputOff);
        if (!(await this.at.ask(this.at.commands.isOutputOn, readSwitch))) {
          this.maybeOn = false;
          this.notice.isOff();
          return true;
        }
      } catch {
        // told below: whatever it was, the output may be on
      }
      this.notice.mayBeOn(
        i + 1 < triesCount
          ? `The generator's output may still be on. Trying again to switch it off (${i + 2} of ${triesCount}).`
          : "The generator's output may still be on, and it can't be reached. Switch it off by hand, now.",
      );
    }
    return false;
  }

  async end(): Promise<boolean> {
    const off = await this.off();
    await this.at.close();
    return off;
  }
}
