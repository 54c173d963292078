import { describe, expect, it } from "vitest";
import { admit } from "../job/admit";
import { formatVersion } from "../job/format";
import { nextSteps, proofIssues } from "../job/next";
import { comingIn } from "../job/proved.testdata";
import { refusalLines } from "../job/refusal";
import { type JobView, viewOf } from "../job/view";
import type { SetDescription } from "../set/describe";
import { patterns } from "../set/patterns/kinds";
import { sheetById } from "../sheets/index";
import { InputError, orThrow } from "../units/issue";
import { exact } from "../units/quantity";
import { ask } from "./actions";
import { type MendSaid, mending } from "./mend";

/** A set that a Q multiplier is fitted to, invented; parts are changed in it and both of its states read. */
let n = 0;
const stamp = () => ({ at: new Date(Date.UTC(2026, 2, 1) + 60e3 * ++n).toISOString(), who: "t", newId: () => `a${++n}` });
const head = () => {
  const { at, who, newId } = stamp();
  return { id: newId(), at, who };
};
const set: SetDescription = {
  ...structuredClone(patterns[1]),
  fittings: patterns[1].fittings.map((f) => ({ ...structuredClone(f), state: f.id === "qm" ? "set" : "offered" })),
};
const blank = viewOf({
  format: "fettle-job",
  version: formatVersion,
  id: "j",
  name: "j",
  created: "2026-01-01T00:00:00Z",
  set,
  entries: [],
});
const put = (view: JobView, ...entries: readonly Record<string, unknown>[]): JobView =>
  viewOf({
    ...view.document,
    entries: [
      ...view.document.entries,
      ...orThrow(
        admit(
          view,
          entries.map((e) => ({ ...head(), ...e })),
        ),
      ),
    ],
  });
const nothing = { is: "", measured: "", rated: "" };
const mend = (view: JobView, said: Partial<MendSaid>): JobView => {
  const whole = { part: "", place: "", label: "", out: nothing, came: nothing, dress: "", fault: "", note: "", now: {}, ...said };
  return viewOf({ ...view.document, entries: [...view.document.entries, ...mending(view, whole, stamp()).entries] });
};
const survey = (form: string, rows: readonly Readonly<Record<string, string>>[]) => ({
  kind: "form",
  form,
  fields: Object.fromEntries(rows.flatMap((r, i) => Object.entries(r).map(([c, text]) => [`row ${i + 1}: ${c}`, text]))),
});
const said = (view: JobView, id: string, at?: string) => {
  const a = ask(sheetById(id)!, view, at, { draws: 5, points: 11 });
  return { ids: a.findings.map((f) => f.id), text: [a.headline, ...a.findings.map((f) => f.says)].join(" "), results: a.results };
};

describe("a capacitor of an accessory that was mended", () => {
  const dried = {
    Accessory: "Q multiplier",
    Part: "C3",
    Kind: "electrolytic",
    Duty: "filter",
    Value: "8 uF",
    "Measured value": "0.19 uF",
    "Rated V": "450",
  };
  const paper = { Accessory: "Q multiplier", Part: "", Kind: "wax paper", Duty: "coupling", Value: "0.01 uF", "Rated V": "400" };
  const found = put(blank, survey("accessory-capacitors", [dried, paper]));
  const came = { is: "10 uF", measured: "", rated: "500 V" };
  it("is judged before, and its row is struck off after, by its name", () => {
    expect(said(found, "accessory-capacitors", "fittings.qm").text).toContain("dried out");
    const after = mend(found, { part: "accessory-capacitor", place: "fittings.qm", label: "C3", came });
    const now = said(after, "accessory-capacitors", "fittings.qm");
    expect(now.text).not.toContain("dried out");
    expect(now.results.replace.value).toBe(1);
  });
  it("is found by its marking where it has no name, asked for where two have the same, and any of those that are quite alike", () => {
    const out = { is: "0.01 uF", measured: "", rated: "" };
    const after = mend(found, { part: "accessory-capacitor", place: "fittings.qm", out, came: { ...came, is: "10 nF" } });
    expect(said(after, "accessory-capacitors", "fittings.qm").results.replace.value).toBe(1);
    const twice = put(blank, survey("accessory-capacitors", [paper, { ...paper, Duty: "screen bypass" }]));
    const either = (label: string) =>
      mend(twice, { part: "accessory-capacitor", place: "fittings.qm", label, out, came: { ...came, is: "10 nF" } });
    expect(() => either("")).toThrow(/which one of the survey it was: coupling, screen bypass/);
    expect(said(either("screen bypass"), "accessory-capacitors", "fittings.qm").results.replace.value).toBe(1);
    // three alike: each that comes in takes one off the list
    let alike = put(blank, survey("accessory-capacitors", [paper, paper, paper]));
    for (const left of [2, 1, 0]) {
      alike = mend(alike, { part: "accessory-capacitor", place: "fittings.qm", out, came: { ...came, is: "10 nF" } });
      expect(said(alike, "accessory-capacitors", "fittings.qm").results.replace.value).toBe(left);
    }
    // nobody could read the old one, and it is the only one
    const only = mend(put(blank, survey("accessory-capacitors", [paper])), {
      part: "accessory-capacitor",
      place: "fittings.qm",
      came: { ...came, is: "10 nF" },
    });
    expect(said(only, "accessory-capacitors", "fittings.qm").results.replace.value).toBe(0);
  });
  it("leaves a survey of nothing behind when all of it is out: no example is judged in its place", () => {
    const one = put(blank, survey("accessory-capacitors", [dried]));
    const after = mend(one, { part: "accessory-capacitor", place: "fittings.qm", label: "C3", came });
    const now = said(after, "accessory-capacitors", "fittings.qm").results;
    expect([now.replace.value, now.toReform.value, now.toMeasure.value, now.sound.value]).toEqual([0, 0, 0, 0]);
  });
  it("is judged anew where its row was written again after, and the old one comes back when the mend is taken back", () => {
    const after = mend(found, { part: "accessory-capacitor", place: "fittings.qm", label: "C3", came });
    const again = put(after, survey("accessory-capacitors", [{ ...dried, "Measured value": "2 uF" }]));
    expect(said(again, "accessory-capacitors", "fittings.qm").text).toContain("dried out");
    const work = after.inForce.find((e) => e.kind === "part")!;
    const back = put(after, { kind: "correction", supersedes: work.id, why: "the wrong part" });
    expect(said(back, "accessory-capacitors", "fittings.qm").text).toContain("dried out");
  });
  it("in series at B+ is to be measured, new as it is", () => {
    const series = { Accessory: "", Part: "C1", Kind: "wax paper", Duty: "series at B+", Value: "1 nF", "Rated V": "400" };
    const before = put(blank, survey("accessory-capacitors", [series]));
    expect(said(before, "accessory-capacitors", "fittings.qm").text).toContain("it goes");
    const after = mend(before, {
      part: "series-capacitor",
      place: "fittings.qm",
      label: "C1",
      came: { is: "1 nF", measured: "", rated: "1000 V" },
    });
    const now = said(after, "accessory-capacitors", "fittings.qm");
    expect(now.text).toContain("measure its leakage before anything is plugged in");
    expect(now.text).not.toContain("wax paper");
    const rated = mend(before, {
      part: "series-capacitor",
      place: "fittings.qm",
      label: "C1",
      came: { is: "1 nF", measured: "", rated: "100 V" },
    });
    expect(said(rated, "accessory-capacitors", "fittings.qm").text).toContain("rated 100 V, under");
  });
});
it("a capacitor of the set's own that was mended is struck off its survey in the same way", () => {
  const rows = [
    { Part: "C14", Kind: "wax paper", Duty: "coupling", Value: "0.01 uF", "Rated V": "400" },
    { Part: "C15", Kind: "wax paper", Duty: "screen bypass", Value: "0.05 uF", "Rated V": "400" },
  ];
  const found = put(blank, survey("capacitors", rows));
  expect(said(found, "reform").results.replaceUnseen.value).toBe(2);
  const place = `stages.${set.stages.find((s) => s.kind === "audio")!.id}`;
  const after = mend(found, { part: "coupling-capacitor", place, label: "C14", came: { is: "10 nF", measured: "", rated: "630 V" } });
  expect(said(after, "reform").results.replaceUnseen.value).toBe(1);
  const both = mend(after, { part: "bypass-capacitor", place, label: "C15", came: { is: "47 nF", measured: "", rated: "630 V" } });
  expect(said(both, "reform").results.replaceUnseen.value).toBe(0);
});

describe("the step that proves both states of an accessory", () => {
  const read = (value: number) => ({ value, spread: exact, origin: "measured", source: "meter" });
  const values = (levelWith: number) => ({
    kind: "values",
    why: "read",
    values: {
      "fittings.qm.levelBefore": read(12e-6),
      "fittings.qm.levelWithout": read(12.2e-6),
      "fittings.qm.levelWith": read(levelWith),
      "fittings.qm.widthBefore": read(6100),
      "fittings.qm.widthWithout": read(6050),
      "fittings.qm.connectorRead": read(0.1),
      "fittings.qm.tapWithout": read(250),
      "fittings.qm.tapWith": read(247),
      "fittings.qm.heaterVolts": read(6.2),
    },
  });
  const done = { kind: "done", step: "31e", note: "" };
  const ready = viewOf({
    ...blank.document,
    entries: [...comingIn(head), ...["02", "03", "04", "08"].map((step) => ({ ...head(), kind: "done" as const, step, note: "" }))],
  });
  const refused = (view: JobView): string => {
    try {
      put(view, done);
    } catch (e) {
      if (e instanceof InputError)
        return refusalLines(e.issues)
          .map((l) => l.says)
          .join(" ");
      throw e;
    }
    return "";
  };
  const state = (view: JobView) => view.steps.find((s) => s.id === "31e")?.state;

  it("can't be said to be proved before both were read, and says what is missing, in one line and in the list of what is next", () => {
    const lines = refused(ready);
    expect(lines).toMatch(/^Not read yet: generator level/);
    expect(lines).toContain("accessory unplugged");
    expect(nextSteps(ready).find((i) => i.step === "31e")?.wanted.length).toBe(9);
    const part = put(ready, {
      ...values(10e-6),
      values: Object.fromEntries(Object.entries(values(10e-6).values).filter(([p]) => !/levelWith$/.test(p))),
    });
    expect(proofIssues(part, "31e").map((i) => i.path)).toEqual(["fittings.qm.levelWith"]);
  });
  it("is proved by readings that hold, not by some that don't, nor by some from before work on the accessory", () => {
    const whole = put(ready, values(10e-6));
    expect(refused(whole)).toBe("");
    expect(state(put(whole, done))).toBe("proven");
    expect(refused(put(ready, values(60e-6)))).toContain("both states to hold. With it the gain changes by");
    const worked = mend(put(whole, done), { part: "accessory-part", place: "fittings.qm", note: "socket cleaned" });
    expect(state(worked)).toBe("due again");
    expect(refused(worked)).toContain("a reading taken after the work that touched it");
    expect(proofIssues(worked, "31e").some((i) => /Before$/.test(i.path))).toBe(false);
    expect(refused(put(worked, values(10e-6)))).toBe("");
  });
  it("is proved by nothing that is only a guess, however it was kept", () => {
    const whole = values(10e-6);
    const guessed = put(ready, {
      ...whole,
      values: Object.fromEntries(Object.entries(whole.values).map(([p, q]) => [p, { ...q, origin: "assumed" }])),
    });
    expect(refused(guessed)).toMatch(/^Not read yet: generator level/);
    expect(said(guessed, "accessory-proof", "fittings.qm").results.toRead.value).toBe(9);
  });
  it("names the accessory whose reading is missing, where there are several", () => {
    const two = { ...ready.document.set, fittings: ready.document.set.fittings.map((f) => ({ ...f, state: "set" as const })) };
    const lines = refused(put(viewOf({ ...ready.document, set: two }), values(10e-6)));
    expect(lines).toMatch(/Crystal converter, generator level/);
    expect(lines).not.toMatch(/Q multiplier, generator level/);
  });
  it("does not count as proved by a word alone, whatever file that came by", () => {
    const word = viewOf({ ...ready.document, entries: [...ready.document.entries, { ...head(), kind: "done", step: "31e", note: "" }] });
    expect(state(word)).toBe("in work");
  });
});
