import { expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { benchOfSet } from "../../job/view";
import { lampInSeries } from "../../physics/lamp";
import { patterns } from "../../set/patterns/kinds";
import { orThrow } from "../../units/issue";
import { bPlus } from "../b-plus/sheet";
import { bringUp } from "./sheet";
import theory from "./theory.md";

const e1 = { lineVoltage: "120 V", ratedLine: "120 V", bulbRated: "120 V", bulbWatts: "100 W", plateWatts: "65 W" };
const ask = (overrides: Record<string, string>, set = patterns[1]) =>
  orThrow(answer(bringUp, benchOfSet(set, ""), { draws: 200, overrides }));

it("an invented set, worked out apart from this code: expects 88.5 V and 0.40 A; 44 V is an overload, and 112 V without the rectifier puts it after it", () => {
  const sound = ask(e1);
  expect(sound.results.setExpected.value).toBeCloseTo(88.6, 0);
  expect(sound.results.currentExpected.value).toBeCloseTo(0.4, 2);
  const over = ask({ ...e1, setVolts: "44 V" });
  expect(Math.abs(over.results.equivalentWatts.value! / 212 - 1)).toBeLessThan(0.01);
  const ask1 = over.findings.find((f) => f.id === "bring-up-overload")!;
  expect(ask1.do).toContain("Do not take the bulb away");
  const found = ask({ ...e1, setVolts: "44 V", setVoltsNoRectifier: "112 V" }).findings.find((f) => f.id === "bring-up-b-plus-short")!;
  expect(found).toMatchObject({ severity: "danger" });
  expect(found.says).toContain("first filter capacitor");
  expect(found.says).toContain("Primary and heaters are sound");
  expect(ask({ ...e1, setVolts: "44 V", setVoltsNoRectifier: "46 V" }).findings.some((f) => f.id === "bring-up-primary-short")).toBe(true);
  expect(ask({ ...e1, setVolts: "88 V" }).findings.some((f) => f.id === "bring-up-load-right")).toBe(true);
});
it("stops on the reading without the rectifier alone, and withholds the plan after any stop", () => {
  const alone = ask({ ...e1, setVoltsNoRectifier: "30 V" });
  expect(alone.findings[0]).toMatchObject({ id: "bring-up-primary-short", severity: "danger" });
  expect(alone.headline).toMatch(/^STOP, unplug the set/);
  expect(ask({ ...e1, setVolts: "44 V" }).findings.some((f) => /^6\./.test(f.says))).toBe(false);
  expect(ask({ touchOne: "1.6 mA" }).headline).toMatch(/^STOP: its safety record fails/);
});
it("hands go in dead only, with their caution: the rectifier is put back in a step of its own", () => {
  for (const set of patterns) {
    const plan = ask({}, set).findings.filter((f) => /^\d\. /.test(f.says));
    expect(plan.map((f) => f.says.slice(0, 2))).toEqual(Array.from({ length: plan.length }, (_, i) => `${i + 1}.`));
    for (const f of plan.filter((p) => p.state === "open-live")) expect(f.do, f.says).not.toMatch(/^put |solder|into its socket|pull /i);
    const back = plan.findIndex((f) => f.id === "bring-up-rectifier-back");
    if (set.pattern === "five-tube-live") expect(back).toBe(-1);
    else {
      expect(plan[back]).toMatchObject({ state: "open-dead" });
      expect(plan[back].before.map((c) => c.id)).toContain("open-dead");
      expect(plan[back + 1].before.map((c) => c.id)).toContain("open-live");
    }
  }
});
it("no limit of the variac's table lets a dead short behind the bulb pass, and a series string is not asked to pull a tube", () => {
  for (const set of patterns) {
    const a = ask({}, set);
    for (const r of a.tables.find((t) => t.id === "variac")!.rows) expect(Number(r[4])).toBeLessThan(0.85 * a.results.currentShort.value!);
  }
  const live = ask({}, patterns[0])
    .findings.map((f) => `${f.says} ${f.do}`)
    .join();
  expect(live).toContain("every tube in its socket");
  expect(live).not.toContain("the rectifier out");
});
it("a string of heaters is never asked to lose a tube, in any state of its readings, and a reading taken so proves nothing", () => {
  const text = (a: ReturnType<typeof ask>) => [a.headline, ...a.findings.map((f) => `${f.says} ${f.do ?? ""}`)].join(" ");
  const states: Record<string, string>[] = [
    {},
    { setVolts: "20 V" },
    { setVolts: "0 V" },
    { setVolts: "20 V", setVoltsNoRectifier: "117 V" },
  ];
  for (const more of states) {
    const a = ask(more, patterns[0]);
    expect(text(a)).not.toMatch(
      /pull the rectifier|rectifier out\. Expect|rectifier in\. Expect|[Tt]ransformer, the heater|[Pp]rimary and heaters/,
    );
  }
  const pulled = ask({ setVolts: "20 V", setVoltsNoRectifier: "60 V" }, patterns[0]);
  expect(pulled.results.equivalentNoRectifier.why).toContain("proves nothing");
  expect(pulled.findings.find((f) => f.id === "bring-up-string-open")).toBeDefined();
  expect(pulled.findings.find((f) => f.id === "bring-up-overload")!.do).toContain("No tube is pulled");
  expect(pulled.findings.some((f) => /b-plus-short|primary-short/.test(f.id))).toBe(false);
});
it("0 V behind the bulb is a dead short and says stop on every face; nothing read is nothing", () => {
  for (const set of patterns)
    for (const more of [{ setVolts: "0 V" }, ...(set === patterns[0] ? [] : [{ setVoltsNoRectifier: "0 V" }])] as Record<
      string,
      string
    >[]) {
      const a = ask(more, set);
      expect(a.headline).toMatch(/^STOP, unplug the set: 0 V/);
      const f = a.findings.find((x) => x.id === "bring-up-dead-short")!;
      expect(f.severity).toBe("danger");
      expect(a.findings.some((x) => /^\d\./.test(x.says))).toBe(false);
      if (more.setVolts) expect(a.results.overload.why).toContain("dead short");
    }
  expect(ask({}).results.overload.why).toBe("not read yet");
});
it("never puts a hand on anything while the power is on", () => {
  for (const set of patterns) {
    const all = ask({}, set)
      .findings.map((f) => `${f.says} ${f.do ?? ""}`)
      .join(" ");
    expect(all).not.toMatch(/hand bears/);
    for (const felt of all.match(/[^.;]*\bfelt?\b[^.;]*/g) ?? []) expect(felt).toMatch(/unplugged/);
  }
});
it.each([60, 90, 117, 125])("expects at %i V of line what the sheet on B+ expects, and its variac table follows the same law", (line) => {
  for (const set of patterns) {
    const overrides = { lineVoltage: `${line} V` };
    const mine = ask(overrides, set);
    const theirs = orThrow(answer(bPlus, benchOfSet(set, ""), { draws: 200, overrides }));
    for (const part of ["value", "low", "high"] as const)
      expect(mine.results.bPlusExpected[part]).toBeCloseTo(theirs.results.bPlusFirst[part]!, 2);
    const half = mine.tables.find((t) => t.id === "variac")!.rows[2];
    const there = orThrow(answer(bPlus, benchOfSet(set, ""), { draws: 5, overrides: { lineVoltage: `${Number(half[0])} V` } }));
    expect(Math.abs(Number(/^\d+/.exec(String(half[2]))![0]) - there.results.bPlusFirst.value!)).toBeLessThan(6);
  }
});
it("a set that reaches the line's volts has no bulb before it: no figure, and why", () => {
  expect(ask({ ...e1, setVolts: "121 V" }).results.equivalentWatts.why).toContain("not in series");
});
it("a live chassis has a plan of its own, first, and is never earthed", () => {
  const a = ask({}, patterns[0]);
  expect(a.findings[0]).toMatchObject({ id: "chassis-may-be-live", severity: "danger" });
  expect(a.findings[0].do).toContain("Never earth it");
  expect(a.headline).toMatch(/^Stop: this chassis is live.* First a line isolation transformer/);
  expect(ask({}).findings.some((f) => f.id === "chassis-may-be-live")).toBe(false);
});
it("says why a variac does little before a tube rectifier heats, and otherwise with silicon; the table expects nothing then", () => {
  const tube = ask({ rectifierType: "5Y3GT or 80" });
  expect(tube.findings.find((f) => f.id === "bring-up-variac")!.says).toContain("does little before a tube rectifier heats");
  expect(String(tube.tables.find((t) => t.id === "variac")!.rows[0][2])).toContain("none yet");
  expect(ask({ rectifierType: "silicon" }).findings.find((f) => f.id === "bring-up-variac")!.says).toContain("from the first volts");
});
it("keeps the order of the plan: looked over and measured before any power, the rectifier out before in", () => {
  const steps = ask({})
    .findings.filter((f) => /^\d\./.test(f.says))
    .map((f) => f.says.slice(0, 1));
  expect(steps).toEqual(["1", "2", "3", "4", "5", "6", "7"]);
});
it("recomputes the worked example of its page", () => {
  const rows = [...theory.matchAll(/so (\d+) W\s+\| ([\d.]+) V\s+\| ([\d.]+) A|sound, (\d+) W\s+\| ([\d.]+) V\s+\| ([\d.]+) A/g)];
  expect(rows).toHaveLength(2);
  for (const r of rows) {
    const [watts, volts, ampere] = r[1] ? r.slice(1, 4).map(Number) : r.slice(4, 7).map(Number);
    const y = lampInSeries(120, 100, 120, 120 ** 2 / watts);
    expect(y.setV).toBeCloseTo(volts, 0);
    expect(y.ampere).toBeCloseTo(ampere, 2);
  }
});
