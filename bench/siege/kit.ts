/** What every part of the siege is built with: chances that can be repeated, a tally, stores that are thrown away after. */
import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";

export interface Tally {
  readonly attack: string;
  readonly count: number;
  /** figures in a sentence */
  readonly said: string;
  /** what broke, a line each; nothing of it is to be there */
  readonly broke: readonly string[];
}
/** One part: how many of its full count are to be tried. */
export type Part = (share: number) => Promise<Tally>;

export const seed = 20_260_101;
/** So many values of a kind, the same ones every time. */
export const some = <T>(kind: fc.Arbitrary<T>, count: number): T[] => fc.sample(kind, { numRuns: count, seed });
export const part = (share: number, full: number): number => Math.max(1, Math.round(share * full));
export const folder = (): string => mkdtempSync(join(tmpdir(), "fettle-siege-"));

/** Keeps the first of each kind of trouble, and counts the rest. */
export function troubles(): { readonly add: (kind: string, example: string) => void; readonly lines: () => string[] } {
  const seen = new Map<string, { readonly example: string; count: number }>();
  return {
    add: (kind, example) => {
      const s = seen.get(kind);
      if (s) s.count++;
      else seen.set(kind, { example: example.slice(0, 300), count: 1 });
    },
    lines: () => [...seen].map(([kind, s]) => `${kind} (${s.count} times), such as ${s.example}`),
  };
}
/** The first place in some data where a number is none, as a path. */
export function notFinite(data: unknown, at = ""): string | undefined {
  if (typeof data === "number") return Number.isFinite(data) ? undefined : at;
  if (ArrayBuffer.isView(data)) return [...(data as unknown as Iterable<number>)].every(Number.isFinite) ? undefined : at;
  if (typeof data !== "object" || data === null) return undefined;
  for (const [k, v] of Object.entries(data)) {
    const found = notFinite(v, `${at}.${k}`);
    if (found !== undefined) return found;
  }
  return undefined;
}
/** Words that no bench writes, and that careless code trips over. */
export const nasty: fc.Arbitrary<string> = fc.oneof(
  fc.constantFrom(
    ...["", " ", "0", "-0", "-1", "1e999", "1e308", "-1e308", "1e-320", "NaN", "Infinity", "null", "undefined", "[]", "{}", "true"],
    ...["constructor", "__proto__", "prototype", "toString", "hasOwnProperty", "valueOf", "__proto__.x", "stages.__proto__.kind"],
    ...[
      "..",
      "../../x",
      "/",
      "%00",
      "a\u0000b",
      "\u001b[2J",
      "\u202eabc",
      "\ud800",
      "=1+1",
      "@x",
      "-",
      "--",
      "--help",
      "-1 V",
      "1 V u 1e308 kV",
    ],
    ...[
      "9".repeat(400),
      "x".repeat(5000),
      "(".repeat(300),
      " ".repeat(3000),
      "\n",
      "1,2,3",
      "S9+60",
      "1e30 V",
      "-1e30 Hz",
      "1e-30 F",
      "0 Hz",
    ],
  ),
  fc.string({ maxLength: 40 }),
  fc.double().map(String),
);
/** From 0 to under 1. */
export type Chance = () => number;
/** A small generator of chances, so that a round comes again. Source: Park and Miller, CACM 31 (1988) 1192. */
export const chances = (seed: number): Chance => {
  let x = seed;
  return () => {
    x = (48271 * x) % 2147483647;
    return x / 2147483647;
  };
};
