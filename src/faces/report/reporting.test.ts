import { expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { ask } from "../../desk/actions";
import { sayLeftOut } from "../../desk/left-out";
import type { Entry, JobDocument } from "../../job/document";
import { allKnown, takeKnown } from "../../job/known-answers";
import { proofOf } from "../../job/rollups/proof/proof";
import { benchOf, subjectsOf, viewOf } from "../../job/view";
import type { SetDescription } from "../../set/describe";
import { patterns } from "../../set/patterns/kinds";
import { reform } from "../../sheets/reform/sheet";
import { whichMarker } from "../../sheets/which-marker/sheet";
import { orThrow } from "../../units/issue";
import { tolerance } from "../../units/quantity";
import { answersBut, partsList, reportAnswers, reportSheets } from "./reporting";
import { technicalRecord } from "./technical-record";

const set = patterns[1];
const marker = set.fittings.find((f) => f.kind === "marker-generator")!;
const withMultiplier = { ...set, fittings: set.fittings.map((f) => (f.kind === "q-multiplier" ? { ...f, state: "set" as const } : f)) };
const job = (entries: Entry[], of: SetDescription = withMultiplier): JobDocument => ({
  format: "fettle-job",
  version: 5,
  id: "j",
  name: "j",
  created: "2026-01-01T00:00:00Z",
  set: of,
  entries,
});
const dial: Entry = {
  id: "e",
  at: "2026-01-02T00:00:00Z",
  who: "t",
  kind: "values",
  values: { [`fittings.${marker.id}.dialFrequency`]: { value: 3.6e6, spread: tolerance(2e3), origin: "measured", source: "the dial" } },
  why: "the dial",
};

it("hands over no answer that rests on an example, and takes it in once the set was read", () => {
  const idsOf = (entries: Entry[]) => reportSheets(viewOf(job(entries))).map((s) => s.sheet.id);
  const before = idsOf([]);
  expect(before).toContain("cable-load");
  expect(before).not.toContain("which-marker");
  expect(before).not.toContain("marker-trim");
  expect(idsOf([dial])).toContain("which-marker");
});

it("has sections on an accessory that is planned or there, or of which something is on record, and on no other", () => {
  const kindsIn = (of: SetDescription, entries: Entry[] = []) =>
    new Set(
      reportSheets(viewOf(job(entries, of))).flatMap(({ at }) => of.fittings.filter((f) => at === `fittings.${f.id}`).map((f) => f.id)),
    );
  for (const p of patterns) {
    const as = (id: string, state: "offered" | "planned") => ({
      ...p,
      fittings: p.fittings.map((f) => ({ ...f, state: f.id === id ? state : ("offered" as const) })),
    });
    for (const f of p.fittings) {
      const only = new Set([f.id]);
      expect(kindsIn(as(f.id, "offered")), p.pattern).toEqual(new Set());
      expect(kindsIn(as(f.id, "planned")), `${p.pattern} ${f.id}`).toEqual(only);
      const length = { value: 1, spread: tolerance(0.01), origin: "measured" as const, source: "ruler" };
      const said: Entry = { ...dial, kind: "values", values: { [`fittings.${f.id}.cableLength`]: length }, why: "ruler" };
      expect(kindsIn(as(f.id, "offered"), [said]), `${p.pattern} ${f.id}`).toEqual(only);
    }
    const cover = JSON.stringify(technicalRecord({ view: viewOf(job([], as("", "offered"))), answers: [] }));
    expect(cover).not.toContain("offered");
  }
});

it("calls an answer an example while what it must read is assumed", () => {
  const asked = (entries: Entry[]) => orThrow(answer(whichMarker, benchOf(viewOf(job(entries)), `fittings.${marker.id}`), { draws: 50 }));
  expect(asked([]).headline).toMatch(/Not enough recorded to judge this set yet\. Missing: what the dial says at the marker\. /);
  expect(asked([dial]).headline).not.toContain("Nothing to say");
});

it("names what was assumed by what it means, and strands no heading from its rows", () => {
  const view = viewOf(job([dial]));
  const sheet = reportSheets(view).find((s) => s.sheet.id === "cable-load")!.sheet;
  const a = orThrow(answer(sheet, benchOf(view, subjectsOf(view.set, sheet.subject, sheet.fitting)[0]), { draws: 50, points: 21 }));
  const text = JSON.stringify(technicalRecord({ view, answers: [{ sheet, answer: a }] }));
  expect(text).toContain("How far the slug can lower (or raise) the primary's inductance");
  const [, first] = /"What was assumed: ([^"]*)"/.exec(text) ?? [];
  expect(first).toBeTruthy();
  const kept = text.match(/"headerRows":[123],"keepWithHeaderRows":[12],"dontBreakRows":true/g)!;
  expect(kept.length).toBeGreaterThan(3);
  expect(kept).toHaveLength(text.match(/"headerRows"/g)!.length);
});

it("leaves out what is refused, and names it with why: one zero beat stops nothing, nor does a cell that is no figure", async () => {
  const beat: Entry = {
    id: "z",
    at: "2026-01-02T00:00:00Z",
    who: "t",
    kind: "reading",
    reading: {
      id: "r",
      as: "dial",
      state: "as-left",
      step: "26",
      stage: "",
      instrument: "",
      thermal: "warm",
      band: set.bands[0].id,
      setPoint: "",
      file: { name: "typed in", hash: "" },
      columns: { reading: [20], frequencyHz: [set.bands[0].low.value * 1.1], approach: [1] },
      figures: [],
      warnings: [],
    },
  };
  const cell: Entry = { ...beat, id: "c", kind: "form", form: "capacitors", fields: { "row 1: Part": "C1", "row 1: Value": "many" } };
  const view = viewOf(job([beat, cell]));
  const { answers, leftOut } = await reportAnswers(view, { draws: 10, points: 11 });
  expect(leftOut.map((l) => l.title)).toEqual(expect.arrayContaining(["The dial", "Inside the band"]));
  expect(leftOut.find((l) => l.title === "The dial")?.why).toContain("zero beats");
  expect(answers.length).toBeGreaterThan(3);
  // a cell that is no figure is named by its sheet, which goes round it
  const survey = orThrow(answer(reform, benchOf(view, ""), { draws: 5 }));
  expect(survey.findings.some((f) => f.id.startsWith("cell-not-read") && f.says.includes("many"))).toBe(true);
  expect((await partsList(view)).leftOut).toEqual([]);
  expect(proofOf(view)).toBeInstanceOf(Array);
  expect(JSON.stringify(technicalRecord({ view, answers: [], leftOut: leftOut.map(sayLeftOut) }))).toContain(
    "Left out: The dial, because points",
  );
});

it("takes what was worked out elsewhere of the same job as it is, in a list of parts too, and works out what is left", async () => {
  const view = viewOf(job([dial]));
  const all = reportSheets(view);
  const others = await answersBut(
    view,
    all.slice(2).map(({ sheet }) => ({ sheet: sheet.id })),
  );
  expect(others.map((a) => a.sheet)).toEqual(all.slice(0, 2).map(({ sheet }) => sheet.id));
  const again = viewOf(structuredClone(view.document));
  const [first] = structuredClone(allKnown(view));
  takeKnown(again, [first]);
  expect(ask(all[0].sheet, again, undefined, {})).toBe(first[1]);
  expect(ask(all[1].sheet, again, undefined, {})).toEqual(others[1]);
  const few = { draws: 50, points: 11 };
  const asking = all.find(({ sheet, at }) => sheet.parts && ask(sheet, view, at, few).parts.length > 0)!;
  const wanting = ask(asking.sheet, view, asking.at, few);
  const third = viewOf(structuredClone(view.document));
  const inFull = JSON.stringify([wanting.sheet, wanting.at, {}]);
  takeKnown(third, [[inFull, { ...wanting, parts: [{ ...wanting.parts[0], value: "worked out elsewhere" }] }]]);
  expect((await partsList(third)).lines.map((l) => l.value)).toContain("worked out elsewhere");
});
