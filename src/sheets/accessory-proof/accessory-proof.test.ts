import { describe, expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { benchOfSet } from "../../job/view";
import { patterns } from "../../set/patterns/kinds";
import { orThrow } from "../../units/issue";
import { accessoryProof } from "./sheet";
import theory from "./theory.md";

const set = { ...patterns[1], chassis: { state: "isolated", isolation: "none", note: "" } as const };
const on = (overrides: Record<string, string> = {}, fitting = "qm") =>
  orThrow(answer(accessoryProof, benchOfSet(set, `fittings.${fitting}`), { draws: 400, points: 11, overrides }));
const whole = {
  levelBefore: "12 uV",
  levelWithout: "12.3 uV",
  levelWith: "10 uV",
  widthBefore: "6.1 kHz",
  widthWithout: "6 kHz",
  connectorRead: "0.1 V",
  tapWithout: "250 V",
  tapWith: "247 V",
  heaterVolts: "6.2 V",
};
const ids = (a: ReturnType<typeof on>): string[] => a.findings.map((f) => f.id);

it("recomputes its worked example (the decibel's definition)", () => {
  const a = on({ levelBefore: "12 uV", levelWithout: "12.6 uV", levelWith: "10 uV" });
  const said = [...theory.matchAll(/^\| (without, over before|with, over without) +\| (-?[\d.]+) dB +\|$/gm)].map((m) => Number(m[2]));
  expect(said).toHaveLength(2);
  expect(a.results.gainLeft.value).toBeCloseTo(said[0], 2);
  expect(a.results.gainWith.value).toBeCloseTo(said[1], 2);
});
describe("both states", () => {
  it("are proved once all is read and holds", () => {
    const a = on(whole);
    expect(a.headline).toMatch(/^Both states are proved/);
    expect(a.results.toRead.value).toBe(0);
    expect(a.findings.every((f) => f.severity === "note")).toBe(true);
  });
  it("lack by name what was not read, and tell the order of reading it", () => {
    const a = on(Object.fromEntries(Object.entries(whole).filter(([n]) => n !== "levelWith")));
    expect(a.headline).toMatch(/^Not proved yet: 1 reading is still missing/);
    expect(a.findings.find((f) => f.id === "proof-order")?.says).toContain(
      "Still to be read: generator level for the usual output now, accessory on.",
    );
    expect(on().results.toRead.value).toBe(9);
  });
  it("fail where the receiver is deaf without it, or does not do what was stated with it", () => {
    const deaf = on({ ...whole, levelWithout: "18 uV", levelWith: "15 uV" });
    expect(ids(deaf)).toContain("proof-gainLeft-no");
    expect(deaf.headline).toMatch(/^Not proved: without the accessory/);
    expect(ids(on({ ...whole, levelWith: "40 uV" }))).toContain("proof-beyond-no");
    expect(ids(on({ ...whole, levelWith: "3 uV", statedGain: "12 dB" }))).toContain("proof-beyond-yes");
  });
  it("are too close to call where the generator can't tell", () =>
    expect(ids(on({ ...whole, levelWithout: "13.4 uV", levelWith: "11 uV" }))).toContain("proof-gainLeft-open"));
  it("stop at a connector that carries B+", () => {
    const a = on({ ...whole, connectorRead: "180 V" });
    expect(a.findings[0]).toMatchObject({ id: "proof-connector-live", severity: "danger", state: "open-dead" });
    expect(ids(on({ ...whole, connectorRead: "4 V" }))).toContain("proof-connector-no");
  });
});
it("wants of a marker generator that it doesn't pull the tuning, and nothing of a supply that a battery is", () => {
  const a = on({ levelBefore: "10 uV", levelWithout: "10.2 uV", pulled: "20 Hz", powerFrom: "a battery" }, "markers");
  expect(a.headline).toMatch(/^Both states are proved/);
  expect(ids(on({ pulled: "800 Hz" }, "markers"))).toContain("proof-pull-no");
});
