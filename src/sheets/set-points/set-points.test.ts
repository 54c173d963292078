import { expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { setPointLeverage } from "../../physics/dial-law";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { setPoints } from "./sheet";
import { settingOf } from "./solve";
import theory from "./theory.md";

const conversion = { intermediateHz: 455e3, oscillator: "above" } as const;
const base = { oscillator: "above", intermediate: 455e3 } as const;
const off = (shift: number, more: (f: number) => number = () => 0) =>
  [3.5e6, 3.6e6, 3.75e6, 3.9e6, 4e6].map((is) => ({ is, says: is + shift * setPointLeverage(is, 3.5e6, conversion) + more(is) }));
const text = (marks: { says: number; is: number }[]) => marks.map((m) => `${m.says} Hz, ${m.is} Hz`).join("; ");
const ask = (marks: string) => answer(setPoints, emptyBench, { draws: 400, points: 11, overrides: { marks } });

it("gives back the move that made the scale wrong, and nothing is left: the limiting case", () => {
  const y = settingOf({ ...base, marks: off(-3000) }).move();
  expect(y.shift).toBeCloseTo(-3000, 6);
  expect(Math.abs(y.worstLeft)).toBeLessThan(1e-6);
});
it("is the least squares of one unknown: no other move leaves less", () => {
  const x = { ...base, marks: off(1500, (f) => 800 * Math.sin(f / 1e5)) };
  const y = settingOf(x).move();
  const rest = (d: number) => x.marks.reduce((s, m) => s + (m.says - m.is - d * setPointLeverage(m.is, 3.5e6, conversion)) ** 2, 0);
  for (const d of [-300, -30, 30, 300]) expect(rest(y.shift + d)).toBeGreaterThan(rest(y.shift));
});
it("says whether one setting can be true over the whole scale, and what cures what is left", () => {
  const can = orThrow(ask(text(off(-3000))));
  expect(can.headline).toContain("the whole scale is then true");
  expect(can.findings.some((f) => f.id.startsWith("set-point-whole"))).toBe(false);
  expect(can.findings.find((f) => f.id === "set-point-move")!.do).toContain("from its usual side");
  const runs = orThrow(ask(text(off(-3000, (f) => (f - 3.75e6) * 0.04))));
  expect(runs.headline).toContain("no one setting is true over the whole scale");
  expect(runs.findings.find((f) => f.id === "set-point-whole-no")!.do).toContain("bandspread trimmer");
});
it("counts the noise of a mark once: what is left is as uncertain as the move, and no more", () => {
  const { shift, worstLeft, overTolerance } = orThrow(ask(text(off(-3000)))).results;
  const ofMove = setPointLeverage(4e6, 3.5e6, conversion) * Math.max(shift.high! + 3000, -3000 - shift.low!);
  expect(Math.max(Math.abs(worstLeft.low!), Math.abs(worstLeft.high!))).toBeLessThan(1.2 * ofMove);
  expect(overTolerance.high!).toBeLessThan(-1000);
});
it("refuses a mark that is nowhere near its marker, and too few", () => {
  const issue = (t: string) => {
    const r = ask(t);
    return r.ok ? "" : `${r.issues[0].path}: ${r.issues[0].code}`;
  };
  expect(issue("3.5 MHz, 3.5 MHz; 7 MHz, 3.6 MHz")).toBe("marks row 2: not-one-mark");
  expect(issue("3.5 MHz, 3.5 MHz")).toBe("marks: too-few");
});
it("recomputes the worked example of its page", () => {
  const rows = [...theory.matchAll(/\| ([\d.]+) MHz \| (-[\d.]+) kHz \| ([\d.]+) \|/g)];
  expect(rows).toHaveLength(3);
  const marks = rows.map(([, f, e]) => ({ is: Number(f) * 1e6, says: Number(f) * 1e6 + Number(e) * 1e3 }));
  for (const [, f, , g] of rows) expect(setPointLeverage(Number(f) * 1e6, 3.5e6, conversion)).toBeCloseTo(Number(g), 3);
  const y = settingOf({ ...base, marks }).move();
  expect(y.shift).toBeCloseTo(-3000, -1);
  expect(Math.abs(y.worstLeft)).toBeLessThan(1);
});
