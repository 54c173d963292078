import { expect, it } from "vitest";
import type { Part } from "../../ask/findings";
import { patterns } from "../../set/patterns/kinds";
import type { Entry } from "../document";
import { viewOf } from "../view";
import { partsCsv, partsIn, partsOf, replacedIn } from "./parts";

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
  expect(partsOf([{ title: "x", parts: [...parts, part()] }], partsIn(view)).map((l) => l.name)).toEqual(["C9", "C30", undefined]);
});
it("asks for nothing that came in without its name: by kind and place, rated for it, until a later reading of the stage asks again", () => {
  const head = { at: "2026-01-02T00:00:00Z", who: "t" };
  const came = (id: string, kind: string, place: string, more: object = {}): Entry => ({
    ...head,
    id,
    kind: "part",
    place,
    part: kind,
    label: "",
    fault: "",
    note: "",
    out: { kind, words: "", dress: "" },
    came: { kind, words: "", dress: "", ...more },
  });
  const viewWith = (...entries: Entry[]) =>
    viewOf({ format: "fettle-job", version: 5, id: "j", name: "j", created: "2026-01-01T00:00:00Z", set: patterns[1], entries });
  const stage = `stages.${patterns[1].tubes[0].stage}`;
  const asks = [
    { title: "stage", at: stage, parts: [part({ part: "cathode resistor", fills: { kind: "cathode-resistor" } })] },
    {
      title: "line",
      at: "",
      parts: [
        part({ part: "line cord", fills: { kind: "cord-fuse-switch", word: "cord" } }),
        part({ part: "line fuse", fills: { kind: "cord-fuse-switch", word: "fuse" } }),
      ],
    },
    {
      title: "B+",
      at: "",
      parts: [part({ part: "first filter capacitor", seesBPlusRatedV: 450, fills: { kind: "first-filter-capacitor" } })],
    },
  ];
  const left = (...entries: Entry[]) => partsOf(asks, partsIn(viewWith(...entries))).map((l) => l.part);
  const all = ["cathode resistor", "line cord", "line fuse", "first filter capacitor"];
  expect(left()).toEqual(all);
  expect(left(came("a", "cathode-resistor", stage))).toEqual(all.slice(1));
  expect(left(came("a", "cathode-resistor", "stages.elsewhere"))).toEqual(all);
  expect(left(came("a", "cord-fuse-switch", "line", { words: "three-wire cord" }))).toEqual([
    "cathode resistor",
    "line fuse",
    "first filter capacitor",
  ]);
  const fuse: Entry = { ...head, id: "c", kind: "form", form: "safety-out", fields: { "Fuse rating and type": "1 A slow" } };
  expect(left(fuse)).toEqual(["cathode resistor", "line cord", "first filter capacitor"]);
  const rated = (value: number) => ({ rated: { value, spread: { shape: "exact" }, origin: "stated", source: "" } });
  expect(left(came("a", "first-filter-capacitor", "supplies", rated(450)))).toEqual(all.slice(0, 3));
  expect(left(came("a", "first-filter-capacitor", "supplies", rated(350)))).toEqual(all);
  const again: Entry = {
    ...head,
    id: "r",
    kind: "form",
    form: "voltage-chart",
    fields: { "row 1: Tube": patterns[1].tubes[0].socket, "row 1: Measured V": "9" },
  };
  expect(left(came("a", "cathode-resistor", stage), again)).toEqual(all);
});
it("writes CSV that quotes what must be quoted and hands no formula to a spreadsheet (RFC 4180)", () => {
  const csv = partsCsv(partsOf([{ title: "x", parts: [part({ why: 'say "when", now', was: "=1+1" })] }]));
  expect(csv.split("\r\n")).toHaveLength(3);
  expect(csv).toContain('"say ""when"", now"');
  expect(csv).toContain(",'=1+1,");
});
