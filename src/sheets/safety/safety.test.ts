import { describe, expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { isolatedAct } from "../../job/proved.testdata";
import { benchOf, benchOfSet, viewOf } from "../../job/view";
import { lineCurrentA } from "../../physics/discharge";
import { patterns } from "../../set/patterns/kinds";
import { orThrow } from "../../units/issue";
import { safety } from "./sheet";
import theory from "./theory.md";

const [live, isolated] = patterns;
const ask = (overrides: Record<string, string> = {}, set = isolated) =>
  orThrow(answer(safety, benchOfSet(set, ""), { draws: 200, overrides }));
const ids = (a: ReturnType<typeof ask>) => a.findings.map((f) => f.id);

it("0.05 uF on 117 V is over every limit; 4.7 nF of class Y2 is not, and is left alone", () => {
  const old = ask({ bypass: "0.05 uF", highLine: "1" });
  expect(old.results.bypassCurrent.value! * 1000).toBeCloseTo(2.21, 2);
  expect(old.findings.find((f) => f.id === "safety-line-bypass")).toMatchObject({ severity: "danger" });
  // 0.5 mA at 117 V and 60 Hz is 11.3 nF: 10 nF is the largest preferred value under it
  expect(old.parts.find((p) => p.kind === "Y2 or Y4")!.value).toBe("10 nF or less, or none");
  expect(ids(ask({ bypass: "4.7 nF", bypassClass: "Y2" }))).not.toContain("safety-line-bypass");
  expect(ids(ask({ bypass: "4.7 nF", bypassClass: "X2" }))).toContain("safety-line-bypass");
});
it("a live chassis is never earthed and offered no three-wire cord, and every step of it says line and chassis", () => {
  const a = ask({}, live);
  expect(a.findings[0]).toMatchObject({ id: "chassis-may-be-live", severity: "danger" });
  expect(a.findings[0].do).toMatch(/^Never earth it/);
  expect(ids(a)).not.toContain("safety-cord");
  expect(a.parts.some((p) => p.part.includes("cord"))).toBe(false);
  expect(JSON.stringify(a.findings.slice(1))).not.toMatch(/green to the chassis/);
});
it("on a live chassis asks for no measurement to earth, and calls a three-wire cord a danger", () => {
  const a = ask({ cord: "three-wire" }, live);
  expect(ids(a)).toContain("safety-cord-live");
  expect(ids(a)).toContain("safety-live-proofs");
  expect(ids(a)).not.toContain("safety-proof-wanted");
  expect(ids(ask({ insulation: "5 Megohm" }, live))).toContain("safety-record-contradicts");
});
it("lists no old capacitor that nobody has looked at", () => {
  expect(ask().parts.some((p) => p.part.includes("line to chassis"))).toBe(false);
  expect(ids(ask())).toContain("safety-line-bypass-look");
});
it("shows both practices for the cord, and defers to local code", () => {
  const says = ask().findings.find((f) => f.id === "safety-cord")!.says;
  for (const words of ["Practices differ", "ground loops", "Local code decides"]) expect(says).toContain(words);
});
it("no figure of a discharge is ever called safe: each says measure, and with the bleeder open it never falls", () => {
  const a = ask();
  expect(a.results.fallsOpen.why).toContain("never on its own");
  const stored = a.findings.find((f) => f.id === "safety-stored")!;
  expect(stored.says).toContain("if it is open, never");
  expect(stored.do!.match(/MEASURE/g)).toHaveLength(2);
  expect(JSON.stringify(a).toLowerCase()).not.toContain("safe to touch now");
  for (const r of a.tables[0].rows) expect(String(r[4])).toContain("MEASURE");
});
it("B+ at a connector is a danger above 60 V", () => {
  expect(ids(ask({ connectorVolts: "250 V" }))).toContain("safety-connector");
  expect(ids(ask({ connectorVolts: "48 V" }))).not.toContain("safety-connector");
});
describe("the safety record against its limits", () => {
  const job = (fields: Record<string, string>) =>
    benchOf(
      viewOf({
        format: "fettle-job",
        version: 5,
        id: "j",
        name: "j",
        created: "2026-01-01T00:00:00Z",
        set: isolated,
        entries: [
          isolatedAct(() => ({ id: "c", at: "2026-01-02T00:00:00Z", who: "t" })),
          { id: "e", at: "2026-01-02T00:00:00Z", who: "t", kind: "form", form: "safety-out", fields },
        ],
      }),
      "",
    );
  const said = (fields: Record<string, string>) => orThrow(answer(safety, job(fields), { draws: 50 }));
  const good = {
    "Bond, Ω": "0.05",
    "Insulation line to chassis, MΩ": "50",
    "Touch current one way, mA": "0.1",
    "Touch current other way, mA": "0.12",
  };
  it("holds, fails, or is not complete", () => {
    expect(ids(said(good))).toContain("safety-proof-held");
    expect(ids(said(good))).not.toContain("safety-proof-wanted");
    const failed = said({ ...good, "Touch current other way, mA": "1.4" }).findings.find((f) => f.id === "safety-proof-failed")!;
    expect(failed.severity).toBe("danger");
    expect(failed.says).toContain("1.40 mA");
    // a dead short reads zero, and zero is a value
    const short = said({ ...good, "Insulation line to chassis, MΩ": "0" }).findings.find((f) => f.id === "safety-proof-failed")!;
    expect(short.says).toContain("insulation from line to chassis 0");
    expect(said({ "Bond, Ω": "0.05" }).findings.find((f) => f.id === "safety-proof-wanted")!.says).toContain("touch current");
  });
});
it("recomputes the worked example of its page", () => {
  const rows = [...theory.matchAll(/\| ([\d.]+) µF\s+\| ([\d.]+) mA/g)];
  expect(rows).toHaveLength(3);
  for (const [, c, i] of rows) expect(lineCurrentA(Number(c) * 1e-6, 117, 60) * 1000).toBeCloseTo(Number(i), 2);
});

describe("a line bypass that nobody has looked for", () => {
  const survey = (rows: readonly (readonly string[])[], said?: string): ReturnType<typeof ask> => {
    const columns = ["Part", "Kind", "Duty", "Value", "Rated V"];
    const fields = Object.fromEntries(rows.flatMap((r, i) => r.map((text, c) => [`row ${i + 1}: ${columns[c]}`, text] as const)));
    const entry = { id: "s", at: "2026-01-01T00:00:00Z", who: "t", kind: "form", form: "capacitors", fields } as const;
    const more = said === undefined ? [] : [{ ...entry, id: "r", form: "safety-in", fields: { "Line bypass parts and class": said } }];
    const view = viewOf({ format: "fettle-job", version: 5, id: "j", name: "j", created: "", set: isolated, entries: [entry, ...more] });
    return orThrow(answer(safety, benchOf(view, ""), { draws: 50 }));
  };
  it("is told by what the largest usual one passes: 2 pi f C V, 2.2 mA at 117 V and 60 Hz", () => {
    const says = ask({ ratedLine: "117 V", lineFrequency: "60 Hz" }).findings.find((f) => f.id === "safety-line-bypass-look")!.says;
    expect(2 * Math.PI * 60 * 0.05e-6 * 117 * 1000).toBeCloseTo(2.2, 1);
    expect(says).toContain("passes up to 2.2 mA at 117 V, 60 Hz");
    expect(ask({ ratedLine: "230 V", lineFrequency: "50 Hz" }).findings.find((f) => f.id === "safety-line-bypass-look")!.says).toContain(
      "3.6 mA",
    );
  });
  it("has been looked for where the capacitor survey lists one, or two", () => {
    const a = survey([
      ["C1", "wax paper", "line bypass", "0.01 uF", "600"],
      ["C2", "paper", "Line bypass", "0.02 uF", "600"],
      ["C3", "wax paper", "coupling", "0.05 uF", "400"],
    ]);
    expect(ids(a)).not.toContain("safety-line-bypass-look");
    expect(a.quantities.find((q) => q.path === "bypass")!.quantity).toMatchObject({ value: expect.closeTo(30e-9, 12), origin: "stated" });
    expect(ids(survey([["C3", "wax paper", "coupling", "0.05 uF", "400"]]))).toContain("safety-line-bypass-look");
  });
  it("is there where the survey found one after it was said that there is none, and gone where it was taken out", () => {
    const rows = [["C1", "wax paper", "line bypass", "0.01 uF", "600"]];
    const [none, out] = ["none", "taken out"].map((said) => survey(rows, said).quantities.find((q) => q.path === "bypass")!.quantity.value);
    expect([none, out]).toEqual([expect.closeTo(10e-9, 12), 0]);
  });
  it.each([
    ["safety-in", "taken out", false],
    ["safety-out", "none", false],
    ["safety-in", "Removed, not replaced.", false],
    ["safety-in", "Y2, 2.2 nF", true],
    ["safety-in", "no class, 20 nF wax", true],
    ["safety-in", "none marked, 20 nF", true],
    ["safety-in", "removed, Y2 2.2 nF in its place", true],
    ["safety-out", "out of date wax paper", true],
  ])("is not asked about once %s says of it: %s", (form, said, isAsked) => {
    const fields = { "Line bypass parts and class": said };
    const entry = { id: "s", at: "2026-01-01T00:00:00Z", who: "t", kind: "form", form, fields } as const;
    const view = viewOf({ format: "fettle-job", version: 5, id: "j", name: "j", created: "", set: isolated, entries: [entry] });
    expect(ids(orThrow(answer(safety, benchOf(view, ""), { draws: 50 }))).includes("safety-line-bypass-look")).toBe(isAsked);
  });
});
