import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect } from "vitest";
import { stepById } from "../../job/steps";
import { commandLine } from "./main";

/** One figure of an answer as the command line prints it for programs. */
export interface Figure {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}
export interface Said {
  readonly headline: string;
  readonly results: Readonly<Record<string, Figure>>;
  readonly findings: readonly {
    readonly id: string;
    readonly severity: string;
    readonly says: string;
    readonly do?: string;
    readonly state: string;
  }[];
  readonly tables: readonly { readonly id: string; readonly rows: readonly (readonly (string | number)[])[] }[];
}
interface Next {
  readonly step: string;
  readonly wanted: readonly string[];
}

/** Reads of an invented world's step, by its number; the truth behind them is asked for apart. */
export function worldNamed(name: string) {
  const { steps } = JSON.parse(readFileSync(`samples/worlds/jobs/${name}.json`, "utf8")) as {
    steps: { n: number; reads: unknown; truth: unknown }[];
  };
  const at = (n: number) => steps.find((s) => s.n === n)!;
  return { reads: <R>(n: number): R => at(n).reads as R, truth: <T>(n: number): T => at(n).truth as T };
}
export interface ChartRead {
  readonly rows: readonly {
    readonly tube: string;
    readonly electrode: string;
    readonly chartV: number;
    readonly sourceOhm: number;
    readonly meter: string;
    readonly foundV: number;
    readonly foundMeterOhm: number;
    readonly leftV: number;
    readonly leftMeterOhm: number;
  }[];
}
export interface SweepRead {
  readonly frequencyHz: readonly number[];
  readonly outputDb: readonly number[];
}
export interface DialRead {
  readonly ranges: readonly { readonly rows: readonly { readonly signalHz: number; readonly dialHz: number }[] }[];
}
export const sweepCsv = (s: SweepRead): string => `Hz,dB\n${s.frequencyHz.map((f, i) => `${f},${s.outputDb[i]}`).join("\n")}\n`;
export const dialCsv = (d: DialRead, range: number, unitHz: number, heading: string): string =>
  `reading,${heading}\n${d.ranges[range].rows.map((r) => `${r.dialHz / unitHz},${r.signalHz / unitHz}`).join("\n")}\n`;
/** B+ at a filter capacitor: at which socket it is read, by the chart, and now. */
export type BPlusRow = readonly [socket: string, chartV: number, readV: number];
/** The voltage chart's rows as its card has them, B+ first, where every stage's volts come from. */
export function chartCsv(chart: ChartRead, of: "found" | "left", bPlus: readonly BPlusRow[]): string {
  const rows = chart.rows.map((r) => {
    const range = r.meter.startsWith("20") ? r[`${of}MeterOhm`] / 20e3 : "";
    return [r.tube, r.electrode, r.chartV, r.sourceOhm, r[`${of}V`], range].join(",");
  });
  const supply = bPlus.map(([socket, chartV, readV]) => `${socket},B+,${chartV},,${readV},500`);
  return ["Tube,Electrode,Chart V,Source Ω if known,Measured V,Range V", ...supply, ...rows].join("\n");
}

/** Everything that a step rests on, through steps that are no longer open. */
function foundations(id: string, open: ReadonlySet<string>): readonly string[] {
  return (stepById(id)?.rests ?? []).flatMap((r) => (open.has(r) ? [r] : foundations(r, open)));
}
/** No step stands before one that it rests on, none twice, and hand-over comes last, after the final safety test. */
function inOrder(steps: readonly string[]): void {
  expect(new Set(steps).size).toBe(steps.length);
  const open = new Set(steps);
  for (const [i, s] of steps.entries())
    for (const f of foundations(s, open)) expect(steps.indexOf(f), `${f} before ${s} in ${steps.join(" ")}`).toBeLessThan(i);
  if (open.has("35")) expect(steps.slice(-2)).toEqual(["35", "36"]);
}

/** Plays a job through the command line: every act must succeed and leave the next steps in order; what is refused says why. */
export function playerOf(job: string) {
  const folder = mkdtempSync(join(tmpdir(), "whole-job-"));
  let minutes = 0;
  const run = async (...argv: string[]) => {
    const out: string[] = [];
    const err: string[] = [];
    const code = await commandLine({
      out: (t) => void out.push(t),
      err: (t) => void err.push(t),
      progress: () => undefined,
      page: { columns: 90, bold: (s) => s },
      now: () => new Date(Date.UTC(2026, 1, 1, 8, minutes++)).toISOString(),
      env: { FETTLE_STORE: join(folder, "jobs.db") },
    }).run(argv);
    return { code, out: out.join("\n"), err: err.join("\n") };
  };
  const next = async (): Promise<readonly Next[]> => JSON.parse((await run("next", job, "--json")).out).steps;
  const act = async (command: string, ...rest: string[]): Promise<string> => {
    const r = await run(command, job, ...rest);
    expect(r.err).toBe("");
    expect(r.code, `${command} ${rest.join(" ")}`).toBe(0);
    inOrder((await next()).map((n) => n.step));
    return r.out;
  };
  const refused = async (command: string, ...rest: string[]): Promise<string> => {
    const r = await run(command, job, ...rest);
    expect(r.code, `${command} ${rest.join(" ")} was not refused`).toBe(2);
    return r.err;
  };
  const fill = (card: string, fields: Readonly<Record<string, string>>, ...rest: string[]) =>
    act("fill", card, ...Object.entries(fields).map(([k, v]) => `${k}=${v}`), ...rest);
  const ask = async (sheet: string, ...rest: string[]): Promise<Said> => {
    const r = await run("sheet", sheet, job, "--draws", "300", "--json", ...rest);
    expect(r.err).toBe("");
    return JSON.parse(r.out);
  };
  const file = (name: string, text: string): string => {
    const path = join(folder, name);
    writeFileSync(path, text);
    return path;
  };
  const done = async (...steps: string[]): Promise<void> => {
    for (const s of steps) await act("done", s);
  };
  return { folder, run, next, act, refused, fill, ask, file, done, end: () => rmSync(folder, { recursive: true, force: true }) };
}

/** The truth lies within what an answer said. */
export function holds(figure: Figure, truth: number): void {
  expect(figure.low).toBeLessThanOrEqual(truth);
  expect(figure.high).toBeGreaterThanOrEqual(truth);
}
/** What a finding of an answer says, by its id or by its severity. */
export const saysOf = (a: Said, which: string): string =>
  a.findings
    .filter((f) => f.id === which || f.severity === which)
    .map((f) => f.says)
    .join("\n");
/** A figure of a sweep as the command line prints it: value and interval in kHz, as Hz. */
export function readFigure(out: string, name: string): Figure {
  const m = new RegExp(`${name} +([\\d.]+) kHz \\(([\\d.]+) to ([\\d.]+)\\)`).exec(out)!;
  const [value, low, high] = m.slice(1).map((t) => 1e3 * Number(t));
  return { value, low, high };
}
