import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { patterns } from "../set/patterns/kinds";
import { cardIssues, cardRows, writingOn, writtenOn } from "./cards";
import type { Entry } from "./document";
import { benchOf, viewOf } from "./view";

let n = 0;
const card = (fields: Record<string, string>, who = "t", form = "intake"): Entry => ({
  id: `e${++n}`,
  at: `2026-01-01T00:00:${String(n % 60).padStart(2, "0")}Z`,
  who,
  kind: "form",
  form,
  fields,
});
const view = (entries: readonly Entry[]) =>
  viewOf({ format: "fettle-job", version: 5, id: "j", name: "j", created: "", set: patterns[1], entries: [...entries] });

describe("a record card", () => {
  it("keeps both of two fields that two hands write at once, each with who and when", () => {
    const [one, two] = [card({ Owner: "the club" }, "one"), card({ Symptoms: "hum" }, "two")];
    const written = writingOn(view([one, two]), "intake");
    expect(written.get("Owner")).toEqual({ text: "the club", who: "one", at: one.at, entry: one.id });
    expect(written.get("Symptoms")).toEqual({ text: "hum", who: "two", at: two.at, entry: two.id });
  });
  it("loses a field that is emptied, and no other", () => {
    const v = view([card({ Owner: "the club", Symptoms: "hum" }), card({ Symptoms: "" })]);
    expect(writtenOn(v, "intake")).toEqual({ Owner: "the club" });
    expect(benchOf(v, "").cardField("intake", "Symptoms")).toBeUndefined();
    expect(benchOf(v, "").cardField("intake", "constructor")).toBeUndefined();
  });
  it("has at most 999 rows, whatever an old entry says", () => {
    const rows = cardRows(view([card({ "row 30000000: Pin": "3", "row 2: Pin": "4" }, "t", "voltage-chart")]), "voltage-chart");
    expect(rows.map((r) => [r.number, r.cells.Pin])).toEqual([[2, "4"]]);
  });
  it("is the last writing of each field, however the writings are cut into entries", () => {
    const field = fc.constantFrom("Owner", "Symptoms", "Condition");
    fc.assert(
      fc.property(fc.array(fc.tuple(field, fc.constantFrom("", "a", "b"))), fc.nat(4), (writings, size) => {
        const last = new Map(writings);
        const whole: Entry[] = [];
        for (let i = 0; i < writings.length; i += size + 1) whole.push(card(Object.fromEntries(writings.slice(i, i + size + 1))));
        expect(writtenOn(view(whole), "intake")).toEqual(Object.fromEntries([...last].filter(([, text]) => text !== "")));
      }),
    );
  });
});

describe("a cell of the capacitor survey, as it is typed", () => {
  it.each(["0", "-450", "-450 V", "0 V"])("is not rated %s", (text) =>
    expect(cardIssues("capacitors", { "row 1: Rated V": text })).toMatchObject([
      { path: "row 1: Rated V", code: "not-positive", read: text },
    ]),
  );
  it.each(["0", "-20 uF"])("is not of %s", (text) =>
    expect(cardIssues("capacitors", { "row 2: Value": text }).map((i) => i.code)).toEqual(["not-positive"]),
  );
  it("may leak nothing, and not less", () => {
    expect(cardIssues("capacitors", { "row 1: Rated V": "450", "row 1: Value": "20 uF", "row 1: Leakage mA": "0" })).toEqual([]);
    expect(cardIssues("capacitors", { "row 1: Leakage mA": "-1" }).map((i) => i.code)).toEqual(["negative"]);
  });
});
it("judges the line on whichever card: what no line can have never stands beside what one had", () => {
  for (const text of ["abc", "-5 kHz", "0", "12 kV"]) {
    expect(
      cardIssues("voltage-chart", { "Line volts": text }).map((i) => i.path),
      text,
    ).toEqual(["Line volts"]);
    expect(
      cardIssues("performance", { "Line volts": text }).map((i) => i.path),
      text,
    ).toEqual(["Line volts"]);
  }
  for (const text of ["121", "121 V", "236 V ± 2 V", ""]) expect(cardIssues("voltage-chart", { "Line volts": text }), text).toEqual([]);
});
