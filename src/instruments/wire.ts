import type { Issue } from "../units/issue";

/** A lead to an instrument, told what comes in; bytes go out by `write`. */
export interface Transport {
  readonly write: (bytes: Uint8Array) => Promise<void>;
  readonly close: () => Promise<void>;
}
export interface Hears {
  readonly bytes: (bytes: Uint8Array) => void;
  readonly ended: (why: string) => void;
}
/** Opens the lead; rejects where nobody answers there. */
export type OpenTransport = (hears: Hears) => Promise<Transport>;

/** What went wrong on the way to an instrument. */
export class WireError extends Error {
  constructor(
    /** lost: the link has gone; silent: no answer in time; garbled: an answer that can't be one */
    readonly kind: "lost" | "silent" | "garbled",
    message: string,
  ) {
    super(message);
    this.name = "WireError";
  }
  /** as it is told on every face */
  get issue(): Issue {
    return { path: this.message, code: this.kind, read: "", expected: "an instrument that answers: see to its lead and its power" };
  }
}

const longestReply = 65_536;

/**
 * Lines to an instrument and back, one question at a time. After a question that was not answered in time the wire is closed: a late answer
 * would pass for that of the next one, and an open link has no way to clear it.
 */
export class Wire {
  private waiting: { readonly got: (line: string) => void; readonly failed: (e: WireError) => void } | undefined;
  private partial = "";
  private failure: WireError | undefined;
  private transport: Transport | undefined;

  private constructor(
    private readonly name: string,
    private readonly patienceMs: number,
  ) {}

  /**
   * @param open opens the lead
   * @param name whose it is, as errors call it
   * @param patienceMs how long an answer may take
   * @throws {WireError} where nobody answers
   */
  static async open(open: OpenTransport, name: string, patienceMs: number): Promise<Wire> {
    const wire = new Wire(name, patienceMs);
    const decoder = new TextDecoder("latin1");
    try {
      wire.transport = await open({
        bytes: (b) => wire.hear(decoder.decode(b, { stream: true })),
        ended: (why) => wire.fail(new WireError("lost", `${name}: the link was lost${why ? ` (${why})` : ""}`)),
      });
    } catch (e) {
      throw e instanceof WireError ? e : new WireError("lost", `${name}: ${e instanceof Error ? e.message : String(e)}`);
    }
    return wire;
  }

  private hear(text: string): void {
    const lines = `${this.partial}${text}`.split("\n");
    this.partial = lines.pop() ?? "";
    if (this.partial.length > longestReply) this.fail(new WireError("garbled", `${this.name}: an answer without end`));
    for (const line of lines) {
      const { waiting } = this;
      this.waiting = undefined;
      if (waiting) waiting.got(line.replace(/\r$/, ""));
      // what nobody asked for is nobody's answer
      else this.fail(new WireError("garbled", `${this.name}: it spoke without being asked: "${line.trim().slice(0, 60)}"`));
    }
  }

  private fail(e: WireError): void {
    if (this.failure) return;
    this.failure = e;
    this.waiting?.failed(e);
    this.waiting = undefined;
    void this.transport?.close().catch(() => undefined);
  }

  /** Sends a line that asks nothing. */
  async say(line: string): Promise<void> {
    if (this.failure) throw this.failure;
    try {
      await this.transport?.write(new TextEncoder().encode(`${line}\n`));
    } catch (e) {
      this.fail(new WireError("lost", `${this.name}: the link was lost (${e instanceof Error ? e.message : String(e)})`));
    }
    if (this.failure) throw this.failure;
  }

  /** Sends a question and waits for its one line of answer. */
  async ask(line: string): Promise<string> {
    if (this.failure) throw this.failure;
    if (this.waiting) throw new Error("one question at a time");
    if (this.partial !== "") this.fail(new WireError("garbled", `${this.name}: part of an answer that nobody asked for`));
    const answer = new Promise<string>((got, failed) => {
      this.waiting = { got, failed };
    });
    // handled below, too, if writing fails first
    answer.catch(() => undefined);
    const late = setTimeout(() => {
      const seconds = this.patienceMs / 1000;
      const part = this.partial === "" ? "" : `, only the beginning of one ("${this.partial.slice(0, 40)}")`;
      this.fail(new WireError("silent", `${this.name}: no answer to ${line} in ${seconds} s${part}`));
    }, this.patienceMs);
    try {
      await this.say(line);
      return await answer;
    } finally {
      clearTimeout(late);
    }
  }

  async close(): Promise<void> {
    this.failure ??= new WireError("lost", `${this.name}: closed`);
    await this.transport?.close().catch(() => undefined);
  }
}
