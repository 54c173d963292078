import { describe, expect, it } from "vitest";
import { answer } from "../ask/answer";
import { keptPath, resolveInputs } from "../ask/resolve";
import type { Entry } from "../job/document";
import { benchOf, subjectsIn, viewOf } from "../job/view";
import { patternById, patterns } from "../set/patterns/kinds";
import { bPlus } from "../sheets/b-plus/sheet";
import { converter } from "../sheets/converter/sheet";
import { sheetById, sheets } from "../sheets/index";
import { orThrow } from "../units/issue";
import type { Quantity } from "../units/quantity";
import { assignment } from "./assignment";
import { readAt } from "./read-paths";

const set = patternById("nine-tube-bandspread")!;
const view = (entries: readonly Entry[] = []) =>
  viewOf({ format: "fettle-job", version: 5, id: "j", name: "j", created: "2026-01-01T00:00:00Z", set, entries: [...entries] });
let n = 0;
const stamp = { newId: () => `e${n++}`, at: "2026-01-01T00:00:00Z", who: "t" };
const path = keptPath(converter, "fittings.converter", "twoPath") ?? "";
const keep = (text: string) => assignment(view(), path, text, { origin: "measured", why: "typed in" }, stamp);

it("keeps typed rows at the subject of their sheet, and the sheet reads them back as measured", () => {
  const v = view([orThrow(keep("800 Hz, low"))]);
  const a = orThrow(answer(converter, benchOf(v, "fittings.converter"), { draws: 5 }));
  const rows = a.rows.find((r) => r.path === "twoPath")!;
  expect(rows).toMatchObject({ origin: "measured", rows: [{ beat: 800, sense: 2 }] });
});
it.each([
  ["800 parsec, low", `${path} row 1 beat`, "wrong-unit"],
  ["800 Hz, sideways", `${path} row 1 sense`, "not-an-option"],
])("refuses %j at its cell", (text, at, code) => {
  const r = keep(text);
  expect(r.ok ? [] : r.issues.map((i) => [i.path, i.code])).toEqual([[at, code]]);
});
it("keeps no rows that cards or zero beats hold", () => {
  const r = assignment(view(), "bands.80.rowsDialPoints", "12, 3.5 MHz, up", { origin: "measured", why: "typed in" }, stamp);
  expect(r.ok ? [] : r.issues.map((i) => i.code)).toEqual(["no-such-path"]);
});

const put = (p: string, text: string, origin: "measured" | "stated" = "stated") =>
  assignment(view(), p, text, { origin, why: "typed in" }, stamp);
describe("a value goes only where a question reads it", () => {
  it("refuses a path that no input reads, and names what was meant", () => {
    for (const p of ["supplies.lineVoltage", "supplies.highLine", "fittings.qm.secondaryVoltage", "stages.rf.lineVoltage"]) {
      const r = put(p, p.endsWith("highLine") ? "1.1" : "121 V");
      expect(r.ok ? [] : r.issues.map((i) => [i.path, i.code]), p).toEqual([[p, "no-such-path"]]);
    }
    const r = put("supplies.lineVoltage", "121 V");
    expect(r.ok ? "" : r.issues[0].expected).toMatch(/Closest: line\.today \(today's line/);
  });
  it("keeps what a meter reads at the outlet apart from the rated line, and the sheets use each for its own", () => {
    const r = put("line.voltage", "121 V", "measured");
    expect(r.ok ? "" : r.issues[0].expected).toContain("line.today");
    const today = orThrow(put("line.today", "121 V", "measured"));
    const a = orThrow(answer(bPlus, benchOf(view([today]), ""), { draws: 5 }));
    const of = (n: string) => a.quantities.find((q) => q.path === n)!.quantity;
    expect(of("lineVoltage")).toMatchObject({ value: 121, origin: "measured" });
    expect(of("ratedLine").value).toBe(117);
    expect(orThrow(put("line.voltage", "220 V")).kind).toBe("values");
  });
  it.each(patterns.map((p) => [p.pattern, p] as const))(
    "on %s every path that it takes is read by some question, as it was written",
    (_, described) => {
      const document = { format: "fettle-job", version: 5, id: "j", name: "j", created: "2026-01-01T00:00:00Z", set: described } as const;
      const base = viewOf({ ...document, entries: [] });
      const asked = sheets.flatMap((s) => {
        const subjects = subjectsIn(base, s);
        return Object.keys(s.inputs).map((n) => [s, n, subjects.map((at) => [at, keptPath(s, at, n)] as const)] as const);
      });
      const paths = new Set(asked.flatMap(([, , kept]) => kept.flatMap(([, path]) => path ?? [])));
      const read = [...paths].flatMap((p) => {
        const input = readAt(base, p);
        return input ? [[p, input] as const] : [];
      });
      expect(read.length).toBeGreaterThan(50);
      for (const [p, input] of read) {
        const [sheet, name, kept] = asked.find(([s, n, kept]) => s.inputs[n] === input && kept.some(([, path]) => path === p))!;
        const subjects = kept.flatMap(([at, path]) => (path === p ? [at] : []));
        const value = input.assumed?.value ?? Math.max(input.min ?? 0, Math.min(input.max ?? 1, 1));
        const written = { [p]: { value, spread: { shape: "exact" as const }, origin: "stated" as const, source: "probe" } };
        const v = viewOf({
          ...document,
          entries: [{ id: "e", at: "2026-01-01T00:00:00Z", who: "t", kind: "values", values: written, why: "probe" }],
        });
        const sources = subjects.map((at) => {
          const r = resolveInputs(sheet, benchOf(v, at), name.startsWith("rectifier") ? { rectifierType: "other" } : {});
          return r.ok ? r.value.quantities.find((q) => q.path === name)?.quantity.source : r.issues[0].path;
        });
        expect(sources, `${sheet.id} ${p}`).toContainEqual(expect.stringMatching(/^probe/));
      }
    },
  );
});
it("keeps the noise of a reading apart for the scale, in divisions, and for frequencies, as a share of them", () => {
  const entry = (path: string, text: string) => assignment(view(), path, text, { origin: "measured", why: "read ten times" }, stamp);
  expect(orThrow(entry("bands.80.readingNoise", "0.2 div"))).toMatchObject({
    values: { "bands.80.readingNoiseDivisions": { value: 0.2 } },
  });
  const wrong = entry("bands.80.readingNoiseDivisions", "2 kHz");
  expect(wrong.ok ? "" : wrong.issues[0].code).toBe("wrong-unit");
  const v = view([orThrow(entry("bands.80.readingNoise", "0.2 div")), orThrow(entry("bands.80.readingNoiseShare", "0.2 %"))]);
  const noise = (id: string) => orThrow(resolveInputs(sheetById(id)!, benchOf(v, "bands.80"))).plain.readingNoise;
  expect([noise("dial"), noise("band-edge"), noise("tracking")]).toEqual([0.2, 0.2, 0.002]);
});
it("takes a level's impedance of nothing, since it is another thing than a generator's resistance", () => {
  expect(assignment(view(), "sensitivity.sourceResistance", "0 ohm", { origin: "stated", why: "not said" }, stamp).ok).toBe(true);
});

describe("a value without a doubt", () => {
  const sat: Entry = { id: "s", at: stamp.at, who: "t", kind: "sitting", initials: "JM", meter: "VTVM, 11 MΩ", method: "" };
  const kept = (v: typeof sat | undefined, p: string, text: string, origin: "measured" | "stated") => {
    const e = orThrow(assignment(view(v ? [v] : []), p, text, { origin, why: "at the bench" }, stamp));
    return e.kind === "values" ? (e.values[p] as Quantity) : undefined;
  };
  it("that was measured has the doubt of the sitting's meter, else of a usual one, and says so", () => {
    const first = "supplies.measuredFirst";
    expect(kept(sat, first, "250 V", "measured")).toMatchObject({
      spread: { shape: "normal", u: 3.76 },
      source: "at the bench; no doubt said: 1.5 % of the sitting's meter, VTVM, 11 MΩ",
    });
    expect(kept(undefined, first, "250 V", "measured")).toMatchObject({ spread: { shape: "normal", u: 5.01 } });
    expect(kept(sat, first, "250 V ±1 V", "measured")).toMatchObject({ spread: { shape: "rectangular", half: 1 }, source: "at the bench" });
  });
  it("that stands on a part is that of a part without a tolerance band, and a rating is what it says", () => {
    expect(kept(sat, "supplies.firstResistance", "270", "stated")?.spread).toEqual({ shape: "rectangular", half: 54 });
    expect(kept(sat, "supplies.capacitorRating", "450 V", "stated")?.spread).toEqual({ shape: "exact" });
  });
});

describe("a choice that is refused", () => {
  it("by its word is told the words and the path", () => {
    const r = put("alignment.slugsTouched", "maybe");
    expect(r.ok ? [] : r.issues).toMatchObject([{ path: "alignment.slugsTouched", expected: "one of perhaps, not, yes" }]);
  });
  it("by its place is told where it is kept, and the words", () => {
    const r = put("slugsTouched", "yes");
    expect(r.ok ? "" : r.issues[0].expected).toContain("alignment.slugsTouched (one of perhaps, not, yes)");
  });
});
it("takes a bare zero for nothing, where its unit would change nothing", () => {
  const r = put("safety.bypass", "0");
  expect(r.ok && r.value.kind === "values" && r.value.values["safety.bypass"].value).toBe(0);
  expect(put("safety.bypass", "5").ok).toBe(false);
});
it("keeps how long a person takes for a piece of work, and refuses work that there is none of", () => {
  const minutes = (p: string, text: string) => assignment(view(), p, text, { origin: "stated", why: "by the clock" }, stamp);
  const kept = minutes("minutes.testScreenOhm", "25 min");
  expect(kept.ok && kept.value).toMatchObject({ kind: "values", values: { "minutes.testScreenOhm": { value: 1500 } } });
  for (const [p, text, code] of [
    ["minutes.testNothing", "25 min", "no-such-path"],
    ["minutes.testScreenOhm", "25 kΩ", "wrong-unit"],
  ]) {
    const r = minutes(p, text);
    expect(r.ok ? [] : r.issues.map((i) => i.code), p).toEqual([code]);
  }
});
