import { describe, expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { benchOf, benchOfSet, viewOf } from "../../job/view";
import { patterns } from "../../set/patterns/kinds";
import { leakageLimitA } from "../../standards/electrolytics";
import { orThrow } from "../../units/issue";
import { accessoryCapacitors } from "./sheet";
import theory from "./theory.md";

const set = { ...patterns[1], chassis: { state: "isolated", isolation: "none", note: "" } as const };
const crestV = Math.SQRT2 * 290 * 1.085;
const on = (capacitors: string, more: Record<string, string> = {}) =>
  orThrow(answer(accessoryCapacitors, benchOfSet(set, "fittings.qm"), { draws: 5, overrides: { capacitors, ...more } }));
const found = (a: ReturnType<typeof on>, id: string) => a.findings.find((f) => f.id === id);
const whole =
  "wax paper, coupling, 0.01 uF, , 400; electrolytic, filter, 10 uF, 3 uF, 450; mica, tuned circuit, 1500 pF, 1480 pF, 500; ceramic, series at B+, 1000 pF, , 500";

describe("the capacitor in series at B+", () => {
  it("comes first in the table, whatever else is worse, and is measured before anything is plugged in", () => {
    const a = on(whole);
    expect(a.tables[0].rows.map((r) => r[0])).toEqual(["series at B+", "filter", "coupling", "tuned circuit"]);
    expect(found(a, "accessory-series-4")).toMatchObject({ severity: "act", state: "open-dead" });
    expect(a.headline).toMatch(/^The series capacitor at B\+ first: measure/);
  });
  it("is danger as paper, or rated under the crest of this set, or with a leak; and sound only as measured", () => {
    const one = (row: string) => found(on(row), "accessory-series-1")!.severity;
    expect(crestV).toBeGreaterThan(440);
    expect(one("wax paper, series at B+, 1000 pF, , 600")).toBe("danger");
    expect(one("ceramic, series at B+, 1000 pF, , 400, 0 mA")).toBe("danger");
    expect(one("ceramic, series at B+, 1000 pF, , 1000, 0.01 mA")).toBe("danger");
    expect(one("ceramic, series at B+, 1000 pF, , 1000, 0 mA")).toBe("note");
  });
  it("meets the receiver's B+ though a battery feeds the accessory; its other parts don't", () => {
    const a = on("ceramic, series at B+, 1000 pF, , 250, 0 mA; electrolytic, filter, 10 uF, , 25, 0.01 mA", { powerFrom: "a battery" });
    expect(found(a, "accessory-series-1")?.severity).toBe("danger");
    expect(a.tables[0].rows.map((r) => r[6])).toEqual(["replace", "sound"]);
  });
  it("is missed where the lead hangs on a B+ point and none is listed; not at the antenna terminal", () => {
    expect(found(on("mica, tuned circuit, 1500 pF, , 500"), "accessory-series-missing")?.severity).toBe("danger");
    expect(
      found(on("mica, tuned circuit, 1500 pF, , 500", { hangsOn: "the antenna terminal" }), "accessory-series-missing"),
    ).toBeUndefined();
  });
});
describe("the others", () => {
  it("go for paper, for drying out, and for a tuned circuit a tenth off; a mica that reads as marked stays", () => {
    const a = on(whole);
    expect(a.tables[0].rows.map((r) => r[6])).toEqual(["measure first", "replace", "replace untested", "leave it"]);
    expect(found(a, "accessory-replace")?.says).toContain("dried out");
    expect(a.parts.map((p) => p.part)).toEqual(["accessory's capacitor, filter", "accessory's capacitor, coupling"]);
    const off = on("mica, tuned circuit, 1500 pF, 1300 pF, 500");
    expect(off.tables[0].rows[0][6]).toBe("replace");
    expect(off.parts[0].kind).toBe("silver mica or C0G ceramic");
  });
  it("old electrolytics that nobody measured are reformed or replaced, new ones left", () => {
    const row = "electrolytic, cathode bypass, 25 uF, , 25";
    expect(on(row).tables[0].rows[0][6]).toBe("reform or replace");
    expect(on(row, { made: "new parts" }).tables[0].rows[0][6]).toBe("leave it");
  });
});
it("reads its own card, the rows of this accessory alone", () => {
  const cells = (n: number, accessory: string, kind: string, duty: string, value: string) => ({
    [`row ${n}: Accessory`]: accessory,
    [`row ${n}: Kind`]: kind,
    [`row ${n}: Duty`]: duty,
    [`row ${n}: Value`]: value,
    [`row ${n}: Rated V`]: "500",
  });
  const fields = {
    ...cells(1, "Q multiplier", "ceramic", "series at B+", "1000 pF"),
    ...cells(2, "marker generator", "paper", "coupling", "0.01 uF"),
    ...cells(3, "qm", "mica", "tuned", "1500 pF"),
    "row 3: Measured value": "1.49 nF",
  };
  const job = { format: "fettle-job", version: 5, id: "j", name: "j", created: "2026-01-01T00:00:00Z", set } as const;
  const bench = benchOf(
    viewOf({
      ...job,
      entries: [{ id: "e", at: "2026-01-02T00:00:00Z", who: "t", kind: "form", form: "accessory-capacitors", fields }],
    }),
    "fittings.qm",
  );
  const a = orThrow(answer(accessoryCapacitors, bench, { draws: 5 }));
  expect(a.tables[0].rows.map((r) => r[0])).toEqual(["series at B+", "tuned circuit"]);
});
it("recomputes its worked example (JAN-C-62 as two amateurs quote it; f = 1/(2 pi sqrt(LC)))", () => {
  expect(leakageLimitA("JAN-C-62", 10e-6, 450)).toBeCloseTo(0.7e-3, 12);
  expect(theory).toContain("0.70 mA");
  expect(455e3 * (1 / Math.sqrt(0.9) - 1)).toBeCloseTo(24.6e3, -2);
});
