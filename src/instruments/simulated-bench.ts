import { createServer, type Server, type Socket } from "node:net";
import { InventedBench, type InventedReceiver, inventedReceiver } from "../invented/bench";

/** What can go wrong on a real bench, made to happen on the simulated one. */
export const benchFaults = ["slow", "split lines", "garbage", "overload", "drop", "gone", "will not go off"] as const;
export type BenchFault = (typeof benchFaults)[number];

export const simulatedInstruments = ["generator", "voltmeter", "counter"] as const;
type Simulated = (typeof simulatedInstruments)[number];

/** A simulated bench that listens on this machine only. */
export interface SimulatedBench {
  readonly bench: InventedBench;
  /** host and port of each instrument */
  readonly at: Readonly<Record<Simulated, string>>;
  /** every line that the generator was sent, in order */
  readonly told: readonly string[];
  readonly close: () => Promise<void>;
}
export interface BenchSaid {
  readonly fault?: BenchFault | undefined;
  readonly receiver?: Partial<InventedReceiver> | undefined;
  /** ports of generator, voltmeter and counter; free ones where not said */
  readonly port?: number | undefined;
  /** how many questions go well before a fault sets in */
  readonly wellFor?: number | undefined;
}
const slowMs = 60_000;

class Talk {
  private partial = "";
  constructor(
    private readonly kind: Simulated,
    private readonly socket: Socket,
    private readonly of: {
      readonly bench: InventedBench;
      readonly fault: BenchFault | undefined;
      readonly told: string[];
      readonly count: () => number;
      readonly wellFor: number;
      readonly dropped: { once: boolean };
    },
  ) {
    socket.setNoDelay(true);
    socket.on("error", () => undefined);
    socket.on("data", (b) => this.hear(b.toString("latin1")));
  }
  private hear(text: string): void {
    const lines = `${this.partial}${text}`.split("\n");
    this.partial = lines.pop() ?? "";
    for (const line of lines) this.line(line);
  }
  private line(line: string): void {
    const { bench, told } = this.of;
    if (this.kind === "generator") told.push(line);
    if (this.of.fault === "will not go off" && this.kind === "generator" && /^OUTP\S*\s+(?:OFF|0)/i.test(line)) return;
    const reply = bench.hear(this.kind, line, performance.now() / 1000);
    if (reply !== undefined) this.say(reply);
  }
  private say(reply: string): void {
    const fault = this.of.count() > this.of.wellFor ? this.of.fault : undefined;
    const meter = this.kind === "voltmeter";
    if (fault === "gone" || (fault === "drop" && this.kind === "generator" && !this.of.dropped.once)) {
      this.of.dropped.once = true;
      this.socket.destroy();
    } else if (fault === "slow" && meter) setTimeout(() => this.write(reply), slowMs).unref();
    else if (fault === "overload" && meter && /E[+-]\d/.test(reply)) this.write("9.90000000E+37");
    else if (fault === "garbage" && meter) this.write("\u00ff\u0000%%");
    else if (fault === "split lines") {
      const middle = Math.ceil(reply.length / 2);
      this.socket.write(reply.slice(0, middle));
      setTimeout(() => this.write(reply.slice(middle)), 5);
    } else this.write(reply);
  }
  private write(reply: string): void {
    if (!this.socket.destroyed) this.socket.write(`${reply}\r\n`, "latin1");
  }
}

/**
 * Starts a simulated bench: three instruments on three ports of this machine, with an invented receiver between them.
 *
 * @param said what goes wrong, what the receiver is like, first of the three ports
 */
export async function startSimulatedBench(said: BenchSaid = {}): Promise<SimulatedBench> {
  const bench = new InventedBench({ ...inventedReceiver, ...said.receiver });
  const told: string[] = [];
  const sockets = new Set<Socket>();
  let asked = 0;
  const of = { bench, fault: said.fault, told, count: () => ++asked, wellFor: said.wellFor ?? 0, dropped: { once: false } };
  const servers: Server[] = [];
  const listen = (kind: Simulated, port: number): Promise<string> =>
    new Promise((up, failed) => {
      const server = createServer((socket) => {
        sockets.add(socket);
        socket.on("close", () => sockets.delete(socket));
        new Talk(kind, socket, of);
      });
      servers.push(server);
      server.once("error", failed);
      server.listen(port, "127.0.0.1", () => {
        const a = server.address();
        up(`127.0.0.1:${typeof a === "object" && a ? a.port : port}`);
      });
    });
  const [generator, voltmeter, counter] = await Promise.all(
    simulatedInstruments.map((kind, i) => listen(kind, said.port === undefined ? 0 : said.port + i)),
  );
  return {
    bench,
    at: { generator, voltmeter, counter },
    told,
    close: async () => {
      for (const s of sockets) s.destroy();
      await Promise.all(servers.map((s) => new Promise<void>((done) => void s.close(() => done()))));
    },
  };
}
