import { describe, expect, it } from "vitest";
import { keptIn } from "./kept";

const of = (source: string): string[] => keptIn("x.ts", source);
describe("what a file keeps outside its functions", () => {
  it.each([
    ["let count = 0;", "count can be set anew"],
    ["const seen = new Map<string, number>(); export const f = (k: string) => seen.set(k, 1);", "seen is written to"],
    ["const list: number[] = []; function f() { list.push(1); }", "list is written to"],
    ["const held = { at: { n: 0 } }; const f = () => { held.at.n += 1; };", "held is written to"],
    ["const room = new Float64Array(8); function f() { room[0] = 1; }", "room is written to"],
    ["const solver = new Solver();", "solver is made once by new Solver"],
    ["const known = new WeakMap();", "known is made once by new WeakMap"],
  ])("finds %s", (source, told) => {
    expect(of(source)).toContain(told);
  });
  it.each([
    "const words = new Set(['a']); export const f = (w: string) => words.has(w);",
    "const list = [3, 1]; export const f = () => [...list].sort();",
    "const room = [1]; export function f() { const room: number[] = []; room.push(2); return room; }",
    "export const f = () => { let n = 0; n += 1; return n; };",
  ])("leaves %s alone", (source) => {
    expect(of(source)).toEqual([]);
  });
});
