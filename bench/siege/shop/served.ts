/** Shops that are served on this machine, each by a process of its own, with what it logs of defects and what memory it takes. */
import { spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import { createServer } from "node:net";
import type { Home } from "../../../src/store/home";
import { built, environmentOf } from "../server";
import { host } from "./asking";

/** As the launcher starts it. */
const asLaunched = ["--max-semi-space-size=64", "--interrupt-budget=200000"];
const freePort = (): Promise<number> =>
  new Promise((done) => {
    const s = createServer().listen(0, "127.0.0.1", () => {
      const { port } = s.address() as { port: number };
      s.close(() => done(port));
    });
  });
export interface ShopServed {
  readonly port: number;
  readonly defects: readonly string[];
  /** what it holds of memory now, MB */
  readonly memoryMb: () => number;
  readonly kill: () => void;
}
/** A shop that is served on this machine, with what it logs of defects. */
export async function served(home: Home): Promise<ShopServed> {
  const port = await freePort();
  const words = ["serve", "--host", "127.0.0.1", "--port", String(port), "--proxy", `https://${host}`];
  const p = spawn(process.execPath, [...asLaunched, built, ...words], {
    env: { ...process.env, ...environmentOf(home), FETTLE_TRACE: "1" },
  });
  const defects: string[] = [];
  p.stderr.on("data", (d: Buffer) => {
    const text = d.toString("utf8");
    if (!/Error\b|"event":"defect"/.test(text)) return;
    // what is no line of the log is a trace
    for (const line of text.split("\n")) if (line.includes('"event":"defect"') || /^\w*Error\b/.test(line)) defects.push(line);
  });
  await new Promise<void>((done, failed) => {
    p.stdout.on("data", (d: Buffer) => {
      if (d.includes("The shop")) done();
    });
    p.on("exit", () => failed(new Error("the shop's server ended")));
  });
  const memoryMb = (): number => Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${p.pid}/status`, "utf8"))?.[1]) / 1024;
  return { port, defects, memoryMb, kill: () => void p.kill("SIGKILL") };
}
