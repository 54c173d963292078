import { expect, it } from "vitest";
import type { Part } from "../../ask/findings";
import { patterns } from "../../set/patterns/kinds";
import type { Entry } from "../document";
import { viewOf } from "../view";
import { partsCsv, partsOf, replacedIn } from "./parts";

const part = (more: Partial<Part> = {}): Part => ({
  part: "capacitor, filter",
  was: "20 mfd, 450 V",
  value: "22 µF",
  rating: "450 V",
  kind: "electrolytic",
  quantity: 1,
  why: "leaks",
  ...more,
});

it("puts like parts of one question together by number, and asks once for what two questions ask", () => {
  const lines = partsOf([
    { title: "Capacitors", parts: [part(), part(), part({ value: "10 µF" })] },
    { title: "B+", parts: [part()] },
  ]);
  expect(lines.map((l) => [l.value, l.quantity, l.from])).toEqual([
    ["22 µF", 2, ["Capacitors", "B+"]],
    ["10 µF", 1, ["Capacitors"]],
  ]);
});
it("asks for nothing that a card or a work says is in already", () => {
  const head = { at: "2026-01-02T00:00:00Z", who: "t" };
  const entries: Entry[] = [
    {
      ...head,
      id: "p",
      kind: "form",
      form: "parts",
      fields: { "row 1: Part": "c14", "row 1: New value and rating": "22 nF, 630 V", "row 2: Part": "C9" },
    },
    {
      ...head,
      id: "w",
      kind: "work",
      work: "capacitor-replaced",
      subject: "stages.audio",
      note: "C 20 and C21 in, film",
      makes: [],
      rests: [],
    },
    { ...head, id: "v", kind: "work", work: "if-aligned", subject: "", note: "C30 peaked", makes: [], rests: [] },
  ];
  const view = viewOf({ format: "fettle-job", version: 5, id: "j", name: "j", created: "2026-01-01T00:00:00Z", set: patterns[1], entries });
  expect([...replacedIn(view)].sort()).toEqual(["C14", "C20", "C21"]);
  const parts = ["C9", "C14", "C20", "C30"].map((name) => part({ name, value: name }));
  expect(partsOf([{ title: "x", parts: [...parts, part()] }], replacedIn(view)).map((l) => l.name)).toEqual(["C9", "C30", undefined]);
});
it("writes CSV that quotes what must be quoted and hands no formula to a spreadsheet (RFC 4180)", () => {
  const csv = partsCsv(partsOf([{ title: "x", parts: [part({ why: 'say "when", now', was: "=1+1" })] }]));
  expect(csv.split("\r\n")).toHaveLength(3);
  expect(csv).toContain('"say ""when"", now"');
  expect(csv).toContain(",'=1+1,");
});
