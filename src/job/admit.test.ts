import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { patterns } from "../set/patterns/kinds";
import { sayIssue } from "../units/issue";
import { admit } from "./admit";
import type { Entry } from "./document";
import { readEntry } from "./read-job";
import { viewOf } from "./view";

const base = viewOf({
  format: "fettle-job",
  version: 5,
  id: "j",
  name: "j",
  created: "2026-01-01T00:00:00Z",
  set: patterns[1],
  entries: [{ id: "first", at: "2026-01-01T00:00:00Z", who: "t", kind: "done", step: "01", note: "" }],
});
const head = { id: "new", at: "2026-01-02T00:00:00Z", who: "t" };
const q = (value: number) => ({ value, spread: { shape: "exact" }, origin: "measured", source: "meter" });
const reading = (more: object = {}) => ({
  ...head,
  kind: "reading",
  reading: {
    id: "r",
    as: "recording",
    state: "as-found",
    step: "29b",
    stage: "",
    instrument: "",
    thermal: "warm",
    file: { name: "a.wav", hash: "" },
    columns: { seconds: [1] },
    figures: [{ name: "rms, re full scale", text: "", quantity: q(-3), dimension: "decibel" }],
    warnings: [],
    ...more,
  },
});
const instrument = (id: string) => ({
  ...head,
  kind: "instrument",
  instrument: { id, kind: "volts", label: "", ranges: [], uncertainty: "", lastCheck: "", offset: "" },
});
const deep = () => {
  let x: unknown = 1;
  for (let i = 0; i < 5000; i++) x = [x];
  return x;
};
const fitted = (names: string[], covariance: number[][]) => ({
  ...head,
  kind: "estimate",
  note: "",
  estimate: {
    id: "f",
    names,
    values: names.map(() => 1),
    logarithmic: names.map(() => true),
    covariance,
    fromReadings: [],
    model: "strip",
  },
});
const codes = (...entries: unknown[]) => {
  const r = admit(base, entries);
  return r.ok ? [] : r.issues.map((i) => i.code);
};

describe("the gate of everything that is recorded", () => {
  it.each([
    ["a reading", reading()],
    ["an instrument", instrument("dmm")],
    ["a card's field", { ...head, kind: "form", form: "intake", fields: { Owner: "the club" } }],
    ["a field emptied", { ...head, kind: "form", form: "intake", fields: { Owner: "" } }],
    ["a value", { ...head, kind: "values", values: { "line.voltage": q(121) }, why: "meter" }],
    ["a fact", { ...head, kind: "fact", path: "bands.80.oscillator", value: "below", why: "" }],
    ["work", { ...head, kind: "work", work: "pointer-moved", subject: "", note: "", makes: [], rests: [] }],
    ["a correction", { ...head, kind: "correction", supersedes: "first", why: "" }],
  ])("lets %s through", (_, entry) => expect(codes(entry)).toEqual([]));
  it.each([
    ["an instrument with an empty name", instrument(""), "too_small"],
    ["an instrument named by a blank", instrument(" "), "custom"],
    ["a figure that is none", reading({ figures: [{ name: "x", text: "", quantity: q(Number.NaN) }] }), "invalid_type"],
    ["a figure beyond all numbers", reading({ figures: [{ name: "x", text: "", quantity: q(Number.POSITIVE_INFINITY) }] }), "invalid_type"],
    ["a column with no number in it", reading({ columns: { a: [1, Number.NaN] } }), "invalid_type"],
    ["a reading at no step", reading({ step: "toString" }), "no-step"],
    ["a reading of no stage", reading({ stage: "constructor" }), "no-stage"],
    [
      "a value that is not finite",
      { ...head, kind: "values", values: { "line.voltage": q(Number.POSITIVE_INFINITY) }, why: "" },
      "invalid_type",
    ],
    ["a value nowhere", { ...head, kind: "values", values: { "line.toString": q(1) }, why: "" }, "no-such-path"],
    ["a value out of range", { ...head, kind: "values", values: { "line.voltage": q(12000) }, why: "" }, "too-large"],
    ["a fact in a structure's place", { ...head, kind: "fact", path: "line", value: "x", why: "" }, "no-such-path"],
    ["a fact in a quantity's place", { ...head, kind: "fact", path: "line.voltage", value: "x", why: "" }, "no-such-path"],
    ["a fact of a prototype", { ...head, kind: "fact", path: "__proto__.polluted", value: "x", why: "" }, "no-such-path"],
    ["a fact that is no option", { ...head, kind: "fact", path: "bands.80.oscillator", value: "sideways", why: "" }, "not-an-option"],
    ["another name for a band", { ...head, kind: "fact", path: "bands.80.id", value: "x", why: "" }, "no-such-path"],
    ["a card that is not there", { ...head, kind: "form", form: "constructor", fields: { a: "b" } }, "no-card"],
    ["a field that is not there", { ...head, kind: "form", form: "intake", fields: { toString: "x" } }, "no-field"],
    ["a row far down", { ...head, kind: "form", form: "tubes", fields: { "row 30000000: Socket": "V1" } }, "no-field"],
    ["an empty writing", { ...head, kind: "form", form: "intake", fields: {} }, "nothing-written"],
    ["a cell that is no figure", { ...head, kind: "form", form: "voltage-chart", fields: { "row 1: Measured V": "many" } }, "not-a-number"],
    ["a step that is not there", { ...head, kind: "done", step: "toString", note: "" }, "no-step"],
    ["first power before its time", { ...head, kind: "done", step: "08", note: "" }, "not-before"],
    ["work of no kind", { ...head, kind: "work", work: "constructor", subject: "", note: "", makes: [], rests: [] }, "unknown-work"],
    ["a correction of nothing", { ...head, kind: "correction", supersedes: "nobody", why: "" }, "no-entry"],
    ["an id that is taken", { ...instrument("dmm"), id: "first" }, "known"],
    ["a kind that is none", { ...head, kind: "toString" }, "invalid_union"],
    ["a date that is none", { ...instrument("dmm"), at: "yesterday" }, "custom"],
    ["data 5,000 deep", { ...instrument("dmm"), more: deep() }, "too-deep"],
    ["a fit without its covariance", fitted(["a", "b"], [[1]]), "uneven"],
    ["no entry", null, "invalid_type"],
  ])("stops %s", (_, entry, code) => expect(codes(entry)).toContain(code));
  it("names the figure that is none by its name", () => {
    const r = admit(base, [reading({ figures: [{ name: "rms, re full scale", text: "", quantity: q(Number.NEGATIVE_INFINITY) }] })]);
    expect(r.ok ? "" : r.issues[0]).toMatchObject({ path: "reading, rms, re full scale", read: "-Infinity", expected: "a finite number" });
  });
  it("reads an empty name as nothing", () => {
    const r = admit(base, [instrument("")]);
    expect(r.ok ? "" : r.issues.map(sayIssue)).toEqual(["instrument id: nothing given, expected a name that is not empty"]);
  });
  it("judges what is recorded in one go in its order, and lets nothing of it through where one is stopped", () => {
    const done = (step: string) => ({ ...head, id: `d${step}`, kind: "done", step, note: "" });
    expect(codes(done("01"), { ...instrument("dmm"), id: "i" })).toEqual([]);
    expect(codes({ ...instrument("dmm"), id: "i" }, done("08")).length).toBeGreaterThan(0);
    expect(codes()).toEqual(["wrong-number"]);
  });
  it("puts a dot in the place of what would steer a terminal", () => {
    const r = admit(base, [
      { ...instrument("dmm"), instrument: { ...instrument("dmm").instrument, label: "a\u001b[31mb\u202e\ud800c\nd" } },
    ]);
    const e = r.ok ? r.value[0] : undefined;
    expect(e?.kind === "instrument" ? e.instrument.label : "").toBe("a·[31mb··c\nd");
  });
  it("lets nothing through that would not be read back", () => {
    const texts = [reading(), instrument("dmm"), fitted(["a"], [[1]])].map((e) => JSON.stringify(e));
    const put = fc.constantFrom("null", "1e999", "[]", "{}", '""', "-1", '"__proto__"', '{"__proto__":1}', "0");
    fc.assert(
      fc.property(fc.constantFrom(...texts), fc.nat(900), fc.nat(9), put, (text, at, cut, other) => {
        let data: unknown;
        try {
          data = JSON.parse(text.slice(0, at) + other + text.slice(at + cut));
        } catch {
          return;
        }
        const r = admit(base, [data]);
        if (!r.ok) return;
        // JSON keeps no sign of a zero
        const stored: unknown = JSON.parse(JSON.stringify(r.value[0]));
        const back = readEntry(stored);
        expect(back.ok && (back.value as Entry)).toEqual(stored);
      }),
      { numRuns: 3000 },
    );
  });
});
