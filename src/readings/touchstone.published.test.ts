/**
 * Source: Touchstone File Format Specification 2.1 (IBIS Open Forum, January 2024), numbered examples as transcribed in public parser test
 * suites; the noise-figure value follows from example 19 by the noise-parameter equation. Rules without an example are cited by their clause.
 */
import { describe, expect, it } from "vitest";
import { orThrow } from "../units/issue";
import { bytesOf } from "./shared-readings.testdata";
import { readTouchstone, sweepOfNetwork, writeTouchstone } from "./touchstone";

const text = (s: string) => new TextEncoder().encode(s);
const read = (s: string, name = "x.ts") => orThrow(readTouchstone(text(s), name));
const refuse = (s: string, name = "x.ts") => {
  const r = readTouchstone(text(s), name);
  if (r.ok) throw new Error("was read");
  return r.issues[0];
};
const polar = (n: { re: readonly Float64Array[]; im: readonly Float64Array[] }, k: number, p = 0) => [
  Math.hypot(n.re[k][p], n.im[k][p]),
  (Math.atan2(n.im[k][p], n.re[k][p]) * 180) / Math.PI,
];
const rows2 = "2 0.95 -26 3.57 157 0.04 76 0.66 -14\n22 0.60 -144 1.30 40 0.14 40 0.56 -85\n";

describe("option line", () => {
  it("defaults: a bare # is GHz S MA R 50", () => {
    const n = read("#\n1 0.5 45\n", "x.s1p");
    expect([n.frequencyHz[0], n.parameter, n.format, n.referenceOhm[0]]).toEqual([1e9, "S", "MA", 50]);
    expect(polar(n, 0)[1]).toBeCloseTo(45, 10);
  });
  it("takes its words in any order and case, with tabs", () =>
    expect(read("#\tri  s\tR 75\tkhz\n455 0 0\n", "x.s1p")).toMatchObject({
      format: "RI",
      referenceOhm: [75],
      frequencyHz: Float64Array.of(455e3),
    }));
  it("ignores a second one, and says so", () => {
    const n = read("# MHz S MA R 50\n1 0.1 0\n# GHz S DB R 75\n2 0.1 0\n", "x.s1p");
    expect(n.frequencyHz[1]).toBe(2e6);
    expect(n.warnings[0]).toContain("second option line");
  });
  it("is required in version 1", () => expect(refuse("1 0.5 45\n", "x.s1p").code).toBe("no-option-line"));
  it("R without a space is read with a warning", () => expect(read("# MHz S MA R50\n1 0 0\n", "x.s1p").warnings[0]).toContain("no space"));
  it("several references stand for the ports (1.1)", () =>
    expect(read(`# GHz S MA R 0.01 50\n${rows2}`, "x.s2p").referenceOhm).toEqual([0.01, 50]));
  it("a comment before it and after data, exponents", () =>
    expect(read("! title # no\n# MHz S RI R 50\n1 1e-3 -2.5E+01 ! note\n", "x.s1p").im[0][0]).toBe(-25));
});

describe("data", () => {
  it("example 19: two-port order 11 21 12 22, noise resistance times R", () => {
    const n = read(`# !\n${rows2}! NOISE\n4 0.7 0.64 69 0.38\n18 2.7 0.46 -33 0.40\n`, "x.s2p");
    expect(polar(n, 2)[0]).toBeCloseTo(3.57, 10);
    expect(polar(n, 1)[0]).toBeCloseTo(0.04, 10);
    expect(n.noise.map((x) => x.resistanceOhm)).toEqual([19, 20]);
    const { minimumDb, sourceMagnitude: m, sourceDeg: d, resistanceOhm: r } = n.noise[0];
    const opt = [m * Math.cos((d * Math.PI) / 180), m * Math.sin((d * Math.PI) / 180)];
    const nf = 10 ** (minimumDb / 10) + (4 * r * (opt[0] ** 2 + opt[1] ** 2)) / (50 * ((1 + opt[0]) ** 2 + opt[1] ** 2));
    expect(Math.abs(10 * Math.log10(nf) - 1.784)).toBeLessThan(5e-4);
  });
  it("example 18: version 2 states noise resistance in ohm, references per port", () => {
    const n = read(
      `[Version] 2.0\n#\n[Number of Ports] 2\n[Two-Port Data Order] 21_12\n[Number of Frequencies] 2\n[Number of Noise Frequencies] 2\n[Reference] 50 25.0\n[Network Data]\n${rows2}[Noise Data]\n4 0.7 0.64 69 19\n18 2.7 0.46 -33 20\n[End]\n`,
    );
    expect(n.noise[0].resistanceOhm).toBe(19);
    expect(n.referenceOhm).toEqual([50, 25]);
  });
  it("example 21: 12_21 swaps the middle pairs", () => {
    const n = read(
      "[Version] 2.0\n#\n[Number of Ports] 2\n[Number of Frequencies] 1\n[Two-Port Data Order] 12_21\n[Network Data]\n2 0.95 -26 3.57 157 0.04 76 0.66 -14\n[End]\n",
    );
    expect(polar(n, 1)[0]).toBeCloseTo(3.57, 10);
    expect(polar(n, 2)[0]).toBeCloseTo(0.04, 10);
  });
  it("examples 10 and 8: version 1 Z is normalised (0.99 x 75 = 74.25 ohm), version 2 is not", () => {
    const one = read("# MHz Z MA R 75\n100 0.99 -4\n200 0.80 -22\n300 0.707 -45\n400 0.40 -62\n500 0.01 -89\n", "x.s1p");
    const two = read(
      "[Version] 2.0\n# MHz Z MA\n[Number of Ports] 1\n[Number of Frequencies] 5\n[Reference] 20.0\n[Network Data]\n100 74.25 -4\n200 60 -22\n300 53.025 -45\n400 30 -62\n500 0.75 -89\n[End]\n",
    );
    for (let p = 0; p < 5; p++) expect(polar(one, 0, p)[0]).toBeCloseTo(polar(two, 0, p)[0], 9);
    expect(polar(one, 0)[0]).toBeCloseTo(74.25, 9);
  });
  it("example 9: 0.894 at -12.136 degrees is 196.076 - j367.119 ohm", () => {
    const n = read("# MHz S MA R 50\n2.000 0.894 -12.136\n", "x.s1p");
    const [a, b] = [n.re[0][0], n.im[0][0]];
    const d = (1 - a) ** 2 + b ** 2;
    expect(Math.abs((50 * (1 - a * a - b * b)) / d - 196.076)).toBeLessThan(6e-4);
    expect(Math.abs((100 * b) / d + 367.119)).toBeLessThan(6e-4);
  });
  it("example 12: with R 1 the H values are plain", () =>
    expect(polar(read("# kHz H MA R 1\n2 .95 -26 3.57 157 .04 76 .66 -14\n", "x.s2p"), 0)[0]).toBeCloseTo(0.95, 10));
  it("example 15: four ports row by row", () => {
    const n = read(
      "# GHz S MA R 50\n5.00000 0.60 161.24 0.40 -42.20 0.42 -66.58 0.53 -79.34\n0.40 -42.20 0.60 161.20 0.53 -79.34 0.42 -66.58\n0.42 -66.58 0.53 -79.34 0.60 161.24 0.40 -42.20\n0.53 -79.34 0.42 -66.58 0.40 -42.20 0.60 161.24\n",
    );
    expect(n.ports).toBe(4);
    expect(polar(n, 12)[0]).toBeCloseTo(0.53, 10);
  });
  it("example 7: lower triangle, reference over two lines", () => {
    const n = read(
      "[Version] 2.1\n# GHz S MA R 50\n[Number of Ports] 4\n[Number of Frequencies] 1\n[Reference] 50 75\n0.01 0.01\n[Matrix Format] Lower\n[Network Data]\n5 0.60 161.24\n0.40 -42.20 0.60 161.20\n0.42 -66.58 0.53 -79.34 0.60 161.24\n0.53 -79.34 0.42 -66.58 0.40 -42.20 0.60 161.24\n[End]\n",
    );
    expect(n.referenceOhm).toEqual([50, 75, 0.01, 0.01]);
    expect(polar(n, 3)[0]).toBeCloseTo(0.53, 10);
    expect(polar(n, 12)[0]).toBeCloseTo(0.53, 10);
  });
  it("three ports have no 21/12 swap", () =>
    expect(polar(read("# GHz S MA R 50\n1 .1 0 .2 0 .3 0\n.4 0 .5 0 .6 0\n.7 0 .8 0 .9 0\n", "x.s3p"), 1)[0]).toBeCloseTo(0.2, 10));
  it("six ports wrap after four pairs", () => {
    const row = (r: number) => Array.from({ length: 6 }, (_, c) => `${r}.${c + 1} 0`);
    const body = [1, 2, 3, 4, 5, 6].map((r) => `${row(r).slice(0, 4).join(" ")}\n${row(r).slice(4).join(" ")}`).join("\n");
    const n = read(`# GHz S RI R 50\n1 ${body}\n`, "x.s6p");
    expect(n.re[5 * 6 + 2][0]).toBeCloseTo(6.3, 10);
  });
  it("noise begins where the frequency does not rise (normalised R: 10 is 500 ohm)", () => {
    const n = read(
      "# GHz S RI R 50\n1 0 0 1 0 1 0 0 0\n75 0 0 1 0 1 0 0 0\n75.05 0 0 1 0 1 0 0 0\n100 0 0 1 0 1 0 0 0\n! NOISE\n70 2.5 0.5 45 10\n75 2.7 0.5 45 10\n75.05 2.6 0.7 90 20\n85 2.5 0.5 45 10\n",
      "thru.s2p",
    );
    expect([n.frequencyHz.length, n.noise.length, n.noise[0].resistanceOhm]).toEqual([4, 4, 500]);
  });
  it("line ends CR, LF and CRLF; a two-port point over two lines", () => {
    expect(read("# MHz S RI R 50\r1 0.1 0.2 ! note\r\r2 0.1 0.2\r", "x.s1p").frequencyHz.length).toBe(2);
    expect(read("# MHz S MA R 50\n1 0.1 0 0.9 10\n 0.9 10 0.1 0\n").ports).toBe(2);
  });
  it("a byte-order mark and non-ASCII in comments are let pass", () =>
    expect(read("\uFEFF# MHz S RI R 50\n1 0 0 ! 5°\n", "x.s1p").frequencyHz[0]).toBe(1e6));
  it("missing [End] and order are warned of", () =>
    expect(read("[Version] 2.0\n# MHz\n[Number of Ports] 2\n[Network Data]\n1 0 0 1 0 1 0 0 0\n").warnings.join()).toMatch(
      /\[End\].*21_12/,
    ));
});

describe("refuses, naming the line", () => {
  it.each([
    ["# MHz S RI R 50\n2 0 0\n1 0 0\n", "x.s1p", "unsorted", "line 3"],
    ["# MHz S DB R 50\n1 -inf 0\n", "x.s1p", "not-a-number", "line 2"],
    ["# MHz S RI R 50\n1,0 0,1 0,2\n", "x.s1p", "decimal-comma", "line 2"],
    ["# MHz S RI R 50\n1 0 0\n", "x.s2p", "wrong-ports", "line 2"],
    ["# MHz S RI R 50\n1 0 0 1 0 1 0 0 0\n2 0 0 1 0\n", "x.s2p", "truncated", "line 3"],
    ["# MHz S RI R 50\n1 0 0\n1 0 1\n2 0 0\n", "x.s1p", "duplicate-frequency", "line 3"],
    ["# parsec\n1 0 0\n", "x.s1p", "bad-option", "line 1"],
    ["", "x.s1p", "empty", "x.s1p"],
    ["\u0000\u0001\u0002", "x.s1p", "binary", "x.s1p"],
  ])("case %#", (body, name, code, where) => {
    const issue = refuse(body, name);
    expect(issue.code).toBe(code);
    expect(issue.path).toContain(where);
    expect(issue.expected.length).toBeGreaterThan(3);
  });
});

it("comes back from its own writing", () => {
  const n = read(`# MHz S DB R 50\n${rows2}`, "x.s2p");
  const again = read(writeTouchstone(n));
  for (let k = 0; k < 4; k++)
    for (let p = 0; p < 2; p++) expect(Math.hypot(again.re[k][p] - n.re[k][p], again.im[k][p] - n.im[k][p])).toBeLessThan(1e-9);
});
it("reads every format example that a general RF library keeps", () => {
  const files = [
    "touchstone_ex_11.s2p",
    "touchstone_ex_12.ts",
    "touchstone_ex_12_g.ts",
    "touchstone_ex_16.ts",
    "touchstone_ex_2.ts",
    "touchstone_ex_6.ts",
    "touchstone_ex_8.s1p",
  ];
  const ports = [2, 2, 2, 6, 1, 4, 1];
  expect(files.map((f) => orThrow(readTouchstone(bytesOf(`touchstone-examples/${f}`), f)).ports)).toEqual(ports);
  const eight = orThrow(readTouchstone(bytesOf("touchstone-examples/touchstone_ex_8.s1p"), "touchstone_ex_8.s1p"));
  expect(sweepOfNetwork(eight, "8").ok).toBe(true);
});
