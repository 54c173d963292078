/** A process that writes entries of every kind into a job, killed and started again: what it was told is recorded is there as it was written, and pairs are whole. */
import { type ChildProcess, spawn } from "node:child_process";
import { isDeepStrictEqual } from "node:util";
import type { Entry } from "../../src/job/document";
import type { Home } from "../../src/store/home";
import type { troubles } from "./kit";
import { drawnWriter, environmentOf } from "./server";

export interface Written {
  /** what was acknowledged, as it was sent */
  readonly acknowledged: readonly Entry[];
  readonly kill: () => void;
  /** kills the last one too, and waits for it */
  readonly stop: () => Promise<void>;
}
/** Starts one writer after another, each going on where the one before was killed. */
export function written(home: Home, job: string, t: ReturnType<typeof troubles>): Written {
  const acknowledged: Entry[] = [];
  let [over, begun] = [false, 0];
  let running: ChildProcess | undefined;
  const one = (): Promise<void> =>
    new Promise((done) => {
      // the pair at which the one before was killed may be there or not: none is sent under its ids
      const first = acknowledged.length / 2 + begun++;
      const p = spawn(process.execPath, [drawnWriter, job, "drawn", String(first)], { env: { ...process.env, ...environmentOf(home) } });
      running = p;
      let [text, said] = ["", ""];
      p.stdout.on("data", (d) => {
        text += d;
        const lines = text.split("\n");
        text = lines.pop() ?? "";
        for (const line of lines) acknowledged.push(...(JSON.parse(line) as Entry[]));
      });
      p.stderr.on("data", (d) => {
        said += d;
      });
      p.on("close", (code) => {
        if (code !== null) t.add("a writer that ended by itself", said);
        done();
      });
    });
  const all = (async () => {
    while (!over) await one();
  })();
  return {
    acknowledged,
    kill: () => void running?.kill("SIGKILL"),
    stop: () => {
      over = true;
      running?.kill("SIGKILL");
      return all;
    },
  };
}
/** Holds a job to what its writers were told; returns how many entries more of theirs are there. */
export function heldToWritten(found: readonly Entry[], { acknowledged }: Written, t: ReturnType<typeof troubles>): number {
  const own = found.filter((e) => e.who === "drawn");
  const byId = new Map(own.map((e) => [e.id, e]));
  if (byId.size !== own.length) t.add("doubled", `${own.length - byId.size} entries`);
  for (const e of acknowledged) {
    const there = byId.get(e.id);
    if (there === undefined) t.add("lost", e.id);
    else if (!isDeepStrictEqual(there, e)) t.add("not as written", e.id);
  }
  for (const id of byId.keys()) if (!byId.has(id.endsWith("a") ? id.replace(/a$/, "b") : id.replace(/b$/, "a"))) t.add("torn", id);
  return own.length - acknowledged.length;
}
