import { describe, expect, it } from "vitest";
import { answer } from "../ask/answer";
import { setFigures } from "../ask/care";
import type { AnySheet } from "../ask/contract";
import type { Hazard } from "../ask/findings";
import { resolveInputs } from "../ask/resolve";
import { benchOfSet, subjectsOf } from "../job/view";
import { emptyBench } from "../set/bench";
import type { SetDescription } from "../set/describe";
import { lookUp, quantityAt } from "../set/paths";
import { patterns } from "../set/patterns/kinds";
import { hazardousDcV, isOpen, type State } from "../standards/cautions";
import { orThrow } from "../units/issue";
import { asRead, statedFirst } from "./as-read.testdata";
import { dcBlock } from "./dc-block/sheet";
import { sheets } from "./index";

const noChance = { draws: 1, stream: () => new Float64Array(1), wanted: () => true };
const few = { draws: 120, points: 41 };
/** For what an answer says and warns of, whatever its figures. */
const least = { draws: 24, points: 11 };
const benchFor = (s: AnySheet, set: SetDescription) => benchOfSet(set, subjectsOf(set, s.subject, s.fitting, s.stageKinds)[0] ?? "");
const pairs = sheets.flatMap((s) => patterns.map((p) => [s.id, p.pattern, s, p] as const));

describe.each(sheets.map((s) => [s.id, s] as const))("the declaration of %s", (_, s) => {
  it("asks a question, names what it shows first, and explains itself", () => {
    expect(s.question.endsWith("?")).toBe(true);
    expect(s.first.length).toBeLessThanOrEqual(5);
    for (const n of s.first) expect(s.inputs[n]).toBeDefined();
    // a chance is told in whole per cent, which don't read back as it is
    for (const i of Object.values(s.inputs)) expect("dimension" in i && i.dimension).not.toBe("chance");
    for (const n of s.key) expect(s.results[n]).toBeDefined();
    for (const f of s.figures) for (const t of f.traces) expect(s.curves[t.curve]).toBeDefined();
    expect(s.theory).toMatch(/^# .+\n[\s\S]*## Formulas[\s\S]*## Limits[\s\S]*## Worked example/);
    if (s.joins) expect(s.inputs.chassis).toBeDefined();
  });
  it("runs with no job at all, on its defaults, each of which names its source", () => {
    const a = orThrow(answer(s, emptyBench, few));
    expect(a.missing).toEqual([]);
    for (const q of a.quantities) expect(q.quantity.source.length).toBeGreaterThan(3);
    expect(a.weakest).toBe("assumed");
    expect(a.headline.length).toBeGreaterThan(20);
    // an answer goes from the worker to the page whole
    expect(JSON.stringify(structuredClone(a))).toBe(JSON.stringify(a));
  });
  it("gives the same answer twice, and its draws nest", () => {
    const one = orThrow(answer(s, emptyBench, few));
    expect(JSON.stringify(orThrow(answer(s, emptyBench, few)))).toBe(JSON.stringify(one));
    // a sheet whose only doubt is which of two whole numbers it is may come out alike, and one whose answer is itself a chance is drawn from none
    if (!["which-marker", "band-edge", "set-points", "suspects", "reform", "accessory-capacitors", "accessory-proof"].includes(s.id))
      expect(JSON.stringify(orThrow(answer(s, emptyBench, { ...few, seed: 2 })).results)).not.toBe(JSON.stringify(one.results));
  });
  it("rests its findings on results that it declares, with ids of its own", () => {
    const a = orThrow(answer(s, emptyBench, few));
    for (const f of a.findings) for (const r of f.restsOn) expect(s.results[r], `${f.id}: ${r}`).toBeDefined();
    expect(new Set(a.findings.map((f) => f.id)).size).toBe(a.findings.length);
  });
  it("refuses an input it does not know, a wrong unit and a bad option, naming each", () => {
    const q = orThrow(resolveInputs(s, emptyBench)).quantities[0];
    const r = resolveInputs(s, emptyBench, { notAnInput: "5 pF", [q.path]: "12 parsec" });
    expect(r.ok ? [] : r.issues.map((i) => [i.path, i.code])).toEqual([
      [q.path, "wrong-unit"],
      ["notAnInput", "unknown-input"],
    ]);
  });
});

/** Fittings that hang on the antenna terminal, where no B+ is. */
const atTerminal = new Set(["marker-generator", "converter"]);

/** Worked out from the set itself, not from any tag: what can hurt at the place that a sheet's steps are carried out. */
function hazardsAtTap(set: SetDescription, at: string): Hazard[] {
  // the inside of a stage stands at the plates' supply
  const stage = at.startsWith("stages.") ? { node: "b2" } : undefined;
  const tapId = at === "" ? set.taps[0].id : (lookUp(set, `${at}.tap`) as string);
  const tap = stage ?? set.taps.find((t) => t.id === tapId);
  // a sheet about a band or the dial has no tap
  if (!tap) return [];
  // a tap without a supply node is a terminal outside: no B+ there
  if (tap.node === "") return [];
  const volts = quantityAt(set, `supplies.nodes.${tap.node}.volts`)!.value;
  const peak = quantityAt(set, "supplies.secondaryVoltage")!.value * Math.SQRT2;
  return [...(volts > hazardousDcV.value ? (["b-plus"] as const) : []), ...(peak > hazardousDcV.value ? (["stored-charge"] as const) : [])];
}

/** Words that tell of hands inside the set, whatever the tag says. */
const inside =
  /\b(solder|unsolder|clips? (?:on|put)|probe|(?:at|to|on|from) (?:the|its|each) (?:mixer |output |driver's )?(?:plate|grid|cathode|screen|tank|primary|slug|filter capacitor)|discharg|unplug(?!ged in)|slug|padder|bypass capacitor|re-?peak|ohmmeter)\b/i;

describe.each(pairs)("%s on the pattern %s", (_id, _p, s, set) => {
  const bench = benchFor(s, set);
  const a = orThrow(answer(s, bench, { ...least, overrides: asRead(s) }));
  const figures = setFigures(bench);
  it("has something to say, without a missing input", () => {
    expect(a.missing).toEqual([]);
    expect(Object.values(a.results).some((f) => f.low !== null)).toBe(true);
  });
  it("carries the hazards of the place on every step it asks for", () => {
    const wanted = hazardsAtTap(set, bench.at);
    expect(a.findings.some((f) => f.id.startsWith("not-read"))).toBe(false);
    // before anything was read the step that asks for it is at the same place
    const unread = orThrow(answer(s, bench, least)).findings.filter(
      (f) => f.id.startsWith("not-read") && s.subject !== "band" && !atTerminal.has(s.fitting ?? ""),
    );
    for (const f of unread.filter((x) => isOpen(x.state))) for (const h of wanted) expect(f.hazards, f.id).toContain(h);
    if (!atTerminal.has(s.fitting ?? "") && s.subject !== "band") expect(wanted).toContain("b-plus");
    for (const f of a.findings) {
      if (!f.do || !isOpen(f.state)) continue;
      for (const h of wanted) expect(f.hazards, f.id).toContain(h);
    }
  });
  it("warns before a step where the state turns open, with this set's own volts, and not again", () => {
    let now: State = "desk";
    for (const f of a.findings) {
      if (!f.do) {
        expect(f.before).toEqual([]);
        continue;
      }
      const turned = isOpen(f.state) && f.state !== now;
      expect(
        f.before.some((c) => c.id === f.state),
        f.id,
      ).toBe(turned);
      if (turned) expect(f.before[0].says).toContain(figures.volts);
      if (!isOpen(f.state)) expect(f.before).toEqual([]);
      now = f.state;
    }
  });
  it("calls no step inside the set a step at the desk or the panel", () => {
    for (const f of a.findings.filter((x) => x.do !== undefined && !isOpen(x.state))) expect(`${f.id}: ${f.do}`).not.toMatch(inside);
    for (const m of a.next.filter((x) => !isOpen(x.state))) expect(`${m.inputs[0]}: ${m.how}`).not.toMatch(inside);
    for (const f of a.findings.filter((x) => x.state === "open-dead" && x.do !== undefined))
      expect(`${f.id}: ${f.do}`).not.toMatch(/set on\b(?! the (?:bench|table))/);
  });
});

it.each(pairs.filter(([, , s]) => s.inputs.chassis))(
  "%s on %s lets no what-if make a recorded chassis safe, and lets one try the danger",
  (_s, _p, s, set) => {
    for (const state of ["live", "unstated"] as const) {
      const bench = benchFor(s, { ...set, chassis: { state, isolation: "none", note: "" } });
      for (const chassis of ["isolated", "live-proved-dead"]) {
        const r = answer(s, bench, { ...least, overrides: { chassis } });
        expect(r.ok ? [] : r.issues.map((i) => [i.path, i.code])).toEqual([["chassis", "recorded-only"]]);
      }
    }
    const isolated = benchFor(s, { ...set, chassis: { state: "isolated", isolation: "none", note: "" } });
    expect(orThrow(answer(s, isolated, { ...least, overrides: { chassis: "live" } })).findings[0].id).toBe("chassis-may-be-live");
  },
);

it.each(pairs.filter(([, , s]) => s.joins))(
  "%s on %s stops first where the chassis is live or not stated, and never calls anything worth fitting then",
  (_s, _p, s, set) => {
    for (const state of ["live", "unstated"] as const) {
      const live = orThrow(answer(s, benchFor(s, { ...set, chassis: { state, isolation: "none", note: "" } }), least));
      expect(live.findings[0]).toMatchObject({ id: "chassis-may-be-live", severity: "danger" });
      expect(live.headline).toMatch(/^Stop/);
      expect(live.headline.toLowerCase()).not.toContain("worth fitting");
    }
    const recorded = orThrow(
      answer(s, benchFor(s, { ...set, chassis: { state: "live", isolation: "transformer-recorded", note: "" } }), least),
    );
    expect(recorded.findings[0].id).toBe("chassis-may-be-live");
    const proved = orThrow(answer(s, benchFor(s, { ...set, chassis: { state: "live", isolation: "proved-dead", note: "" } }), least));
    expect(proved.findings.some((f) => f.id === "chassis-may-be-live")).toBe(false);
  },
);

/** The ends of a band as described are leant on by few zero beats only. */
const fewBeats = { points: "8, 3.5 MHz, up; 52, 3.7 MHz, up; 86, 3.9 MHz, up" };
/** Inputs that act only under other inputs, and those. */
const under: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  levelDoubt: { levelBefore: "10 uV", levelWithout: "10 uV" },
  statedGain: { levelWithout: "10 uV", levelWith: "9 uV" },
  nullCoupling: { function: "reject", nullCircuit: "shunt" },
  nullLoopGain: { function: "reject", nullCircuit: "inverse-feedback" },
  reactanceShare: { cableLength: "1 cm" },
  audioFloor: { tankQ: "40" },
  deadZone: { method: "ear" },
  lowEdge: { licence: "own", highEdge: "3.95 MHz" },
  highEdge: { licence: "own", lowEdge: "3.45 MHz" },
  "band-edge audioHigh": { mode: "AM" },
  "band-edge low": fewBeats,
  "band-edge high": fewBeats,
  "dial low": fewBeats,
  "dial high": fewBeats,
  "tracking readingNoise": { readings: "1.7 MHz, 1.72 MHz; 4.6 MHz, 4.7 MHz" },
  "tracking coilDoubt": { readings: "1.7 MHz, 1.72 MHz; 4.6 MHz, 4.7 MHz" },
  "tracking trimmerDoubt": { readings: "1.7 MHz, 1.72 MHz; 4.6 MHz, 4.7 MHz" },
  "tracking padderDoubt": { readings: "1.7 MHz, 1.72 MHz; 4.6 MHz, 4.7 MHz" },
  "tracking gangDoubt": { readings: "1.7 MHz, 1.72 MHz; 4.6 MHz, 4.7 MHz" },
  "converter-setting readsLow": { heard: "28.2 MHz, 3.7 MHz" },
  "converter-setting heardDoubt": { heard: "28.2 MHz, 3.7 MHz" },
  "converter-setting levelDoubt": { levelWithout: "10 uV", levelWith: "9 uV" },
  "converter-setting padResistance": { levelWithout: "30 uV", levelWith: "1 uV" },
  "converter markerSpacing": { twoPath: "100 Hz, high", crystal: "24.5 MHz" },
  "converter markerError": { twoPath: "100 Hz, high", crystal: "24.5 MHz" },
  "sensitivity rfNoise": { rfTube: "as stated" },
  "sensitivity aheadNoise": { before: "a converter or preamplifier" },
  "sensitivity aheadGain": { before: "a converter or preamplifier" },
  "if-align crystalWidth": { narrowest: "single crystal" },
  "if-align canCapacitance": { humpSpacing: "7 kHz", humpValley: "1.6 dB" },
  "stage-gain gridLeak": { gridCurrents: "8, 9, 10" },
  "tracking peakDoubt": { peaks: "1.7 MHz, 1.75 MHz; 4.6 MHz, 4.7 MHz" },
  "coil depth": { winding: "several layers" },
  nullBalanceError: { function: "reject", nullCircuit: "subtraction" },
};
// the sheets on capacitors have tables and limits alone
describe.each(sheets.filter((s) => s.id !== "reform" && s.id !== "accessory-capacitors").map((s) => [s.id, s] as const))(
  "%s: every input is felt by some result",
  (_, s) => {
    const base = orThrow(resolveInputs(s, emptyBench));
    // Ratios and plate impedances do not feel the later cans; the response itself does, and is asked for every leaf.
    // A rating and what was measured are judged in findings, tolerances in a table; the plate's volts drive a triode alone.
    // The ends of a scale only refuse what lies off it; the tolerance of a station is felt in a table, the
    // noise of a mark in the draws alone.
    // What a chart teaches moves other inputs while they are gathered: chart.worlds.test.ts.
    const felt = (path: string) =>
      !(s.learns && /^chart(Line|Tolerance)$/.test(path)) &&
      !(s.id === "tracking" && /^(slugRange|trimmerTravel)$/.test(path)) &&
      (s.id === "if-response" ||
        !/^scale(Low|High)$|^stationTolerance$|^markReading$|^capacitorRating$|^measured(First|Heater)$|^heaterRated$|^(supply|part|tube)Tolerance$|^pointPlate$|^bPlus$|^fitted$|^shunt$|^bond$|^insulation$|^touch(One|Other)$|^connectorVolts$|^crystalWanted$|^highestVolts$|^formingCurrent$|^humpDifference$|^(readingUnknown|stageLimit|avcFromBfo|needleRead)$/.test(
          path,
        )) &&
      (s.id === "if-response" || !/^strip\.can[2-9]|^strip\.can1\.transconductance/.test(path));
    it.each(base.quantities.filter((q) => felt(q.path)).map((q) => [q.path, q] as const))("%s", (path, q) => {
      const choices = { ...statedFirst(s), ...(under[`${s.id} ${path}`] ?? under[path] ?? {}) };
      const value = q.quantity.value;
      const solveAt = (v: number) => {
        const r = orThrow(resolveInputs(s, emptyBench, choices));
        const target = r.quantities.find((x) => x.path === path)!;
        target.slot.holder[target.slot.key] = v;
        const plan = s.prepare(r.plain as never, 11, noChance);
        return {
          ...plan.solve(
            r.plain as never,
            Object.fromEntries(Object.entries(plan.axes).map(([k, x]) => [k, new Float64Array(x.length)])) as never,
            -1,
          ),
        };
      };
      const step =
        path === "dialError"
          ? 90e3
          : value === 0
            ? ({ frequency: s.id === "band-edge" ? 3000 : 300, capacitance: 5e-12, fraction: 0.1 }[q.dimension as "frequency"] ?? 0.1)
            : value * (s.id === "band-edge" && !/Edge$|^confidence$/.test(path) ? 10 : path === "confidence" ? -0.2 : 0.1);
      const before = solveAt(value);
      const after = solveAt(value + step);
      const moved = Object.keys(before).some((n) => {
        const [x, y] = [before[n], after[n]];
        return typeof x === "number" && typeof y === "number"
          ? Math.abs(x - y) > 1e-7 * Math.max(Math.abs(x), Math.abs(y))
          : typeof x !== typeof y;
      });
      expect(moved, `${path} from ${value} by ${step}`).toBe(true);
    });
  },
);

it("says which input is missing and how it is measured, instead of guessing", () => {
  const { assumed: _, ...required } = dcBlock.inputs.secondaryVoltage as { assumed: unknown };
  const strict = { ...dcBlock, inputs: { ...dcBlock.inputs, secondaryVoltage: required } } as unknown as AnySheet;
  const a = orThrow(answer(strict, emptyBench, least));
  expect(a.missing.map((m) => m.path)).toEqual(["secondaryVoltage"]);
  expect(a.headline).toContain("full winding voltage");
});
it("refuses an extra result at run time", () => {
  const wrong = {
    ...sheets[0],
    prepare: (best: never, n: number) => {
      const p = sheets[0].prepare(best, n, noChance);
      return { ...p, solve: (x: never, into: never) => ({ ...p.solve(x, into, -1), extra: 1 }) };
    },
  } as unknown as AnySheet;
  expect(() => answer(wrong, emptyBench, least)).toThrow("extra");
});
it("a changed hazard tag is caught: the check above fails when a step's tag is none", () => {
  const set = patterns[1];
  const s = dcBlock;
  const a = orThrow(answer(s, benchFor(s, set), least));
  const tampered = a.findings.map((f) => ({ ...f, hazards: ["none"] as const }));
  const wanted = hazardsAtTap(set, benchFor(s, set).at);
  expect(tampered.filter((f) => f.do).every((f) => wanted.every((h) => (f.hazards as readonly string[]).includes(h)))).toBe(false);
});
