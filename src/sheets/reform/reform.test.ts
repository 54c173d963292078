import { expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { benchOf, viewOf } from "../../job/view";
import { emptyBench } from "../../set/bench";
import { patterns } from "../../set/patterns/kinds";
import { leakageLimitA } from "../../standards/electrolytics";
import { orThrow } from "../../units/issue";
import { reform } from "./sheet";
import theory from "./theory.md";

const survey =
  "wax paper, line bypass, 0.05 uF, 400; electrolytic, filter, 20 uF, 450, 0.9 mA; electrolytic, filter, 20 uF, 450, 4 mA; electrolytic, filter, 20 uF, 450, 40 mA; electrolytic, cathode bypass, 25 uF, 25; wax paper, output coupling, .02 uF, 400; mica, inside an IF can, 110 pF, 500; film, coupling, 0.01 uF, 400";
const ask = (capacitors: string) => orThrow(answer(reform, emptyBench, { draws: 5, overrides: { capacitors } }));

it("puts the line bypass first, paper in harm's way next, and measures electrolytics by the rule", () => {
  const a = ask(survey);
  const rows = a.tables[0].rows;
  expect(rows.map((r) => r[0]).slice(0, 2)).toEqual(["line bypass", "output coupling"]);
  expect(
    rows
      .filter((r) => r[0] === "filter")
      .map((r) => r[6])
      .sort(),
  ).toEqual(["reform", "replace", "sound"]);
  expect(a.results).toMatchObject({
    replaceUnseen: { value: 2 },
    toReform: { value: 2 },
    replaceMeasured: { value: 1 },
    sound: { value: 3 },
  });
  const f = a.findings.find((x) => x.id === "reform-row-3")!;
  expect(f.says).toContain("1.10 mA");
  expect(f.do).toContain("100 kΩ");
  expect(f.do).toContain("113 V, 225 V, 338 V, 405 V, 450 V");
  expect(a.findings.some((x) => x.id === "reform-mica")).toBe(true);
});
it("lists what to buy: a class for the line, film for paper, the crest for a filter", () => {
  const { parts } = ask(survey);
  // the line's own is asked for by the sheet on safety, within its limit
  expect(parts.some((p) => p.part.endsWith("line bypass"))).toBe(false);
  expect(parts.find((p) => p.part.endsWith("output coupling"))).toMatchObject({
    value: "22 nF",
    // the crest of the winding that is assumed here is over 400 V
    rating: "500 V, for a winding that is only assumed",
    was: "0.02 mfd, 400 V, wax paper",
  });
  expect(parts.find((p) => p.part.endsWith("filter"))).toMatchObject({ value: "22 µF" });
});
it("reads the card of the capacitor survey as it is written", () => {
  const fields = {
    "row 1: Part": "C1",
    "row 1: Kind": "Electrolytic",
    "row 1: Duty": "filter",
    "row 1: Value": "20 uF",
    "row 1: Rated V": "450",
    "row 1: Leakage mA": "4",
  };
  const bench = (more: Record<string, string>) =>
    benchOf(
      viewOf({
        format: "fettle-job",
        version: 5,
        id: "j",
        name: "j",
        created: "2026-01-01T00:00:00Z",
        set: patterns[1],
        entries: [{ id: "e", at: "2026-01-02T00:00:00Z", who: "t", kind: "form", form: "capacitors", fields: { ...fields, ...more } }],
      }),
      "",
    );
  expect(orThrow(answer(reform, bench({}), { draws: 5 })).results.toReform.value).toBe(1);
  const bad = orThrow(
    answer(
      reform,
      bench({ "row 2: Part": "C2", "row 2: Kind": "Mica", "row 2: Duty": "humming", "row 2: Value": "much", "row 2: Rated V": "500" }),
      { draws: 5 },
    ),
  );
  expect(bad.results.toReform.value).toBe(1);
  expect(bad.findings.filter((f) => f.id.startsWith("cell-not-read")).map((f) => f.says.split(":")[0])).toEqual([
    "capacitor survey, row 2, Duty",
    "capacitor survey, row 2, Value",
  ]);
  // what is printed over the column has no unit: picofarads or microfarads, nobody can tell
  const mica = { "row 2: Part": "C2", "row 2: Kind": "mica", "row 2: Duty": "inside an IF can", "row 2: Rated V": "500" };
  const asked = orThrow(answer(reform, bench({ ...mica, "row 2: Value": "110" }), { draws: 5 }));
  expect(asked.findings.find((f) => f.id.startsWith("cell-not-read"))!.says).toMatch(/“110” .*either 110 µF or 110 pF/);
  expect(asked.tables[0].rows).toHaveLength(1);
  expect(orThrow(answer(reform, bench({ ...mica, "row 2: Value": "110 pF" }), { draws: 5 })).tables[0].rows).toHaveLength(2);
  const all = orThrow(answer(reform, bench({ "row 1: Value": "20" }), { draws: 5 }));
  expect(all.headline).toContain("Not enough recorded");
});
it("a leakage of zero that was measured is a value", () => {
  const a = ask("electrolytic, filter, 20 uF, 450, 0");
  expect(a.tables[0].rows[0][6]).toBe("sound");
});
it("reforms attended, on an isolated supply, under a cover; restuffs with gloves and without fire", () => {
  const a = ask(survey);
  for (const f of a.findings.filter((x) => x.id.startsWith("reform-row")))
    for (const words of ["isolated from the line", "cover", "eye protection", "put out a fire", "never left alone", "attended to the end"])
      expect(f.do).toContain(words);
  const restuff = a.findings.find((f) => f.id === "reform-restuff")!;
  expect(`${restuff.says} ${restuff.do}`).toMatch(/chlorinated.*PCB.*Gloves.*[Nn]ever burn.*local rule/);
});
it("lists nothing that the card of parts replaced says is in already", () => {
  const bench = (replaced: string) =>
    benchOf(
      viewOf({
        format: "fettle-job",
        version: 5,
        id: "j",
        name: "j",
        created: "2026-01-01T00:00:00Z",
        set: patterns[1],
        entries: [
          { id: "e", at: "2026-01-02T00:00:00Z", who: "t", kind: "form", form: "capacitors", fields: surveyCard },
          {
            id: "p",
            at: "2026-01-03T00:00:00Z",
            who: "t",
            kind: "form",
            form: "parts",
            fields: { "row 1: Part": "C 14", "row 1: New value and rating": replaced },
          },
        ],
      }),
      "",
    );
  const surveyCard = {
    "row 1: Part": "C14",
    "row 1: Kind": "wax paper",
    "row 1: Duty": "output coupling",
    "row 1: Value": ".02 mfd",
    "row 1: Rated V": "400",
    "row 2: Part": "C15",
    "row 2: Kind": "wax paper",
    "row 2: Duty": "screen bypass",
    "row 2: Value": ".05 mfd",
    "row 2: Rated V": "400",
  };
  const names = (replaced: string) => orThrow(answer(reform, bench(replaced), { draws: 5 })).parts.map((p) => p.name);
  expect(names("")).toEqual(["C14", "C15"]);
  expect(names("22 nF, 630 V")).toEqual(["C15"]);
});
it("recomputes the worked example of its page", () => {
  const rows = [...theory.matchAll(/\| (JAN-C-62|plain foil|modern)\s+\| ([\d.]+) mA/g)];
  expect(rows).toHaveLength(3);
  for (const [, rule, limit] of rows) expect(leakageLimitA(rule, 20e-6, 450) * 1000).toBeCloseTo(Number(limit), 2);
});

it("never calls a filter capacitor sound that is rated under what the filter can reach", () => {
  const a = orThrow(
    answer(reform, emptyBench, { draws: 5, overrides: { capacitors: "electrolytic, filter, 20 uF, 300, 0.5 mA", highestVolts: "445 V" } }),
  );
  expect(a.tables[0].rows[0][6]).toBe("replace");
  expect(a.findings.find((f) => f.id === "reform-replace")!.says).toContain("under the 445 V");
});

it("knows a kind by one of its words: a survey of one paper capacitor is this set's, and no example", () => {
  const fields = {
    "row 1: Kind": "paper",
    "row 1: Duty": "coupling",
    "row 1: Value": "0.02 uF",
    "row 1: Rated V": "400",
    "row 1: Leakage mA": "0",
  };
  const entry = { id: "s", at: "2026-01-01T00:00:00Z", who: "t", kind: "form", form: "capacitors", fields } as const;
  const view = viewOf({ format: "fettle-job", version: 5, id: "j", name: "j", created: "", set: patterns[1], entries: [entry] });
  const a = orThrow(answer(reform, benchOf(view, ""), { draws: 5 }));
  expect(a.unread).toEqual([]);
  expect(a.tables[0].rows.map((r) => r.slice(0, 2))).toEqual([["coupling", "wax paper"]]);
});
