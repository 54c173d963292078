import fc from "fast-check";
import { expect, it } from "vitest";
import { readCsv } from "./csv";
import { csvCell, plainCell } from "./csv-cell";

it("comes back as it was written, whatever the texts", () => {
  const text = fc.oneof(fc.string(), fc.constantFrom("=1+1", "'=1", "''-x", "a,b", 'say "so"', "two\nlines", "\r\n", "'", "@x", "-3"));
  fc.assert(
    fc.property(fc.array(fc.array(text, { minLength: 2, maxLength: 4 }), { minLength: 1 }), (rows) => {
      const written = rows.map((r) => r.map(csvCell).join(",")).join("\r\n");
      expect(readCsv(written).map((r) => r.map(plainCell))).toEqual(rows);
    }),
  );
});
it("begins no cell with what a spreadsheet would run", () => {
  for (const t of ["=1+1", "+1", "-1", "@sum", "\tx", "'=1"]) expect(csvCell(t)).toMatch(/^"?'/);
  expect(csvCell("grid")).toBe("grid");
});
