import { expect, it } from "vitest";
import type { Part } from "../../sheets/contract";
import { partsCsv, partsOf } from "./parts";

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
it("writes CSV that quotes what must be quoted and hands no formula to a spreadsheet (RFC 4180)", () => {
  const csv = partsCsv(partsOf([{ title: "x", parts: [part({ why: 'say "when", now', was: "=1+1" })] }]));
  expect(csv.split("\r\n")).toHaveLength(3);
  expect(csv).toContain('"say ""when"", now"');
  expect(csv).toContain(",'=1+1,");
});
