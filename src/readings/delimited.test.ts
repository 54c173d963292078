import { describe, expect, it } from "vitest";
import { orThrow } from "../units/issue";
import { readTable } from "./delimited";
import { readSweep } from "./read-sweep";
import { sweepFigures } from "./sweep-figures";

const text = (s: string) => new TextEncoder().encode(s);
const levels = [-40, -20, -6, 0, -6.5, -21, -41];
const rows = (by: string, comma = false) =>
  levels.map((l, i) => `${450 + 2 * i}${by}${comma ? String(l).replace(".", ",") : l}`).join("\n");
const read = (s: string, o = {}) => orThrow(readSweep(text(s), "s.csv", o));
const refuse = (s: string, o = {}) => {
  const r = readSweep(text(s), "s.csv", o);
  if (r.ok) throw new Error("was read");
  return r.issues[0];
};

describe("what else a table may be", () => {
  it("one column of numbers is a log without times, and no sweep", () => {
    const t = orThrow(readTable(text("# counter, each minute\n7100012\n7100010\n7100007\n"), "log.txt"));
    expect(Array.from(t.columns[0].values)).toEqual([7100012, 7100010, 7100007]);
    expect(refuse("1\n2\n3\n4\n5\n").code).toBe("one-column");
  });
  it("comments with a # are no network data", () => {
    const s = read(`# sweep of s parameters, level in db\n# kHz dB\n${rows(" ")}`);
    expect(Array.from(s.levelDb)).toEqual(levels);
  });
  it("a standing wave ratio is a reflection, and never under one", () => {
    const s = read(`MHz,VSWR\n7.0,3\n7.1,2\n7.2,1.5\n7.3,2\n7.4,3\n`);
    expect(s.reflection).toBe(true);
    // (3 - 1) / (3 + 1)
    expect(s.levelDb[0]).toBeCloseTo(20 * Math.log10(0.5), 9);
    expect(refuse(`MHz,VSWR\n7.0,3\n7.1,2\n7.2,0.5\n7.3,2\n7.4,3\n`).code).toBe("under-one");
    const names = sweepFigures(s, "x").map((f) => f.name);
    expect(names).toContain("VSWR there");
    expect(names).not.toContain("insertion loss");
  });
});

describe("table sweeps", () => {
  it.each([
    ["comma, units in the heading", `frequency_kHz,level_dB\n${rows(",")}`],
    ["semicolon with decimal comma", `Frequency (kHz);Level [dB]\n${rows(";", true)}`],
    ["tab", `f/kHz\tlevel dB\n${rows("\t")}`],
    ["tab with decimal comma", `f kHz\tdB\n${rows("\t", true)}`],
    ["spaces under a commented heading", `# kHz dB\n${rows("  ")}`],
    ["CRLF and a blank end", `kHz,dB\r\n${rows(",").replaceAll("\n", "\r\n")}\r\n\r\n`],
    ["old units", `kc,db\n${rows(",")}`],
    ["quoted cells", `"kHz","dB"\n${rows(",")}`],
  ])("%s", (_, body) => {
    const s = read(body);
    expect(Array.from(s.frequencyHz)).toEqual([450e3, 452e3, 454e3, 456e3, 458e3, 460e3, 462e3]);
    expect(Array.from(s.levelDb)).toEqual(levels);
  });
  it("UTF-16 with a mark", () => {
    const body = `kHz,dB\n${rows(",")}`;
    const bytes = new Uint8Array(2 + body.length * 2);
    bytes.set([0xff, 0xfe]);
    for (let i = 0; i < body.length; i++) bytes[2 + 2 * i] = body.charCodeAt(i);
    expect(orThrow(readSweep(bytes, "u.csv")).levelDb[4]).toBe(-6.5);
  });
  it("volts become decibels, a falling sweep is reversed", () => {
    const s = read(`kHz,V\n460,0.1\n459,0.2\n458,1\n457,0.2\n456,0.1`);
    expect(s.frequencyHz[0]).toBe(456e3);
    expect(s.levelDb[0]).toBeCloseTo(-20, 10);
    expect(s.warnings.join()).toContain("reversed");
  });
  it("no heading: Hz when it can only be Hz, refused when it cannot be told", () => {
    expect(read(levels.map((l, i) => `${450000 + i},${l}`).join("\n")).warnings.join()).toContain("read as Hz");
    expect(refuse(rows(",")).code).toBe("no-unit");
    expect(read(rows(","), { frequencyUnit: "kHz" }).frequencyHz[0]).toBe(450e3);
  });
  it("S-units only by a stated law", () => {
    const body = `kHz,S\n${[1, 3, 7, 9, 7, 3, 1].map((s, i) => `${450 + i},${s}`).join("\n")}`;
    expect(refuse(body).code).toBe("s-units");
    expect(read(body, { sMeterDb: (s: number) => (s - 9) * 6 }).levelDb[0]).toBe(-48);
  });
});
describe("refuses, naming the line", () => {
  it.each([
    ["kHz,dB\n450,-1\n451,nan\n452,-3\n453,-3\n454,-9\n455,-9", "not-a-number", "line 3"],
    ["kHz,dB\n450,-1\n451,x\n452,-3\n453,-3\n454,-9\n455,-9", "not-a-number", "line 3"],
    ["kHz,dB\n450,-1\n452,-2\n451,-3\n453,-3\n454,-9", "unsorted", "line 4"],
    ["kHz,dB\n450,-1\n451,-2\n451,-3\n453,-3\n454,-9", "duplicate-frequency", "line 4"],
    ["kHz,dB\n450,-1\n451,-2,7\n452,-3\n453,-3\n454,-9", "wrong-count", "line 3"],
    ["kHz,V\n450,1\n451,0\n452,1\n453,1\n454,1", "not-positive", "line 3"],
    ["kHz,dB\n450,-1\n451,-2", "too-few", "s.csv"],
    ["hello\nworld", "no-table", "line 1"],
    ["", "empty", "s.csv"],
  ])("case %#", (body, code, where) => {
    const issue = refuse(body);
    expect(issue.code).toBe(code);
    expect(issue.path).toContain(where);
  });
  it("a file of 100 MB, before reading it", () => {
    const r = readSweep(new Uint8Array(100 * 1024 * 1024), "huge.csv");
    expect(r.ok || r.issues[0].code).toBe("too-large");
  });
});
