import { type NumberReply, readError, readIdentity, readNumber } from "../readings/scpi/replies";
import { InputError, orThrow, type Read } from "../units/issue";
import { type OpenTransport, Wire } from "./wire";

/** What every instrument is asked, whatever it is. */
export interface CommonCommands {
  readonly identity: string;
  readonly nextError: string;
  readonly clear: string;
}
const mostErrors = 32;

/** An instrument at the end of a wire. What it is told it must accept: its list of errors is read after each command. */
export class Instrument<C extends CommonCommands> {
  private wire: Wire | undefined;
  /** maker and model, once it was asked */
  identity = "";

  /**
   * @param open opens the lead
   * @param name what a person calls it: generator, voltmeter
   * @param commands its own
   * @param patienceMs how long an answer may take
   */
  constructor(
    private readonly open: OpenTransport,
    readonly name: string,
    readonly commands: C,
    private readonly patienceMs: number,
  ) {}

  /**
   * Opens the lead anew, with nothing left of what was said before.
   *
   * @throws {WireError} where nobody answers
   * @throws {InputError} where what answers is no instrument
   */
  async connect(): Promise<void> {
    await this.close();
    this.wire = await Wire.open(this.open, this.name, this.patienceMs);
    this.identity = orThrow(readIdentity(await this.wire.ask(this.commands.identity), this.name));
    await this.wire.say(this.commands.clear);
    await this.errors();
  }

  private get lead(): Wire {
    if (!this.wire) throw new Error(`${this.name} is not connected`);
    return this.wire;
  }

  /** Its errors since they were last asked for, oldest first. */
  private async errors(): Promise<string[]> {
    const all: string[] = [];
    for (let i = 0; i < mostErrors; i++) {
      const e = orThrow(readError(await this.lead.ask(this.commands.nextError), this.name));
      if (e.code === 0) return all;
      all.push(`${e.code}, ${e.says}`);
    }
    return all;
  }

  /**
   * Tells it something.
   *
   * @throws {InputError} where it refuses
   */
  async tell(line: string): Promise<void> {
    await this.lead.say(line);
    const errors = await this.errors();
    if (errors.length > 0)
      throw new InputError([
        {
          path: `${this.name}: ${line}`,
          code: "refused",
          read: errors[0],
          expected: "a command that it knows: print its commands with `fettle instrument-commands`, put in its own and give the file",
        },
      ]);
  }

  /** Asks it something that has one line of answer. */
  async ask<T>(line: string, read: (reply: string, path: string) => Read<T>): Promise<T> {
    return orThrow(read(await this.lead.ask(line), `${this.name}: ${line}`));
  }

  number(line: string): Promise<NumberReply> {
    return this.ask(line, readNumber);
  }

  async close(): Promise<void> {
    await this.wire?.close();
    this.wire = undefined;
  }
}
